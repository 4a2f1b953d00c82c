/** Attaches levers to the findings that they would clear or relieve. */
import { layupStageId, leverLayup, leversOfId, readLeverId } from '../document/ids.ts';
import type { Build, Finding, Lever, Library } from '../document/schema.ts';
import { codesWhere } from '../messages/findings.ts';
import type { PlanContext } from '../plan/context.ts';
import type { Lookups } from '../plan/lookups.ts';
import type { RoutePlan } from '../plan/routePlan.ts';
import type { Obstacle } from '../schedule/problem.ts';
import { MINUTES_PER_DAY } from '../time/instant.ts';
import type { Told } from './cleared.ts';
import { leverEdits, ownLeverEdits, planLeverEdits, togetherWith } from './levers.ts';
import type { JudgedRoute } from './rank.ts';
import {
  weighLevers,
  type Depth,
  type Evaluate,
  type Evaluation,
  type Weighed,
  type WeighedLever,
  type Weighing,
} from './weigh.ts';

/** Codes that time or money can clear; the rest only knowledge or another material can. */
const CLEARED_BY_LEVERS = codesWhere((spec) => spec.waysOut === 'levers');
/** Codes with ways out that clear nothing else. */
const WITH_OWN_WAYS_OUT = codesWhere((spec) => spec.waysOut === 'own');

/** The findings, the plans that they come from, and the planner that weighs levers. */
export interface AttachInput {
  readonly context: PlanContext;
  readonly document: Build;
  readonly shipped: Library;
  readonly findings: readonly Finding[];
  readonly taken: RoutePlan;
  readonly routes: readonly JudgedRoute[];
  /** The route that the date has pushed aside, or the taken one. */
  readonly preferred: JudgedRoute | undefined;
  readonly lookups: Lookups;
  readonly evaluate: Evaluate;
  /** Ways out that are looked at, those offered first; the rest are counted. */
  readonly mostWaysOut: number;
  /** Told how many ways out were left aside. */
  readonly leftAside: (ways: number) => void;
}

/** Weighs every lever once and attaches it to the findings that it would clear or relieve. */
export const attachLevers = (input: AttachInput): Finding[] =>
  withOwnLevers(input, withLevers(input));

function withLevers(input: AttachInput): Finding[] {
  const { findings, taken, preferred, document } = input;
  const wanted = findings.filter(
    ({ code }) =>
      CLEARED_BY_LEVERS.has(code) && !(code === 'stage-impossible' && isOfTheData(taken)),
  );
  if (wanted.length === 0) return [...findings];
  const weighed = leversFor(input, document, taken, wanted);
  const apart =
    preferred && wanted.some(({ code }) => code === 'merge-forced')
      ? leversFor(input, pinned(document, preferred.plan), preferred.plan, WHERE_APART).levers
      : [];
  const late = wanted.filter(({ code }) => LATE.has(code) && code !== 'facts-conflict');
  // The facts are no longer in conflict once nothing is late.
  const ends = ({ mends }: WeighedLever, finding: Finding): boolean =>
    finding.code === 'facts-conflict'
      ? late.length > 0 && late.every((one) => mends.has(one))
      : mends.has(finding);
  return findings.map((finding) => {
    if (finding.code === 'merge-forced') return { ...finding, levers: keepApart(apart) };
    if (!wanted.includes(finding)) return finding;
    const helps = weighed.levers.flatMap((one) => {
      const isGone = ends(one, finding);
      if (!isGone && !(isLate(finding) && one.lever.hoursGained > 0)) return [];
      const { clears } = one.lever;
      const own = isGone && !clears.includes(finding.code) ? [finding.code] : [];
      return [{ ...one.lever, clears: [...clears, ...own] }];
    });
    const told = { ...finding, ...weighed.below(finding.code) };
    return helps.length === 0 ? told : { ...told, levers: helps };
  });
}

/** What the route that the date has pushed aside has against it: of the whole build, whatever its plan says. */
const WHERE_APART: readonly Told[] = ['date-missed', 'slot-missed'].map((code) => ({
  code,
  severity: 'note',
  stage: null,
  numbers: {},
}));

/** Orders that contradict each other, found before anything was placed: no lever can clear them. */
const isOfTheData = ({ schedule: { obstacles, generated } }: RoutePlan): boolean =>
  generated === 0 && obstacles.every(({ reason }) => IS_DATA_FAULT[reason]);

const IS_DATA_FAULT: Readonly<Record<Obstacle['reason'], boolean>> = {
  cycle: true,
  'window-cannot-hold': true,
  'no-mode': false,
  'never-fits-calendar': false,
  'never-ends': false,
  'no-capacity': false,
  'beyond-horizon': false,
};

const LATE = codesWhere((spec) => spec.dependsOn === 'lateness');

const isLate = (finding: Finding): boolean => LATE.has(finding.code);

