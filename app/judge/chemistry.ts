/** Findings about cures: stalled, gelling alone, too cold, too soft for the paint. */
import { layupStageId } from '../document/ids.ts';
import type { Finding } from '../document/schema.ts';
import { capital, dayAndTime, listed, plain } from '../messages/words.ts';
import type { PlanContext } from '../plan/context.ts';
import type { CureTimes } from '../plan/cureTimes.ts';
import type { UnseenGel } from '../plan/gelWatch.ts';
import type { RoutePlan } from '../plan/routePlan.ts';
import { finding } from './finding.ts';
import { gelAlone } from './gelAlone.ts';
import { programmeFindings } from './programme.ts';

export function chemistryFindings(
  context: PlanContext,
  plan: RoutePlan,
  times: readonly CureTimes[],
  /** Of each cure, in the order of `times`. */
  unseenGels: readonly (UnseenGel | null)[],
): Finding[] {
  return [
    ...coldRoom(context, plan),
    ...programmeFindings(context, plan),
    ...times.flatMap((cure, i) => [...unreached(cure), ...gelAlone(context, unseenGels[i]!, cure)]),
    ...logEnds(context, times),
    ...neverFull(times),
    ...lapsedSurfaces(context, plan),
    ...paintOverTg(context, plan),
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
    const always = day < hardener.minimumC;
    const when = always ? 'all day' : night < hardener.minimumC ? 'at night' : 'at times';
    const message =
      `${hardener.name} is for ${hardener.minimumC} °C and up; the room stands at ` +
      `${plain(coldest)} °C ${when}, and that time is not counted as cure.`;
    const numbers = { coldestC: coldest, minimumC: hardener.minimumC };
    return [finding('cold-room', always ? 'stop' : 'warn', message, { numbers })];
  });
}

/** A log that stops in the middle of a cure: the rest of it goes by the room as it was given. */
function logEnds({ build }: PlanContext, times: readonly CureTimes[]): Finding[] {
  const { measured } = build.room;
  if (!measured) return [];
  const end =
    Math.floor(Date.parse(measured.from) / 60_000) +
    measured.temperaturesC.length * measured.stepMinutes;
  return times.flatMap((cure) => {
    const { bagMix, demouldFrom } = cure;
    if (bagMix === null || demouldFrom === null || end <= bagMix || end >= demouldFrom) return [];
    const message =
      `The temperature log ends ${dayAndTime(end, build.zone)}, in the middle of ` +
      `${cure.cure.cure.name.toLowerCase()}: the rest goes by the room’s day and night.`;
    return [finding('log-ends', 'note', message, { stage: cureStage(cure) })];
  });
}

function unreached(times: CureTimes): Finding[] {
  if (times.sealed === null) return [];
  const missing = (['debagFrom', 'demouldFrom', 'sandFrom'] as const).filter(
    (key) => times[key] === null,
  );
  if (missing.length === 0) return [];
  const words = { debagFrom: 'bag-off', demouldFrom: 'demould', sandFrom: 'sanding' };
  const message =
    `${times.cure.cure.name} never reaches ${missing.map((key) => words[key]).join(', ')} ` +
    'at the temperature of the room.';
  return [finding('cure-stalls', 'stop', message, { stage: cureStage(times) })];
}

/** Cures that stop short of full at this temperature: no harm where the paint and the sun stay cool. */
function neverFull(times: readonly CureTimes[]): Finding[] {
  const short = times.filter(
    (cure) => cure.sandFrom !== null && cure.fullFrom === null && cure.tgC !== null,
  );
  const [first] = short;
  if (!first) return [];
  const lowest = Math.min(...short.map((cure) => cure.tgC!));
  const message =
    `${listed(short.map((cure) => cure.cure.cure.name.toLowerCase()))}: full cure is not reached ` +
    `at the temperature of the room; it stops near a Tg of ${plain(lowest, 0)} °C. Heat would go on.`;
  const numbers = { tgC: Number(lowest.toFixed(1)) };
  return [finding('cure-stalls', 'note', capital(message), { stage: cureStage(first), numbers })];
}

