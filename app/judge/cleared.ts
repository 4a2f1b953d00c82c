/** Which findings a change of the build mends, and which it brings: by code, subject and severity. */
import type { Finding } from '../document/schema.ts';

export type Told = Pick<Finding, 'code' | 'severity' | 'stage' | 'numbers'>;

const RANK = { note: 0, warn: 1, stop: 2 } as const;

/** A moment or a date among the numbers of a finding names nothing. */
const IS_DATE = /^\d{4}-\d\d-\d\d/;

/** What a finding is about: its stage, and what is named among its numbers. */
function subjectOf({ stage, numbers }: Told): string {
  const names = Object.values(numbers).filter(
    (one): one is string => typeof one === 'string' && !IS_DATE.test(one),
  );
  return [stage ?? '', ...names].join('\n');
}

/** The findings of a code that are as grave as one, or graver. */
const asGrave = (all: readonly Told[], { code, severity }: Told): Told[] =>
  all.filter((one) => one.code === code && RANK[one.severity] >= RANK[severity]);

/**
 * Whether a finding that stands before is gone after. One of the same code that is less grave may be left.
 * Where others of its code stay, one on its subject must have stood before, none may stand after, and they
 * must have become fewer: what only moves to another bag is not gone.
 */
export function isCleared(finding: Told, before: readonly Told[], after: readonly Told[]): boolean {
  const [had, has] = [asGrave(before, finding), asGrave(after, finding)];
  if (had.length === 0) return false;
  if (has.length === 0) return true;
  const subject = subjectOf(finding);
  const onIt = (one: Told): boolean => subjectOf(one) === subject;
  return had.some(onIt) && !has.some(onIt) && has.length < had.length;
}

/**
 * The findings that a change brings, the gravest of each code: stops and warnings of which there are more than
 * before, notes of a code that was not there.
 */
export function brought(before: readonly Told[], after: readonly Told[]): Told[] {
  const more = after.filter((one) => {
    const had = asGrave(before, one).length;
    return one.severity === 'note' ? had === 0 : asGrave(after, one).length > had;
  });
  return gravestOfEach(more);
}

/** Whether nothing of the code was as grave. */
export const isOfANewKind = (one: Told, before: readonly Told[]): boolean =>
  asGrave(before, one).length === 0;

/** What is left, less grave, of a code of which something is gone. */
export const leftOver = (gone: readonly Told[], after: readonly Told[]): Told[] =>
  gravestOfEach(
    after.filter((left) =>
      gone.some(({ code, severity }) => code === left.code && RANK[severity] > RANK[left.severity]),
    ),
  );

const gravestOfEach = (all: readonly Told[]): Told[] =>
  all.filter(
    (one, i) =>
      !all.some(
        (other, j) =>
          other.code === one.code &&
          (RANK[other.severity] > RANK[one.severity] || (other.severity === one.severity && j < i)),
      ),
  );
