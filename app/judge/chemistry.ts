/** Findings about cures: stalled, gelling alone, too cold, too soft for the paint. */
import { layupStageId } from '../document/ids.ts';
import type { Finding } from '../document/schema.ts';
import { finding } from '../messages/findings.ts';
import type { PlanContext } from '../plan/context.ts';
import type { CureTimes } from '../plan/cureTimes.ts';
import type { UnattendedGel } from '../plan/gelWatch.ts';
import type { RoutePlan } from '../plan/routePlan.ts';
import { gelAlone } from './gelAlone.ts';
import { partHeatFindings } from './heatOnPart.ts';
import { programmeFindings } from './programme.ts';

export function chemistryFindings(
  context: PlanContext,
  plan: RoutePlan,
  times: readonly CureTimes[],
  /** Of each cure, in the order of `times`. */
  unattendedGels: readonly (UnattendedGel | null)[],
): Finding[] {
  return [
    ...coldRoom(context, plan),
    ...programmeFindings(context, plan),
    ...times.flatMap((cure, i) => [
      ...unreached(cure),
      ...gelAlone(context, unattendedGels[i]!, cure),
    ]),
    ...logEnds(context, times),
    ...neverFull(context, plan, times),
    ...lapsedSurfaces(context, plan),
    ...coveredSurfaces(context, plan),
    ...partHeatFindings(context, plan),
    ...air(context),
  ];
}

/** Each hardener of the plan against the coldest that the room is expected or was measured to be. */
function coldRoom({ build, hardener: own }: PlanContext, plan: RoutePlan): Finding[] {
  const { temperatureC, measured } = build.room;
  const { day, night } = temperatureC;
  const coldest = Math.min(day, night, ...(measured?.temperaturesC ?? []));
  const inUse = plan.cures.length > 0 ? plan.cures.map(({ hardener }) => hardener) : [own];
  return [...new Map(inUse.map((row) => [row.id, row])).values()].flatMap((hardener) => {
    if (coldest >= hardener.minimumC) return [];
    const { minimumC } = hardener;
    const always = day < minimumC;
    const when = always ? 'always' : night < minimumC ? 'nights' : 'sometimes';
    const args = { hardener: hardener.name, minimumC, coldestC: coldest, dayC: day, when } as const;
    return [finding('cold-room', args, { severity: always ? 'stop' : 'warn' })];
  });
}

/** A log that stops in the middle of a cure: the rest of that cure goes by the room as it was given. */
function logEnds({ build }: PlanContext, times: readonly CureTimes[]): Finding[] {
  const { measured } = build.room;
  if (!measured) return [];
  const end =
    Math.floor(Date.parse(measured.from) / 60_000) +
    measured.temperaturesC.length * measured.stepMinutes;
  return times.flatMap((cure) => {
    const { bagMix, demouldFrom } = cure;
    if (bagMix === null || demouldFrom === null || end <= bagMix || end >= demouldFrom) return [];
    const args = { endsAt: end, cure: cure.cure.cure.name, zone: build.zone };
    return [finding('log-ends', args, { stage: cureStage(cure) })];
  });
}

function unreached(times: CureTimes): Finding[] {
  if (times.sealed === null) return [];
  const missing = (['debagFrom', 'demouldFrom', 'sandFrom'] as const).filter(
    (key) => times[key] === null,
  );
  if (missing.length === 0) return [];
  const args = { why: 'misses', cure: times.cure.cure.name, missing } as const;
  return [finding('cure-stalls', args, { severity: 'stop', stage: cureStage(times) })];
}

/** Cures that stop short of full at this temperature: no harm where the paint and the sun stay cool. */
function neverFull(
  { build }: PlanContext,
  { tg }: RoutePlan,
  times: readonly CureTimes[],
): Finding[] {
  const short = times.filter(
    (cure) => cure.sandFrom !== null && cure.fullFrom === null && cure.tgC !== null,
  );
  const [first] = short;
  if (!first) return [];
  const cures = short.map((cure) => cure.cure.cure.name);
  const ids = new Set(short.map(({ cure }) => cure.cure.id));
  // In the room alone: a post-cure goes on from there.
  const inRoom = tg.members.filter(({ id }) => ids.has(id)).map(({ withoutC }) => withoutC!);
  const args = {
    why: 'short-of-full',
    cures,
    tgC: Math.min(...inRoom),
    roomC: build.room.temperatureC.day,
  } as const;
  return [finding('cure-stalls', args, { severity: 'note', stage: cureStage(first) })];
}

const cureStage = (times: CureTimes): string => layupStageId('cure', times.cure.cure.layups[0]!.id);

/** Surfaces that the plan had to abrade again because their window could not hold. */
function lapsedSurfaces({ build, practice }: PlanContext, plan: RoutePlan): Finding[] {
  const withinHours = practice('strip-to-bond-hours');
  const layups = plan.cures.flatMap(({ cure }) => cure.layups);
  return plan.abraded.map(({ stage, onBareCore, morning }) => {
    const layup = layups.find(({ id }) => stage === layupStageId('prepare', id));
    const stripMinutes = plan.network.tooLongToStrip[stage] ?? null;
    const name = layup?.name ?? 'Next layup';
    const args = { layup: name, withinHours, stripMinutes, onBareCore, morning, zone: build.zone };
    return finding('bond-window-missed', args, { stage });
  });
}

/** Surfaces that take longer to strip than they keep bare. */
function coveredSurfaces({ practice }: PlanContext, plan: RoutePlan): Finding[] {
  const withinHours = practice('strip-to-bond-hours');
  const layups = plan.cures.flatMap(({ cure }) => cure.layups);
  return plan.network.problem.stages.flatMap(({ id: stage, modes }) => {
    const spot = plan.placed.get(stage);
    const mode = modes.find(({ id }) => id === spot?.mode);
    if (!mode?.covered || mode.length.kind !== 'work') return [];
    const layup = layups.find(({ id }) => stage === layupStageId('prepare', id));
    const stripMinutes = mode.length.minutes;
    const args = { layup: layup?.name ?? 'Next layup', stripMinutes, withinHours };
    return [finding('strip-covered', args, { stage })];
  });
}

/** Blush on cold or damp days; condensation near the dew point. */
function air({ build, practice, dewPointC }: PlanContext): Finding[] {
  const { day, night } = build.room.temperatureC;
  const { humidityPct } = build.room;
  const coldest = Math.min(day, night);
  const findings: Finding[] = [];
  if (coldest < practice('blush-below-c') || humidityPct > practice('blush-above-rh-pct')) {
    findings.push(finding('blush-likely', { coldestC: coldest, humidityPct }));
  }
  if (coldest - dewPointC < practice('dew-margin-c')) {
    findings.push(finding('dew-point-near', { dewPointC, coldestC: coldest }));
  }
  return findings;
}
