/** One cure of the plan told through: its moments, its Tg, its heat, the surface it leaves. */
import { mouldOf, practiceOf } from '../../app/document/library.ts';
import type { CureResult, HardenerRow } from '../../app/document/schema.ts';
import { surfaceAir } from '../../app/cure/air.ts';
import { cureClock, type StatefulClock } from '../../app/cure/clock.ts';
import { progressCurve } from '../../app/cure/curves.ts';
import type { PracticeLookup } from '../../app/cure/practice.ts';
import { postCureByCurve } from '../../app/cure/post-cure.ts';
import { temperatureAt } from '../../app/cure/profile.ts';
import { neededTgC, type PostCurePlan, type PostCureStep } from '../../app/cure/tg.ts';
import { witness } from '../../app/cure/words.ts';
import { dayAndTime, elapsed, plain } from '../../app/messages/words.ts';
import type { CureModel, TemperatureProfile } from '../../app/cure/types.ts';
import type { CureDetail, PlanDetail, PlanOutcome } from '../../app/plan/outcome.ts';
import type { Minute } from '../../app/time/instant.ts';
import { isoToMinute } from '../../app/time/zone.ts';
import type { LineDrawing } from './lineChart.ts';
import { dayTicks } from './timeTicks.ts';

export interface Moment {
  readonly key: string;
  readonly label: string;
  readonly at: Minute | null;
  /** Said where there is no moment, or as a rider to it. */
  readonly rider: string;
  /** What decides at the bench; empty when the clock alone does. */
  readonly witness: string;
}

export interface CureStory {
  readonly id: string;
  readonly name: string;
  /** First contact of the oldest resin under the bag. */
  readonly mixed: Minute;
  readonly sealed: Minute;
  readonly moments: readonly Moment[];
  readonly clock: StatefulClock;
  readonly model: CureModel;
  /** What part and mould go through, heat included. */
  readonly profile: TemperatureProfile;
  readonly tg: TgStory;
  readonly hardener: HardenerRow;
}

export interface TgStory {
  /** When the part leaves the mould, by the curve; null without one. */
  readonly demouldC: number | null;
  /** Where it stops in this room, weeks later. */
  readonly stopsC: number | null;
  readonly stalls: boolean;
  readonly neededC: number;
  readonly bakeC: number | null;
  /** Null when the room alone reaches it. */
  readonly postCure: PostCurePlan | null;
}

/** Ids and names of cures that have a place in time. */
export const placedCures = ({ result }: PlanOutcome): readonly CureResult[] =>
  result.cures.filter(({ firstMix }) => firstMix !== null);

/** Null while the cure has no place in time or the resin is not known. */
export function cureStory(outcome: PlanOutcome, id: string): CureStory | null {
  const { result, detail } = outcome;
  const row = result.cures.find((cure) => cure.id === id);
  const made = detail.cures[id];
  const hardener = made ? hardenerIn(detail, made.hardener) : null;
  const stretch = result.stages
    .filter(({ kind, cure, start }) => cure === id && isWet(kind) && start !== null)
    .map(({ start, end }) => ({ start: isoToMinute(start!)!, end: isoToMinute(end ?? start!)! }))
    .sort((a, b) => a.start - b.start)
    .at(-1);
  if (!row || !made || !hardener || !stretch) return null;
  const { start: mixed, end: sealed } = stretch;
  const { model, profile } = made;
  const clock = cureClock(model, profile, { minimumC: hardener.minimumC });
  const inMould = result.route.cures
    .filter((cure) => cure.id === id)
    .every(({ layups }) =>
      detail.part.layups.every(({ id: own, place }) => !layups.includes(own) || place === 'chain'),
    );
  const tg = tgStory(detail, made, hardener, clock, mixed, minute(row.demouldFrom), inMould);
  const moments = momentsOf(row, clock, mixed, sealed, tg, practiceOf(detail.library));
  return { id, name: row.name, mixed, sealed, moments, clock, model, profile, tg, hardener };
}

