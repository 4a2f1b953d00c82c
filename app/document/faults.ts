/** A fault in a file: where, what was found, what is expected. */
import type { z } from 'zod';
import { boundWords, EXPECTED, FOUND } from './faultWords.ts';

export interface Fault {
  /** Field path as in `part.zones[0].areaM2`; `(file)` for the file as a whole. */
  readonly path: string;
  readonly found: string;
  readonly expected: string;
}

type Issue = z.core.$ZodIssue;
type Path = readonly PropertyKey[];

/** One fault for every issue of a failed zod parse of `raw`. */
export function faultsOf(issues: readonly Issue[], raw: unknown): Fault[] {
  return issues.flatMap((issue) => faultsOfIssue(issue, raw));
}

function faultsOfIssue(issue: Issue, raw: unknown): Fault[] {
  if (issue.code === 'unrecognized_keys') {
    return issue.keys.map((key) => ({
      path: pathText([...issue.path, key]),
      found: FOUND.unknownField(),
      expected: EXPECTED.noSuchField(),
    }));
  }
  if (issue.code === 'invalid_union') return [unionFault(issue, raw)];
  return [
    {
      path: pathText(issue.path),
      found: describe(valueAt(raw, issue.path)),
      expected: expectedOf(issue),
    },
  ];
}

function unionFault(issue: Extract<Issue, { code: 'invalid_union' }>, raw: unknown): Fault {
  const forms = issue.errors.flatMap((branch) => branch.slice(0, 1).map(expectedOf));
  return {
    path: pathText(issue.path),
    found: describe(valueAt(raw, issue.path)),
    expected: EXPECTED.anyOf({ forms }) || EXPECTED.allowedForm(),
  };
}

function expectedOf(issue: Issue): string {
  switch (issue.code) {
    case 'invalid_type':
      return EXPECTED.ofType({ type: issue.expected });
    case 'too_small':
      return boundWords(issue.origin, issue.inclusive ? 'at least' : 'more than', issue.minimum);
    case 'too_big':
      return boundWords(issue.origin, issue.inclusive ? 'at most' : 'less than', issue.maximum);
    case 'invalid_value':
      return EXPECTED.oneOf({ values: issue.values.map(String) });
    default:
      return issue.message.replace(/^Invalid (input|string): ?/i, '') || EXPECTED.validValue();
  }
}

/** `part.zones[0].areaM2` from its keys. */
function pathText(path: Path): string {
  if (path.length === 0) return '(file)';
  return path
    .map((key, i) => (typeof key === 'number' ? `[${key}]` : `${i === 0 ? '' : '.'}${String(key)}`))
    .join('');
}

function valueAt(raw: unknown, path: Path): unknown {
  let current = raw;
  for (const key of path) {
    if (typeof current !== 'object' || current === null) return undefined;
    current = (current as Record<PropertyKey, unknown>)[key];
  }
  return current;
}

const LONGEST_SHOWN = 60;

/** A value in a few words, on one line, for an error message. */
export function describe(value: unknown): string {
  if (value === undefined) return 'nothing';
  if (Array.isArray(value)) return `a list of ${value.length}`;
  if (typeof value === 'object' && value !== null) return 'an object';
  const text = JSON.stringify(value);
  return text.length > LONGEST_SHOWN ? `${text.slice(0, LONGEST_SHOWN)}…` : text;
}
