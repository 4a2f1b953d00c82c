/** A card for every post-cure: who, when, how fast, where to measure, when not to, and when it runs away. */
import { stageId } from '../document/ids.ts';
import { coreOf, mouldOf } from '../document/library.ts';
import { joinedSteps, type PostCureStep } from '../cure/tg.ts';
import { riseWords } from '../messages/postCure.ts';
import { tgWords } from '../messages/tg.ts';
import { listed } from '../messages/words.ts';
import type { TgNeed } from '../plan/glass.ts';
import type { PostCureRun } from '../plan/postCure.ts';
import type { Minute } from '../time/instant.ts';
import { minuteToIso } from '../time/zone.ts';
import { isStaffed, isWithheld, type PlacedStage, type SheetData } from './sheetData.ts';
import {
  blank,
  blanks,
  cautionBox,
  row,
  sheetOf,
  signatures,
  table,
  twoTicks,
  type Sheet,
} from './parts.ts';
import { h, type SheetNode } from './tree.ts';
import { length } from '../time/words.ts';
import { whoStays } from './whoStays.ts';
import { withheldSheet } from './withheld.ts';
import { clock, dayClock, dayClockOr, fixed, shortWeekday } from './words.ts';

export function postCureCards(facts: SheetData): Sheet[] {
  const { tg } = facts.detail;
  return (tg?.choice?.runs ?? []).map((run) => postCureCard(facts, tg!, run));
}

type Named = 'post-cure-setup' | 'post-cure' | 'post-cure-takedown';

const stageOf = (facts: SheetData, what: Named, { number }: PostCureRun): PlacedStage | null => {
  const id = stageId({ what, number });
  return facts.placed.find(({ stage }) => stage.id === id) ?? null;
};

function postCureCard(facts: SheetData, tg: TgNeed, run: PostCureRun): Sheet {
  const heat = stageOf(facts, 'post-cure', run);
  const id = run.number === 1 ? 'cure-post-cure' : `cure-post-cure-${run.number}`;
  const title = `Post-cure ${run.place === 'mould' ? 'on the mould' : 'on supports'}`;
  if (heat && isWithheld(heat.stage)) {
    return withheldSheet('cure', id, title, heat.stage.withheld!);
  }
  return sheetOf(
    {
      kind: 'cure',
      id,
      title,
      subtitle:
        `Heat on ${dayClockOr(heat?.startIso ?? null, 'not placed')}, cooled ` +
        `${dayClockOr(heat?.endIso ?? null, 'not placed')}. ${glassLine(facts, tg)}`,
      ...(heat && { days: [heat.startIso.slice(0, 10), heat.endIso.slice(0, 10)] as const }),
    },
    people(facts, run),
    stepTable(facts, run, heat),
    reckonedFrom(facts, run),
    limits(facts, run),
    goNoGo(facts, run),
    heat && logTable(facts, run, heat),
    runsAway(facts, run),
    cautionBox(['heat-setup', 'post-cure', 'heat-takedown'], facts.hazards),
    signatures('Set up by', 'Go, said by', 'Heat off by', 'Taken down by'),
  );
}

function glassLine({ build }: SheetData, { members }: TgNeed): string {
  const { day } = build.room.temperatureC;
  const heated = members.filter(({ made }) => made !== 'late');
  const before = heated.toSorted((a, b) => (a.withoutC ?? Infinity) - (b.withoutC ?? Infinity))[0];
  const [after] = heated;
  if (!before || !after) return '';
  return `Weakest Tg before ${tgWords(before.withoutC, day)}, after ${tgWords(after.withC, day)}.`;
}

/** Who puts it up and takes it down, and when somebody has to be there. */
function people(facts: SheetData, run: PostCureRun): SheetNode {
  const heat = stageOf(facts, 'post-cure', run);
  const line = (label: string, placed: PlacedStage | null): SheetNode =>
    row(
      '',
      label,
      placed ? `${dayClock(placed.startIso)} to ${dayClock(placed.endIso)}` : 'not placed',
      placed ? facts.personNames(placed.stage.people) : '',
    );
  const until = heat && minuteToIso(heat.start + run.attendedMinutes, facts.zone);
  return table(
    'facts',
    '',
    ['What', 'When', 'Who'],
    [
      line('Tent, heater and probes up', stageOf(facts, 'post-cure-setup', run)),
      row(
        'strong',
        'Somebody stays in the shop',
        heat
          ? `${dayClock(heat.startIso)} to ${dayClock(until!)}: the first ${length(run.attendedMinutes)} from heat on`
          : 'not placed',
        heat
          ? (whoStays(facts, { start: heat.start, end: heat.start + run.attendedMinutes }) ??
              'nobody of the crew is there for all of it')
          : '',
      ),
      line('Tent and heater down', stageOf(facts, 'post-cure-takedown', run)),
    ],
  );
}