/**
 * Levers for the separate route as ways out of the merge; merging is not one of them. The merge is no
 * longer forced once the separate route is in time.
 */
const keepApart = (weighed: readonly WeighedLever[]): Lever[] =>
  weighed
    .map(({ lever }) => lever)
    .filter(({ id }) => leversOfId(id).every((one) => readLeverId(one)?.lever !== 'route'))
    .map((lever) => {
      const late = lever.after?.lateMinutes ?? Infinity;
      return { ...lever, clears: late <= 0 ? ['merge-forced'] : [] };
    });

const pinned = (document: Build, plan: RoutePlan): Build => ({
  ...document,
  route: { joints: { ...plan.route.joints } },
});

function leversFor(
  input: AttachInput,
  document: Build,
  plan: RoutePlan,
  wanted: readonly Told[],
): Weighed {
  const { context, shipped, findings, taken, routes, lookups, evaluate } = input;
  const { mostWaysOut, leftAside } = input;
  // A printed plan stays near its print, which no lever is weighed by.
  const isShown = plan === taken && context.build.printed === null;
  const before = (depth: Depth): Evaluation => {
    const now = evaluate(document, depth);
    if (isShown && depth === 'verify') return { ...now, ...asShown(plan, findings) };
    return { ...now, lateMinutes: now.lateMinutes ?? plan.lateMinutes };
  };
  const until = plan.schedule.end ?? context.deadline;
  const days = Math.max(0, until - context.from) / MINUTES_PER_DAY;
  const invited = planLeverEdits({ context, document, plan, routes, days, lookups });
  const hired = invited.some(({ id }) => readLeverId(id)?.lever === 'post-cure-heat');
  // A tent hired for the post-cure says what it costs in all; the tent alone is the same offer again.
  const offered = (id: string): boolean =>
    isWorthWeighing(plan, id) && !(hired && readLeverId(id)?.lever === 'heated-tent');
  const all = leverEdits(document, shipped, lookups, days);
  const edits = [...all.filter(({ id }) => offered(id)), ...invited];
  const aside = Math.max(0, edits.length - mostWaysOut);
  if (aside > 0) leftAside(aside);
  const weighed = weighLevers(
    edits.slice(0, mostWaysOut),
    { before, evaluate, together: pairing(shipped, lookups) },
    wanted,
  );
  // What works on a cure that is not critical brings no date forward; what else it would do is not looked at.
  const unseen = all.some(({ id }) => !isWorthWeighing(plan, id));
  return {
    ...weighed,
    below: (code) => {
      const own = weighed.below(LATE.has(code) ? 'hours' : code);
      return own.nothingBelow && (aside > 0 || (unseen && !LATE.has(code))) ? {} : own;
    },
  };
}

/** The answers of the plan that is shown: what is weighed goes by them. */
const asShown = (plan: RoutePlan, findings: readonly Finding[]): Omit<Evaluation, 'findings'> => ({
  lateMinutes: plan.lateMinutes,
  fits: plan.schedule.fits,
  materialCostMinor: plan.materialCostMinor,
  route: plan.route.cures.map(({ name }) => name),
  stops: new Set(findings.filter(({ severity }) => severity === 'stop').map(({ code }) => code)),
});

const pairing =
  (shipped: Library, lookups: Lookups): Weighing['together'] =>
  (first, second) =>
    togetherWith(first, second, shipped, lookups);

/** Levers of a single cure are weighed only where that cure is critical, since each takes a plan. */
function isWorthWeighing({ route, schedule }: RoutePlan, leverId: string): boolean {
  const layup = leverLayup(readLeverId(leverId));
  if (layup === null) return true;
  if (!route.cures.some((cure) => cure.layups[0]!.id === layup)) return false;
  const { placed } = schedule;
  return (
    placed.length === 0 ||
    placed.some((one) => one.critical && one.stage === layupStageId('cure', layup))
  );
}

/** Attaches their own ways out to the findings that have such. */
function withOwnLevers(
  { context, document, shipped, lookups, evaluate }: AttachInput,
  findings: readonly Finding[],
): Finding[] {
  return findings.map((finding) => {
    const { code } = finding;
    const edits = WITH_OWN_WAYS_OUT.has(code)
      ? ownLeverEdits(document, finding, context.library)
      : [];
    if (edits.length === 0) return finding;
    const alike = findings.filter((one) => one.code === code);
    const before = (depth: Depth): Evaluation => {
      const now = evaluate(document, depth);
      // A first look leaves some findings out: this one was made by the full answer.
      return { ...now, findings: [...now.findings.filter((one) => one.code !== code), ...alike] };
    };
    const together = pairing(shipped, lookups);
    const { levers } = weighLevers(edits, { before, evaluate, together }, [finding]);
    return { ...finding, levers: levers.map(({ lever }) => lever) };
  });
}