const isWet = (kind: string): boolean => kind === 'layup' || kind === 'closeout';

const minute = (iso: string | null): Minute | null => (iso === null ? null : isoToMinute(iso));

const hardenerIn = ({ library, build }: PlanDetail, hardener: string): HardenerRow | null =>
  library.resins
    .find((resin) => resin.id === build.resin.system)
    ?.hardeners.find((row) => row.id === hardener) ?? null;

function momentsOf(
  row: CureResult,
  clock: StatefulClock,
  mixed: Minute,
  sealed: Minute,
  tg: TgStory,
  practice: PracticeLookup,
): Moment[] {
  const full = minute(row.fullFrom);
  const stops = tg.stopsC === null ? '' : `stops at a Tg of about ${plain(tg.stopsC, 0)} °C`;
  const one = (
    key: string,
    label: string,
    at: Minute | null,
    rider = at === null ? 'never in this room' : '',
  ): Moment => ({ key, label, at, rider, witness: witness(key, practice) });
  return [
    one('open', 'Open until', clock.reached(mixed, 'open')),
    one('gel', 'Gel', minute(row.gel)),
    one('tackFree', 'Tack-free', clock.reached(sealed, 'tackFree')),
    one('debag', 'Bag off from', minute(row.debagFrom)),
    one('demould', 'Demould from', minute(row.demouldFrom)),
    one('sand', 'Sand from', minute(row.sandFrom)),
    one('bondUntil', 'Bonds as one resin until', minute(row.bondUntil), 'abrade after'),
    one('full', 'Full cure', full, full === null ? stops || 'never in this room' : ''),
  ];
}

function tgStory(
  { build, library }: PlanDetail,
  { model, profile }: CureDetail,
  hardener: HardenerRow,
  clock: StatefulClock,
  mixed: Minute,
  demould: Minute | null,
  inMould: boolean,
): TgStory {
  const practice = practiceOf(library);
  const bakes = build.outside.flatMap(({ bakeC }) => (bakeC === null ? [] : [bakeC]));
  const bakeC = bakes.length > 0 ? Math.max(...bakes) : null;
  const neededC = neededTgC(bakeC, build.part.serviceMaxC, practice);
  const end = profile.at(-1)!.end;
  const last = clock.stateAt(mixed, end);
  const stopsC = last.tgC;
  const wantsHeat = stopsC !== null && stopsC < neededC && model.kinetics !== undefined;
  const gel = clock.reached(mixed, 'gel') ?? mixed;
  const begins = Math.min(end, gel + practice('postcure-after-gel-hours') * 60);
  const cores = build.part.zones.flatMap(({ core }) => {
    const row = library.cores.find((one) => one.id === core?.material);
    return row ? [row.maxC] : [];
  });
  return {
    demouldC: demould === null ? null : clock.stateAt(mixed, demould).tgC,
    stopsC,
    stalls: last.slowed,
    neededC,
    bakeC,
    postCure: wantsHeat
      ? postCureByCurve(
          {
            model,
            doseHours: clock.stateAt(mixed, begins).doseHours,
            neededTgC: neededC,
            bakeC,
            fromC: temperatureAt(profile, Math.min(begins, end - 1)) ?? build.room.temperatureC.day,
            hardener,
            mouldMaxC: inMould
              ? (build.mould.maxC ?? mouldOf(library, build.mould.material).maxC)
              : Infinity,
            coreMaxC: cores.length > 0 ? Math.min(...cores) : null,
          },
          practice,
        )
      : null,
  };
}

/** As many days as a narrow drawing can name. */
const TICKS = 4;

const STEP_WORDS = { ramp: 'up', hold: 'hold', cool: 'down, under support' } as const;

