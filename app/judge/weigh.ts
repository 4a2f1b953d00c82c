/** Weighs levers: what each buys, costs and clears, by planning the changed build. */
import type { Build, Lever } from '../document/schema.ts';
import { round1 } from './dates.ts';
import { codesWhere } from '../messages/findings.ts';
import { bringsWords } from '../messages/levers.ts';
import type { LeverEdit } from './lever.ts';

/** What planning a changed build says; the planner itself is handed in. */
export interface Evaluation {
  /** Minutes late at the worst moment that is due; negative: to spare. null: cannot be planned. */
  readonly lateMinutes: number | null;
  readonly fits: boolean;
  readonly materialCostMinor: number;
  readonly codes: ReadonlySet<string>;
}
export type Evaluate = (document: Build) => Evaluation;

/** Findings that only a plan can have. */
const OF_A_PLAN = codesWhere((spec) => spec.hangsOn !== 'document');

/** Least gain, minutes, for which a lever is listed. */
const LEAST_GAIN_MINUTES = 30;

/**
 * The levers that buy time or clear one of `wanted`, best first. A lever that only adds a fault is
 * left out; ties keep the order in which levers are offered.
 */
export function weighLevers(
  edits: readonly LeverEdit[],
  before: Evaluation,
  wanted: readonly string[],
  evaluate: Evaluate,
): Lever[] {
  return edits
    .flatMap((edit) => weigh(edit, before, wanted, evaluate(edit.document)))
    .sort(
      (a, b) =>
        b.clears.length - a.clears.length || b.hoursGained - a.hoursGained || a.cost - b.cost,
    );
}

function weigh(
  edit: LeverEdit,
  before: Evaluation,
  wanted: readonly string[],
  after: Evaluation,
): Lever[] {
  // A build that cannot be planned has no lateness: that does not count as cleared.
  if (after.lateMinutes === null && before.lateMinutes !== null) return [];
  const clears = wanted.filter(
    (code) =>
      before.codes.has(code) &&
      !after.codes.has(code) &&
      (after.lateMinutes !== null || !OF_A_PLAN.has(code)),
  );
  const gained = gainedMinutes(before, after);
  if (clears.length === 0 && gained < LEAST_GAIN_MINUTES) return [];
  const worse = [...after.codes].filter((code) => !before.codes.has(code));
  return [
    {
      id: edit.id,
      label: edit.label,
      hoursGained: round1(gained / 60),
      cost: after.materialCostMinor - before.materialCostMinor + edit.addedMinor,
      sideEffects: [...edit.sideEffects, ...worse.map(bringsWords)],
      clears,
    },
  ];
}

/** How much less late; what cannot be planned on one side gains nothing that can be counted. */
const gainedMinutes = (before: Evaluation, after: Evaluation): number =>
  before.lateMinutes === null || after.lateMinutes === null
    ? 0
    : before.lateMinutes - after.lateMinutes;
