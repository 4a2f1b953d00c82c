/** Weighs levers: what each buys, costs and clears, by planning the changed build; then pairs of them. */
import type { Answers, Build, Finding, Lever } from '../document/schema.ts';
import { roundedToTenth } from './dates.ts';
import { brought, isCleared, isOfANewKind, leftOver, type Told } from './cleared.ts';
import { codesWhere } from '../messages/findings.ts';
import { leftOverWords, sideEffectWords } from '../messages/levers.ts';
import type { LeverEdit } from './lever.ts';

/** What planning a changed build says; the planner itself is handed in. */
export interface Evaluation {
  /** Minutes late at the worst moment that is due; negative: to spare. null: cannot be planned. */
  readonly lateMinutes: number | null;
  readonly fits: boolean;
  readonly materialCostMinor: number;
  /** Cures of the route by name. */
  readonly route: readonly string[];
  readonly findings: readonly Told[];
  /** Codes that stop: of the plan that is shown, where it is that one. */
  readonly stops: ReadonlySet<string>;
}

/** `look`: a first answer; `verify`: searched, with every finding that a full answer has. */
export type Depth = 'look' | 'verify';
export type Evaluate = (document: Build, depth: Depth) => Evaluation;

/** Findings that only a plan can have. */
const OF_A_PLAN = codesWhere((spec) => spec.dependsOn !== 'document');

/** Least gain, minutes, for which a lever is listed. */
const LEAST_GAIN_MINUTES = 30;

/** What levers are weighed with. */
export interface Weighing {
  /** What the build says as it is, planned to the same depth as the changed ones. */
  readonly before: (depth: Depth) => Evaluation;
  readonly evaluate: Evaluate;
  /** Two levers as one; null where they do not go together. */
  readonly together: (first: LeverEdit, second: LeverEdit) => LeverEdit | null;
}

export interface WeighedLever {
  readonly lever: Lever;
  /** Those of the wanted findings that it clears. */
  readonly mends: ReadonlySet<Told>;
}

export interface Weighed {
  /** Best first; pairs stand behind the levers that they are made of. */
  readonly levers: readonly WeighedLever[];
  /** What is known of others that help with a code, or against being late at all (`hours`). */
  readonly below: (code: string | 'hours') => Pick<Finding, 'nothingBelow' | 'moreBelow'>;
}

/**
 * The levers that buy time or clear one of the findings `wanted`. Each that a first look finds useful is planned again to
 * the depth of a full answer and offered by what that says; where none of them is enough, the cheapest pairs
 * that mend different things are. A lever that adds a stop, or makes something worse and clears nothing, is
 * left out; ties keep the order in which levers are offered.
 */
export function weighLevers(
  edits: readonly LeverEdit[],
  weighing: Weighing,
  wanted: readonly Told[],
): Weighed {
  if (edits.length === 0) return { levers: [], below: () => ({ nothingBelow: 'singles' }) };
  const now = new Map<Depth, Evaluation>();
  const before = (depth: Depth): Evaluation => {
    const known = now.get(depth) ?? weighing.before(depth);
    now.set(depth, known);
    return known;
  };
  const weighed = (depth: Depth, offered: readonly LeverEdit[]): Useful[] =>
    offered.flatMap((edit) => {
      const one = weigh(edit, before(depth), wanted, weighing.evaluate(edit.document, depth));
      return one ? [{ edit, ...one }] : [];
    });
  const { kept, cut } = worthVerifying(weighed('look', edits), wanted);
  const singles = weighed('verify', kept);
  const isEnough = singles.some(({ lever }) => lever.after!.fits);
  const pairs = isEnough ? null : pairsOf(singles, weighing.together);
  const parts = new Map((pairs?.cheapest ?? []).map(({ edit, of }) => [edit, of]));
  const better = weighed('verify', [...parts.keys()]).filter((pair) =>
    goesFurther(pair, parts.get(pair.edit)!),
  );
  const ranked = (some: readonly Useful[]) => [...some].sort(bestFirst);
  return {
    levers: [...ranked(singles), ...ranked(better)],
    below: (code) => {
      const moreBelow = cut.get(code) ?? 0;
      if (moreBelow > 0) return { moreBelow };
      return { nothingBelow: pairs?.isAll && cut.size === 0 ? 'pairs' : 'singles' };
    },
  };
}

interface Useful extends WeighedLever {
  readonly edit: LeverEdit;
}

const bestFirst = (a: WeighedLever, b: WeighedLever): number =>
  b.mends.size - a.mends.size ||
  b.lever.hoursGained - a.lever.hoursGained ||
  a.lever.cost - b.lever.cost;

const mendsOf = ({ mends }: WeighedLever, code: string): boolean =>
  [...mends].some((one) => one.code === code);

/** So many ways out of one finding are planned again; whoever needs more has the search over all levers. */
const MOST_OF_A_KIND = 5;