const STEP_WORDS = { ramp: 'Up', hold: 'Hold', cool: 'Down, under support' } as const;

/** Before the first rise nothing is held for its own sake: the part is still too soft for more. */
const stepWords = (steps: readonly TimedStep[], i: number): string =>
  isWait(steps, i) ? 'Wait, the part is too soft for more' : STEP_WORDS[steps[i]!.step.kind];

const isWait = (steps: readonly TimedStep[], i: number): boolean =>
  steps[i]!.step.kind === 'hold' && steps.slice(i).some(({ step }) => step.kind === 'ramp');

/** What the ramp counts on, so that nobody heats by it a part that is softer. */
function reckonedFrom(facts: SheetData, { beginsTgC }: PostCureRun): SheetNode {
  const afterGelHours = facts.practice('postcure-after-gel-hours');
  const { day } = facts.build.room.temperatureC;
  return h('p', {}, riseWords({ beginsTgC, afterGelHours }, day));
}

/** Ramp, hold and cooling with their clock times and rates. */
function stepTable(facts: SheetData, { plan }: PostCureRun, heat: PlacedStage | null): SheetNode {
  const steps = timed(plan.steps, heat?.start ?? null);
  const rows = steps.map(({ step, from, to }, i) => {
    const { kind, fromC, toC, minutes } = step;
    const rate = kind === 'hold' ? '' : `${fixed((Math.abs(toC - fromC) / minutes) * 60, 1)} °C/h`;
    const at = (minute: Minute | null) =>
      minute === null ? 'not placed' : dayClock(minuteToIso(minute, facts.zone));
    return row(
      '',
      stepWords(steps, i),
      at(from),
      at(to),
      length(minutes),
      kind === 'hold' ? `${fixed(toC, 0)} °C` : `${fixed(fromC, 0)} to ${fixed(toC, 0)} °C`,
      rate,
    );
  });
  return table('log', '', ['Step', 'From', 'To', 'For', 'Part', 'Rate'], rows);
}

interface TimedStep {
  readonly step: PostCureStep;
  readonly from: Minute | null;
  readonly to: Minute | null;
}

function timed(steps: readonly PostCureStep[], start: Minute | null): TimedStep[] {
  let passed = 0;
  return joinedSteps(steps).map((step) => {
    const from = start === null ? null : start + Math.round(passed);
    passed += step.minutes;
    return { step, from, to: start === null ? null : start + Math.round(passed) };
  });
}

/** What nothing may be hotter than, and where it is measured. */
function limits(
  { build, detail: { library } }: SheetData,
  { place, plan }: PostCureRun,
): SheetNode {
  const cores = new Map(
    build.part.zones.flatMap(({ core }) =>
      core ? [[core.material, coreOf(library, core.material)]] : [],
    ),
  );
  const mould = mouldOf(library, build.mould.material);
  const lines = [...cores.values()].map((core) => `core of ${core.name} ${fixed(core.maxC, 0)} °C`);
  if (place === 'mould') {
    lines.push(`mould of ${mould.name} ${fixed(build.mould.maxC ?? mould.maxC, 0)} °C`);
  }
  if (build.room.tent) lines.push(`tent ${fixed(build.room.tent.maxC, 0)} °C`);
  const hottest =
    place === 'mould' ? 'where the hot air meets the part' : 'the thin edge nearest the heater';
  const coldest =
    place === 'mould' ? 'the thickest of the mould, low down' : 'the lowest, farthest';
  return h(
    'section',
    {},
    h('h2', {}, 'Limits and probes'),
    h(
      'p',
      {},
      `Nothing hotter: ${listed(lines)}. Hottest probe on ${hottest}: it sets the limit. Coldest on ` +
        `${coldest}: the hold counts from when it reads ${fixed(plan.holdC, 0)} °C.`,
    ),
    blanks(blank('Hottest probe at'), blank('Coldest probe at'), blank('Cut-out set to', '°C')),
  );
}

function goNoGo(facts: SheetData, { place, beginsTgC }: PostCureRun): SheetNode {
  const ahead =
    place === 'mould'
      ? 'Bag off, pump free: no vacuum is planned. The part lies in its mould by its own weight, loose film over it; nobody levers or lifts it'
      : 'On supports that follow the shape, no more than 300 mm apart, free to grow; nothing hangs over';
  return h(
    'section',
    { class: 'checks' },
    h('h2', {}, 'Go or no-go'),
    twoTicks([
      ahead,
      beginsTgC === null
        ? 'No curve tells the Tg on the way up: the ramp as written, no faster; heat off if anything sags or prints'
        : `Heat stays ${fixed(facts.practice('postcure-supports-below-tg-k'), 0)} °C below the Tg reached: the ramp as written, no faster`,
      'Edge closed, repairs done; no filler on the part yet',
      'Both probes read, logger runs',
      'Over-temperature cut-out tried by hand; it is not the thermostat',
      'Extinguisher and a clear way out; nothing loose or flammable in the tent',
      'Styrene, solvent and dust out of the room',
    ]),
  );
}