/** The post-cure in the words of the bench, step by step. */
export function postCureWords(plan: PostCurePlan): string[] {
  if (!plan.possible) {
    const { reason, wantedC, limitC } = plan;
    return reason === 'resin'
      ? [`No heat gets there: this system ends at ${plain(limitC, 0)} °C. Take another hardener.`]
      : [
          `It would want ${plain(wantedC, 0)} °C and the ${reason} takes ${plain(limitC, 0)} °C. ` +
            'Ask for an air-dry finish, or post-cure off the mould on a cradle.',
        ];
  }
  const steps = inOneGo(plan.steps).map(({ kind, fromC, toC, minutes }) =>
    kind === 'hold'
      ? `${plain(toC, 0)} °C, hold ${elapsed(minutes)}`
      : `${plain(fromC, 0)} to ${plain(toC, 0)} °C in ${elapsed(minutes)}, ${STEP_WORDS[kind]}`,
  );
  return [
    ...steps,
    `Then Tg is about ${plain(plan.reachesTgC, 0)} °C. On the mould, before fairing.`,
  ];
}

/** A ramp that the part's own Tg slows is still one ramp to whoever turns the knob. */
function inOneGo(steps: readonly PostCureStep[]): PostCureStep[] {
  const joined: PostCureStep[] = [];
  for (const step of steps) {
    const last = joined.at(-1);
    if (last?.kind === 'ramp' && step.kind === 'ramp') {
      joined[joined.length - 1] = { ...last, toC: step.toC, minutes: last.minutes + step.minutes };
    } else joined.push(step);
  }
  return joined;
}

/** Air on the surface as it stands at its coldest, in words. */
export function airWords({ build, library }: PlanDetail): { words: string; wrong: boolean } {
  const { day, night } = build.room.temperatureC;
  const surfaceC = Math.min(day, night);
  const air = surfaceAir(
    { temperatureC: day, humidityPct: build.room.humidityPct },
    surfaceC,
    practiceOf(library),
  );
  const why = air.blush.map((one) => (one === 'cold' ? 'cold' : 'damp air')).join(' and ');
  const dew = `Dew point ${plain(air.dewPointC)} °C, surface ${plain(surfaceC)} °C at its coldest`;
  const near = air.nearDew ? ': near enough to get wet' : ': stays dry';
  const blush = why ? ` Amine blush likely (${why}): water and pad before sanding.` : '';
  return { words: `${dew}${near}.${blush}`, wrong: air.nearDew || why !== '' };
}

/** Temperature of the part and its Tg from first contact, with what the paint needs. */
export function tgDrawing(outcome: PlanOutcome, story: CureStory): LineDrawing {
  const last = story.profile.at(-1)!.end;
  const demould = story.moments.find(({ key }) => key === 'demould')?.at ?? null;
  const end = Math.min(last, Math.max(demould ?? 0, story.mixed + 2 * 1440) + 1440);
  const points = progressCurve(story.clock, story.profile, story.mixed, end, 120);
  const zone = outcome.result.build.zone;
  const needed = story.tg.neededC;
  return {
    x: { title: '', min: story.mixed, max: end, ticks: dayTicks(story.mixed, end, zone, TICKS) },
    y: { title: '°C' },
    series: [
      {
        name: 'part',
        tone: 'temperature',
        stepped: true,
        points: points.map(({ minute: x, temperatureC: y }) => ({
          x,
          y,
          words: `${plain(y)} °C, ${dayAndTime(x, zone)}`,
        })),
      },
      {
        name: 'Tg',
        tone: 'cure',
        points: points.flatMap(({ minute: x, tgC }) =>
          tgC === null
            ? []
            : [{ x, y: tgC, words: `Tg ${plain(tgC, 0)} °C, ${dayAndTime(x, zone)}` }],
        ),
      },
      {
        name: 'Tg needed',
        tone: 'limit',
        dash: 2,
        points: [
          { x: story.mixed, y: needed },
          { x: end, y: needed },
        ],
      },
    ],
  };
}
