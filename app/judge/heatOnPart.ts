/** Bake and service against everything on the part, and the post-cure that answers them. */
import { layupStageId, outsideStageId, stageId } from '../document/ids.ts';
import type { Finding } from '../document/schema.ts';
import { finding } from '../messages/findings.ts';
import type { TgLimitReason } from '../messages/tooSoft.ts';
import type { PlanContext } from '../plan/context.ts';
import type { TgMember } from '../plan/glass.ts';
import type { PostCureChoice } from '../plan/postCure.ts';
import type { RoutePlan } from '../plan/routePlan.ts';

/** No finding is made where nobody bakes and service stays below what the room gives. */
export function partHeatFindings(context: PlanContext, plan: RoutePlan): Finding[] {
  if (plan.route.cures.length === 0) return [];
  return [
    ...overBake(context, plan),
    ...overService(context, plan),
    ...plannedPostCure(context, plan),
    ...softFillers(context, plan),
    ...unknownLimits(context, plan),
    ...growth(plan),
  ];
}

type Known = TgMember & { readonly withC: number };

const knownOf = ({ tg }: RoutePlan): Known[] =>
  tg.members.filter((member): member is Known => member.withC !== null);

/** Least difference that is reported, C: half a degree cannot be measured. */
const shortOf = (plan: RoutePlan, kind: 'bake' | 'service'): Known[] =>
  knownOf(plan).filter(({ short, hottest }) => short && hottest.kind === kind);

/** A bake above the Tg of anything on the part is a stop; one inside the margin a warning. */
function overBake(context: PlanContext, plan: RoutePlan): Finding[] {
  const softer = knownOf(plan).filter(({ withC, bakeC }) => bakeC !== null && withC < bakeC);
  const short = softer.length > 0 ? softer : shortOf(plan, 'bake');
  const [weakest] = short;
  const party = context.build.outside.find(
    ({ bakeC }) => bakeC !== null && bakeC === weakest?.bakeC,
  );
  if (!weakest || !party) return [];
  const heat = { kind: 'bake', name: party.name, temperatureC: weakest.bakeC! } as const;
  const args = { heat, ...softArgs(context, plan, short, weakest) };
  const severity = softer.length > 0 ? 'stop' : 'warn';
  return [finding('paint-over-tg', args, { severity, stage: outsideStageId(party.id) })];
}

function overService(context: PlanContext, plan: RoutePlan): Finding[] {
  const short = shortOf(plan, 'service');
  const [weakest] = short;
  if (!weakest) return [];
  const heat = { kind: 'service', temperatureC: context.build.part.serviceMaxC } as const;
  const args = { heat, ...softArgs(context, plan, short, weakest) };
  return [finding('service-over-tg', args)];
}

const softArgs = (
  { build }: PlanContext,
  plan: RoutePlan,
  short: readonly Known[],
  weakest: Known,
) => ({
  weakest: weakest.name,
  tgC: weakest.withC,
  others: short.slice(1).map(({ name }) => name),
  roomC: build.room.temperatureC.day,
  neededTgC: weakest.neededC,
  bakeC: weakest.bakeC,
  no: tgLimitReason(build.room.tent?.maxC ?? null, plan, weakest),
});

/** Why the part does not stand more. */
function tgLimitReason(tentMaxC: number | null, { tg }: RoutePlan, weakest: Known): TgLimitReason {
  if (weakest.made === 'late') return { why: 'late' };
  const { choice, blocked, postCure } = tg;
  if (choice || !blocked || blocked.why === 'dearer') return { why: 'planned' };
  const wanted = postCure?.possible ? postCure : null;
  if (blocked.why === 'limit' && blocked.limit === 'tent') return { why: 'tent', tentMaxC, wanted };
  return blocked.why === 'limit' ? blocked : { why: blocked.why, wanted };
}

/** The post-cures of the plan, with the reason for doing them this way. */
function plannedPostCure({ build, practice }: PlanContext, { tg }: RoutePlan): Finding[] {
  const { choice, by, neededC, bakeC, members } = tg;
  const without = members
    .flatMap(({ name, withoutC }) => (withoutC === null ? [] : [{ name, withoutC }]))
    .toSorted((a, b) => a.withoutC - b.withoutC)[0];
  const after = members.find(({ withC, made }) => withC !== null && made !== 'late');
  if (!choice || !without || !after) return [];
  const args = {
    heat: by,
    roomC: build.room.temperatureC.day,
    before: without.name,
    tgC: without.withoutC,
    after: after.name,
    withTgC: after.withC!,
    neededTgC: neededC,
    bakeC,
    runs: choice.runs.map(({ place, plan: { holdC, minutes } }) => ({ place, holdC, minutes })),
    rise: {
      beginsTgC: beginsTgOf(choice),
      afterGelHours: practice('postcure-after-gel-hours'),
    },
    way: choice.way,
    costMinor: choice.costMinor,
    others: choice.others,
    currency: build.currency,
  };
  return [finding('post-cure-planned', args, { stage: stageId({ what: 'post-cure', number: 1 }) })];
}

/** The weakest Tg that any of its rises counts on, C; null: one of them knows none. */
function beginsTgOf({ runs }: PostCureChoice): number | null {
  const known = runs.map(({ beginsTgC }) => beginsTgC);
  return known.some((tgC) => tgC === null) ? null : Math.min(...known.map(Number));
}

/** What is filled, primed or coated in the shop, softer than the heat that comes after it. */
function softFillers({ build }: PlanContext, { tg }: RoutePlan): Finding[] {
  const bakes = build.outside.flatMap(({ bakeC }) => bakeC ?? []);
  const bakeC = bakes.length > 0 ? Math.max(...bakes) : null;
  const hottestC = Math.max(bakeC ?? -Infinity, build.part.serviceMaxC);
  const soft = tg.coats.flatMap(({ name, standsC }) =>
    standsC !== null && standsC < hottestC ? [{ name, standsC }] : [],
  );
  if (soft.length === 0) return [];
  const standsC = Math.min(...soft.map((one) => one.standsC));
  const names = [...new Set(soft.map(({ name }) => name))];
  return [finding('filler-softens', { names, standsC, hottestC, bakeC })];
}

/** Where somebody bakes, or service is hotter than what the room gives: what nobody knows the limit of. */
function unknownLimits({ build, practice }: PlanContext, { tg }: RoutePlan): Finding[] {
  const bakes = build.outside.some(({ bakeC }) => bakeC !== null);
  const roomGivesC = build.room.temperatureC.day + practice('tg-over-cure-c');
  const members = tg.members.filter(
    ({ withC, neededC }) => withC === null && (bakes || neededC > roomGivesC),
  );
  const coats = bakes ? tg.coats.filter(({ standsC }) => standsC === null) : [];
  const names = [...new Set([...members, ...coats].map(({ name }) => name))];
  const severity = members.length > 0 ? 'warn' : 'note';
  return names.length === 0 ? [] : [finding('tg-unknown', { names }, { severity })];
}

/** Heat under the bag that a carbon part may lock in; a post-cure that would is not done on the mould. */
function growth({ tg: { inMould } }: RoutePlan): Finding[] {
  if (!inMould?.locks) return [];
  const { cure, heldC: warmC, growthMm, limitMm, spanMm } = inMould;
  const args = { cure: cure.name, warmC, growthMm, limitMm, spanMm };
  return [finding('mould-growth', args, { stage: layupStageId('cure', cure.layups[0]!.id) })];
}