/** The best few for each code that a first look sees cleared, and the best few that buy time. */
function worthVerifying(
  useful: readonly Useful[],
  wanted: readonly Told[],
): {
  readonly kept: readonly LeverEdit[];
  /** How many are not planned again, by the code that they clear, or `hours`. */
  readonly cut: ReadonlyMap<string, number>;
} {
  const best = [...useful].sort(bestFirst);
  const kinds: [string, Useful[]][] = [
    ...[...new Set(wanted.map(({ code }) => code))].map((code): [string, Useful[]] => [
      code,
      best.filter((one) => mendsOf(one, code)),
    ]),
    ['hours', best.filter(({ lever }) => lever.hoursGained > 0)],
  ];
  const kept = new Set(kinds.flatMap(([, kind]) => kind.slice(0, MOST_OF_A_KIND)));
  const cut = kinds.flatMap(([code, kind]): [string, number][] => {
    const left = kind.filter((one) => !kept.has(one)).length;
    return left === 0 ? [] : [[code, left]];
  });
  return { kept: useful.filter((one) => kept.has(one)).map(({ edit }) => edit), cut: new Map(cut) };
}

/** Pairs that are planned at most. */
const MOST_PAIRS = 4;

interface Pair {
  readonly edit: LeverEdit;
  readonly of: readonly [Useful, Useful];
}

/** The cheapest pairs of which each mends something that the other does not. */
function pairsOf(
  singles: readonly Useful[],
  together: Weighing['together'],
): { readonly cheapest: readonly Pair[]; readonly isAll: boolean } {
  const found = singles.flatMap((first, i) =>
    singles.slice(i + 1).flatMap((second) => {
      const [a, b] = [buys(first), buys(second)];
      const differ = [...a].some((one) => !b.has(one)) && [...b].some((one) => !a.has(one));
      return differ ? [{ first, second, cost: first.lever.cost + second.lever.cost }] : [];
    }),
  );
  const cheapest: Pair[] = [];
  let isAll = true;
  for (const { first, second } of found.sort((a, b) => a.cost - b.cost)) {
    if (cheapest.length >= MOST_PAIRS) {
      isAll = false;
      break;
    }
    const edit = together(first.edit, second.edit);
    if (edit) cheapest.push({ edit, of: [first, second] });
  }
  return { cheapest, isAll };
}

const buys = ({ mends, lever }: Useful): ReadonlySet<Told | 'hours'> =>
  new Set([...mends, ...(lever.hoursGained > 0 ? (['hours'] as const) : [])]);

/** A pair is worth naming where it fits, or clears more than either of its levers by itself. */
const goesFurther = (pair: Useful, of: readonly Useful[]): boolean =>
  pair.lever.after!.fits || of.every(({ mends }) => pair.mends.size > mends.size);

function weigh(
  edit: LeverEdit,
  before: Evaluation,
  wanted: readonly Told[],
  after: Evaluation,
): WeighedLever | null {
  // A build that cannot be planned has no lateness: that does not count as cleared.
  if (after.lateMinutes === null && before.lateMinutes !== null) return null;
  const gone = wanted.filter(
    (one) =>
      isCleared(one, before.findings, after.findings) &&
      (after.lateMinutes !== null || !OF_A_PLAN.has(one.code)),
  );
  const gained = gainedMinutes(before, after);
  if (gone.length === 0 && gained < LEAST_GAIN_MINUTES) return null;
  const worse = brought(before.findings, after.findings);
  if (worse.some(({ severity }) => severity === 'stop')) return null;
  const isGrave = (one: Told) => one.severity !== 'note' && isOfANewKind(one, before.findings);
  if (gone.length === 0 && worse.some(isGrave)) return null;
  const mends = new Set(gone);
  const lever: Lever = {
    id: edit.id,
    label: edit.label,
    hoursGained: roundedToTenth(gained / 60),
    cost: after.materialCostMinor - before.materialCostMinor + edit.addedMinor,
    sideEffects: [
      ...edit.sideEffects,
      ...worse.map(({ code }) => sideEffectWords(code)),
      ...leftOver(gone, after.findings).map(({ code }) => leftOverWords(code)),
    ],
    clears: wholeCodes(wanted, mends),
    before: answersOf(before, 0),
    after: answersOf(after, edit.addedMinor),
  };
  return { lever, mends };
}

/** Codes of which nothing that is wanted gone is left. */
const wholeCodes = (wanted: readonly Told[], mends: ReadonlySet<Told>): string[] =>
  [...new Set(wanted.map(({ code }) => code))].filter((code) =>
    wanted.every((one) => one.code !== code || mends.has(one)),
  );

const answersOf = (
  { fits, lateMinutes, stops, route, materialCostMinor }: Evaluation,
  addedMinor: number,
): Answers => ({
  fits: fits && stops.size === 0,
  lateMinutes,
  stops: stops.size,
  route: [...route],
  cost: materialCostMinor + addedMinor,
});

/** How much less late; what cannot be planned on one side gains nothing that can be counted. */
const gainedMinutes = (before: Evaluation, after: Evaluation): number =>
  before.lateMinutes === null || after.lateMinutes === null
    ? 0
    : before.lateMinutes - after.lateMinutes;
