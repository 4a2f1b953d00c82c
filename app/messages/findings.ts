/** Every finding the program can make. The codes are part of the contract; English is what is published. */
import type { Finding } from '../document/schema.ts';
import { CURE_FINDINGS } from './cure.ts';
import { DATE_FINDINGS } from './dates.ts';
import { HEAT_FINDINGS } from './heat.ts';
import { PART_HEAT_FINDINGS } from './heatOnPart.ts';
import { MATERIAL_FINDINGS } from './materials.ts';
import { PART_FINDINGS } from './part.ts';
import { ROUTE_FINDINGS } from './route.ts';
import type { FindingSpec, None, Numbers, Reach, Severity } from './spec.ts';
import { WORK_FINDINGS } from './work.ts';

export const FINDINGS = {
  ...PART_FINDINGS,
  ...MATERIAL_FINDINGS,
  ...CURE_FINDINGS,
  ...HEAT_FINDINGS,
  ...PART_HEAT_FINDINGS,
  ...ROUTE_FINDINGS,
  ...DATE_FINDINGS,
  ...WORK_FINDINGS,
} as const;

export type FindingCode = keyof typeof FINDINGS;

type Words = {
  readonly [C in FindingCode]: (typeof FINDINGS)[C] extends FindingSpec<infer Args, infer S>
    ? { readonly args: unknown extends Args ? None : Args; readonly severity: S }
    : never;
};

/** What the words of a finding are made from. */
export type FindingArgs<C extends FindingCode> = Words[C]['args'];

/** Where a finding is, and how severe where its entry leaves that open. */
type Where<C extends FindingCode> = Words[C]['severity'] extends readonly (infer S)[]
  ? [where: { readonly severity: S; readonly stage?: string | null }]
  : [where?: { readonly severity?: undefined; readonly stage?: string | null }];

/** A finding as judged, with its published words; levers are added where something would help. */
export function finding<C extends FindingCode>(
  code: C,
  args: FindingArgs<C>,
  ...[where]: Where<C>
): Finding {
  const spec: FindingSpec<never, Severity | readonly Severity[]> = FINDINGS[code];
  const words = spec.words as (args: FindingArgs<C>) => string;
  const numbers = spec.numbers as ((args: FindingArgs<C>) => Numbers) | undefined;
  return {
    code,
    severity: (where?.severity ?? spec.severity) as Severity,
    stage: where?.stage ?? null,
    message: words(args),
    numbers: numbers?.(args) ?? {},
    levers: [],
  };
}

const CODES = Object.keys(FINDINGS) as FindingCode[];

/** The codes whose entries pass a test. */
export const codesWhere = (
  test: (
    spec: Omit<FindingSpec<never, Severity | readonly Severity[]>, 'words' | 'numbers'>,
  ) => boolean,
): ReadonlySet<string> => new Set(CODES.filter((code) => test(FINDINGS[code])));

/** What a published code means; the code itself where this version does not know it. */
export const meaningOf = (code: string): string =>
  Object.hasOwn(FINDINGS, code) ? FINDINGS[code as FindingCode].meaning : code;

/** Where a finding makes work unsafe while it says stop: by this, cards are withheld. null: nowhere. */
export const reachOf = ({ code, severity }: Pick<Finding, 'code' | 'severity'>): Reach | null =>
  severity === 'stop' && Object.hasOwn(FINDINGS, code)
    ? FINDINGS[code as FindingCode].unsafe
    : null;

/** The finding, marked where it withholds cards. */
export const marked = (finding: Finding): Finding =>
  reachOf(finding) === null ? finding : { ...finding, unsafe: true };
