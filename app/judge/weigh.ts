/** Weighs levers: what each buys, costs and clears, by planning the changed build. */
import type { Build, Lever } from '../document/schema.ts';
import { roundedToTenth } from './dates.ts';
import { codesWhere } from '../messages/findings.ts';
import { sideEffectWords } from '../messages/levers.ts';
import type { LeverEdit } from './lever.ts';

/** What planning a changed build says; the planner itself is handed in. */
export interface Evaluation {
  /** Minutes late at the worst moment that is due; negative: to spare. null: cannot be planned. */
  readonly lateMinutes: number | null;
  readonly fits: boolean;
  readonly materialCostMinor: number;
  readonly codes: ReadonlySet<string>;
  /** Those of the codes that stop. */
  readonly stops: ReadonlySet<string>;
}

/** `look`: a first answer; `verify`: searched, with every finding that a full answer has. */
export type Depth = 'look' | 'verify';
export type Evaluate = (document: Build, depth: Depth) => Evaluation;

/** Findings that only a plan can have. */
const OF_A_PLAN = codesWhere((spec) => spec.dependsOn !== 'document');

/** Least gain, minutes, for which a lever is listed. */
const LEAST_GAIN_MINUTES = 30;

/**
 * The levers that buy time or clear one of `wanted`, best first. Each that a first look finds useful is
 * planned again to the depth of a full answer and offered by what that says. A lever that adds a stop,
 * or makes something worse and clears nothing, is left out; ties keep the order in which levers are
 * offered.
 * @param before what the build says as it is, planned to the same depth as the changed ones
 */
export function weighLevers(
  edits: readonly LeverEdit[],
  before: (depth: Depth) => Evaluation,
  wanted: readonly string[],
  evaluate: Evaluate,
): Lever[] {
  if (edits.length === 0) return [];
  const weighed = (depth: Depth, offered: readonly LeverEdit[]) => {
    const now = before(depth);
    return offered.map((edit) => weigh(edit, now, wanted, evaluate(edit.document, depth)));
  };
  const looked = weighed('look', edits);
  const useful = edits.flatMap((edit, i) => (looked[i] ? [{ edit, lever: looked[i] }] : []));
  if (useful.length === 0) return [];
  return weighed('verify', worthVerifying(useful, wanted))
    .flatMap((lever) => lever ?? [])
    .sort(bestFirst);
}

const bestFirst = (a: Lever, b: Lever): number =>
  b.clears.length - a.clears.length || b.hoursGained - a.hoursGained || a.cost - b.cost;

/** So many ways out of one finding are planned again; whoever needs more has the search over all levers. */
const MOST_OF_A_KIND = 5;

/** The best few for each code that a first look sees cleared, and the best few that buy time. */
function worthVerifying(
  useful: readonly { readonly edit: LeverEdit; readonly lever: Lever }[],
  wanted: readonly string[],
): LeverEdit[] {
  const best = [...useful].sort((a, b) => bestFirst(a.lever, b.lever));
  const kinds = [
    ...wanted.map((code) => best.filter(({ lever }) => lever.clears.includes(code))),
    best.filter(({ lever }) => lever.hoursGained > 0),
  ];
  const kept = new Set(kinds.flatMap((kind) => kind.slice(0, MOST_OF_A_KIND)));
  return useful.filter((one) => kept.has(one)).map(({ edit }) => edit);
}

function weigh(
  edit: LeverEdit,
  before: Evaluation,
  wanted: readonly string[],
  after: Evaluation,
): Lever | null {
  // A build that cannot be planned has no lateness: that does not count as cleared.
  if (after.lateMinutes === null && before.lateMinutes !== null) return null;
  const clears = wanted.filter(
    (code) =>
      before.codes.has(code) &&
      !after.codes.has(code) &&
      (after.lateMinutes !== null || !OF_A_PLAN.has(code)),
  );
  const gained = gainedMinutes(before, after);
  if (clears.length === 0 && gained < LEAST_GAIN_MINUTES) return null;
  const worse = [...after.codes].filter((code) => !before.codes.has(code));
  if (worse.some((code) => after.stops.has(code))) return null;
  if (clears.length === 0 && worse.length > 0) return null;
  return {
    id: edit.id,
    label: edit.label,
    hoursGained: roundedToTenth(gained / 60),
    cost: after.materialCostMinor - before.materialCostMinor + edit.addedMinor,
    sideEffects: [...edit.sideEffects, ...worse.map(sideEffectWords)],
    clears,
    after: {
      fits: after.fits && after.stops.size === 0,
      lateMinutes: after.lateMinutes,
      stops: after.stops.size,
    },
  };
}

/** How much less late; what cannot be planned on one side gains nothing that can be counted. */
const gainedMinutes = (before: Evaluation, after: Evaluation): number =>
  before.lateMinutes === null || after.lateMinutes === null
    ? 0
    : before.lateMinutes - after.lateMinutes;