const cureStage = (times: CureTimes): string => layupStageId('cure', times.cure.cure.layups[0]!.id);

/** Surfaces that the plan had to abrade again because their window could not hold. */
function lapsedSurfaces({ practice }: PlanContext, plan: RoutePlan): Finding[] {
  const hours = practice('strip-to-bond-hours');
  const layups = plan.cures.flatMap(({ cure }) => cure.layups);
  return plan.abraded.map((stage) => {
    const layup = layups.find(({ id }) => stage === layupStageId('prepare', id));
    const message =
      `${layup?.name ?? 'Next layup'}: the plan cannot bond within the ${hours} h that a stripped ` +
      'surface keeps, so it is abraded, washed and wiped again.';
    return finding('bond-window-missed', 'warn', message, { stage });
  });
}

function paintOverTg({ build }: PlanContext, plan: RoutePlan): Finding[] {
  const { tg } = plan;
  const roomTg = tg.roomC;
  if (roomTg >= tg.neededC || plan.route.cures.length === 0) return [];
  const heat =
    tg.bakeC !== null && tg.bakeC >= build.part.serviceMaxC
      ? `The painter bakes at ${tg.bakeC} °C`
      : `Service reaches ${build.part.serviceMaxC} °C`;
  const stands = `the part will stand about ${plain(roomTg, 0)} °C after room cure`;
  const numbers = { neededTgC: tg.neededC, tgC: Number(roomTg.toFixed(1)), bakeC: tg.bakeC };
  const { postCure } = tg;
  const planned = plan.network.problem.stages.some((stage) => stage.kind === 'post-cure');
  if (planned && postCure.possible) {
    const message =
      `${heat}; ${stands}. A post-cure of ${plain(postCure.minutes / 60, 0)} h to ` +
      `${plain(postCure.holdC, 0)} °C on the mould, before fairing, is in the plan.`;
    return [finding('post-cure-planned', 'note', message, { stage: 'post-cure', numbers })];
  }
  const way = postCure.possible
    ? `A post-cure to ${plain(postCure.holdC, 0)} °C on the mould before fairing would mend it, ` +
      `but ${build.room.tent ? `the tent stops at ${build.room.tent.maxC} °C` : 'there is no tent'}: ` +
      'ask for an air-dry finish, or rent heat.'
    : `No post-cure reaches ${plain(tg.neededC, 0)} °C: the ${postCure.reason} stops at ` +
      `${plain(postCure.limitC, 0)} °C. Ask for an air-dry finish.`;
  return [finding('paint-over-tg', 'warn', `${heat}; ${stands}. ${way}`, { numbers })];
}

/** Blush on cold or damp days; condensation near the dew point. */
function air({ build, practice, dewPointC }: PlanContext): Finding[] {
  const { day, night } = build.room.temperatureC;
  const { humidityPct } = build.room;
  const coldest = Math.min(day, night);
  const findings: Finding[] = [];
  if (coldest < practice('blush-below-c') || humidityPct > practice('blush-above-rh-pct')) {
    const message =
      `At ${coldest} °C and ${humidityPct} % humidity amine blush is likely: wash with water and ` +
      'pad before sanding.';
    const numbers = { coldestC: coldest, humidityPct };
    findings.push(finding('blush-likely', 'note', message, { numbers }));
  }
  if (coldest - dewPointC < practice('dew-margin-c')) {
    const message =
      `The dew point of the day's air is ${plain(dewPointC)} °C and surfaces cool to ${coldest} °C at ` +
      'night: they may be wet in the morning. Hold the heat or dry the air.';
    const numbers = { dewPointC: Number(dewPointC.toFixed(1)), coldestC: coldest };
    findings.push(finding('dew-point-near', 'warn', message, { numbers }));
  }
  return findings;
}