/** Rows of the log: every hour of the first ramp, then every few hours while somebody is there. */
const LOG_EVERY_MINUTES = 60;
const LOG_EVERY_LATER_MINUTES = 180;

/** What begins at the end of a step. */
function nextWords(steps: readonly TimedStep[], i: number): string {
  const next = steps[i + 1]?.step;
  if (!next)
    return steps[i]!.step.kind === 'cool' ? 'Cooled: may be opened' : 'Heat off: may be opened';
  if (next.kind === 'cool') return 'Cooling begins';
  if (next.kind === 'hold') return isWait(steps, i + 1) ? 'Waits at this heat' : 'Hold begins';
  const { step } = steps[i]!;
  if (step.kind !== 'ramp') return 'Rise begins';
  return rateOf(next) < rateOf(step) ? 'Slower from here' : 'Faster from here';
}

const rateOf = ({ fromC, toC, minutes }: PostCureStep): number => (toC - fromC) / minutes;

function logTable(facts: SheetData, run: PostCureRun, heat: PlacedStage): SheetNode {
  const steps = timed(run.plan.steps, heat.start);
  const marks = new Map<Minute, string>([[heat.start, 'Heat on']]);
  for (const [i, { to }] of steps.entries()) marks.set(to!, nextWords(steps, i));
  const attended = heat.start + run.attendedMinutes;
  for (let at = heat.start + LOG_EVERY_MINUTES; at < heat.end;) {
    if (!marks.has(at) && isStaffed(facts, at))
      marks.set(at, at <= attended ? 'Somebody there' : 'Look');
    at += at < attended ? LOG_EVERY_MINUTES : LOG_EVERY_LATER_MINUTES;
  }
  const lines = [...marks].sort(([a], [b]) => a - b);
  let day = '';
  const rows = lines.map(([at, what]) => {
    const iso = minuteToIso(at, facts.zone);
    const when = iso.slice(0, 10) === day ? clock(iso) : `${shortWeekday(iso)} ${clock(iso)}`;
    day = iso.slice(0, 10);
    const alone = isStaffed(facts, at) ? '' : ' (read off the logger)';
    return row('', when, what + alone, fixed(temperatureAt(steps, at), 0), '', '', '', '');
  });
  const half = Math.ceil(rows.length / 2);
  return h(
    'section',
    {},
    h('h2', {}, 'Temperature by the clock, °C; off the logger where nobody is in the shop'),
    h(
      'div',
      { class: 'side-by-side' },
      logHalf(rows.slice(0, half)),
      rows.length > half && logHalf(rows.slice(half)),
    ),
  );
}

const LOG_HEAD = ['Due', 'What', 'Plan', 'At', 'Hot', 'Cold', 'By'];
const logHalf = (rows: readonly SheetNode[]): SheetNode =>
  table('log', '', LOG_HEAD, rows, [18, 35, 9, 10, 10, 10, 8]);

/** Temperature of the plan at a minute, C. */
function temperatureAt(steps: readonly TimedStep[], at: Minute): number {
  const { step, from } = steps.find(({ to }) => at < to!) ?? steps.at(-1)!;
  const share = Math.min(1, Math.max(0, (at - from!) / step.minutes));
  return step.fromC + (step.toC - step.fromC) * share;
}

function runsAway({ build }: SheetData, { place }: PostCureRun): SheetNode {
  const limit = place === 'mould' ? 'mould or core' : 'core';
  return h(
    'section',
    { class: 'witness' },
    h('h2', {}, 'When it runs away'),
    h(
      'p',
      { class: 'abort' },
      h('strong', {}, `Hottest probe over the plan by 5 °C, or near the limit of ${limit}:`),
      ' heater off at the plug, tent opened from below, part left on its ',
      place === 'mould' ? 'mould' : 'supports',
      '; nobody lifts it while it is warm. Smoke: everybody out, power off, fire service. ',
      'Heater fails: the tent stays shut, it cools by itself; note when, and plan the hold again.',
    ),
    h('p', {}, HEAT_ALONE_WORDS[build.room.heatAlone]),
  );
}

const HEAT_ALONE_WORDS = {
  never: 'This shop lets no heat run alone: somebody is there to the end.',
  nights:
    'Alone at night only behind cut-out and logger; not through a day on which the shop is closed.',
  weekends: 'Alone only behind cut-out and logger; somebody on call.',
} as const;
