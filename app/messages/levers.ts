/** Label and side effects of every lever: a change of the build that buys time or clears a finding. */
import type { LeverKind } from '../document/ids.ts';
import type { Lever } from '../document/schema.ts';
import { CURE_LEVERS } from './cure.ts';
import { DATE_LEVERS } from './dates.ts';
import { meaningOf } from './findings.ts';
import { HEAT_LEVERS } from './heat.ts';
import { PART_HEAT_LEVERS } from './heatOnPart.ts';
import { MATERIAL_LEVERS } from './materials.ts';
import { PART_LEVERS } from './part.ts';
import { ROUTE_LEVERS } from './route.ts';
import type { LeverSpec, None } from './spec.ts';
import { latenessWords } from './words.ts';
import { WORK_LEVERS } from './work.ts';

export const LEVERS = {
  ...CURE_LEVERS,
  ...HEAT_LEVERS,
  ...PART_HEAT_LEVERS,
  ...WORK_LEVERS,
  ...MATERIAL_LEVERS,
  ...PART_LEVERS,
  ...ROUTE_LEVERS,
  ...DATE_LEVERS,
} as const satisfies Readonly<Record<LeverKind, unknown>>;

type Args = {
  readonly [K in LeverKind]: (typeof LEVERS)[K] extends LeverSpec<infer A>
    ? unknown extends A
      ? None
      : A
    : never;
};
export type LeverArgs<K extends LeverKind> = Args[K];

/** What is said of a lever before it is weighed. */
export interface LeverWords {
  readonly label: string;
  readonly sideEffects: readonly string[];
}

export function leverWords<K extends LeverKind>(kind: K, args: LeverArgs<K>): LeverWords {
  const { label, sideEffects } = LEVERS[kind] as LeverSpec<LeverArgs<K>>;
  return { label: label(args), sideEffects: sideEffects(args) };
}

/** 'Brings: the wet work takes longer than the resin stays open.' */
export function sideEffectWords(code: string): string {
  const meaning = meaningOf(code);
  return `Brings: ${meaning.charAt(0).toLowerCase()}${meaning.slice(1)}`;
}

/** 'Then it fits, 3 h to spare.', 'Then it is still 4 days late.', 'Then it does not fit yet: 2 stops are left.' */
export function afterWords({ fits, lateMinutes, stops }: NonNullable<Lever['after']>): string {
  if (lateMinutes === null) return 'Then it still has no plan.';
  if (fits) return `Then it fits, ${latenessWords(lateMinutes)}.`;
  if (lateMinutes > 0) return `Then it is still ${latenessWords(lateMinutes)}.`;
  const left = stops === 1 ? 'one stop is left' : `${stops} stops are left`;
  return `Then it does not fit yet: ${left}.`;
}
