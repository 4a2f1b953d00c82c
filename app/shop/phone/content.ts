/** What a phone pack holds: the stages by day with what is ticked of each, and the clocks that ticks start. */
import { recordsInForce } from '../../document/records.ts';
import type { MixResult } from '../../document/schema.ts';
import type { PlanOutcome } from '../../plan/outcome.ts';
import { dayName, localDayNumber } from '../../time/zone.ts';
import type { Minute } from '../../time/instant.ts';
import type { ClockKind } from '../floor/clocks.ts';
import { openSteps, type Step } from '../floor/steps.ts';
import { clockWords, stampWords } from '../floor/words.ts';
import { cautionsOf } from '../hazards.ts';
import { mixDestination, scaleReadings } from '../mixes.ts';
import {
  isWithheld,
  minuteOf,
  sheetDataOf,
  type CureSheetData,
  type PlacedStage,
  type SheetData,
} from '../sheetData.ts';
import { clock, fixed, longDay, shortDay } from '../words.ts';
import { planSum } from './planSum.ts';

/** One button of a card. */
export interface PhoneStep {
  readonly key: string;
  /** `Mixed 1: 240 g resin, scale reads 312` */
  readonly label: string;
  /** Pressed twice: a slip of it could hurt. */
  readonly held: boolean;
}

export interface PhoneCard {
  readonly id: string;
  readonly name: string;
  readonly when: string;
  readonly who: string;
  /** Why nothing of it may be done; empty where it may. */
  readonly withheld: readonly string[];
  /** Questions that must be answered first. */
  readonly waitsFor: readonly string[];
  /** How far the program has it written down already. */
  readonly state: 'open' | 'running' | 'done';
  readonly cautions: readonly string[];
  readonly steps: readonly PhoneStep[];
}

export interface PhoneDay {
  readonly date: string;
  readonly name: string;
  readonly cards: readonly PhoneCard[];
}

/** A clock of the phone: it runs from a tick, or from the plan, until one of its last ticks. */
export interface PhoneClock {
  readonly label: string;
  /** Minute by the plan. */
  readonly at: Minute;
  /** Tick that starts it, and the planned minute of that tick; null: it runs when the pack is made. */
  readonly from: { readonly key: string; readonly at: Minute } | null;
  /** Shown also before its tick, once it is as near as this; null: only after it. */
  readonly aheadMinutes: number | null;
  /** It ends no later than this, which moves with a tick of its own; null: nothing else bounds it. */
  readonly latest: Pick<PhoneClock, 'at' | 'from'> | null;
  /** Any of these ends it. */
  readonly until: readonly string[];
}

export interface PhoneContent {
  readonly build: string;
  readonly name: string;
  readonly zone: string;
  /** `2027-04-19T07:00Z 5f3a9c01` */
  readonly plan: string;
  readonly days: readonly PhoneDay[];
  readonly clocks: readonly PhoneClock[];
}

export interface PhonePick {
  /** First and last day, YYYY-MM-DD; left out: all. */
  readonly days?: readonly [from: string, to: string] | null;
  /** Id of the one whose pack it is; cures and bags stand in everybody's. */
  readonly person?: string | null;
}

/** A mix is counted down to from so far ahead. */
const MIX_AHEAD_MINUTES = 12 * 60;

export function phoneContent(outcome: PlanOutcome, pick: PhonePick = {}): PhoneContent {
  const facts = sheetDataOf(outcome);
  const steps = Map.groupBy(openSteps(outcome), ({ stage }) => stage);
  const now = minuteOf(facts.result.now);
  const picked = facts.placed.filter((placed) => isPicked(facts, placed, pick));
  const byDate = Map.groupBy(picked, ({ start }) => dayName(localDayNumber(start, facts.zone)));
  return {
    build: facts.result.build.id,
    name: facts.result.build.name,
    zone: facts.zone,
    plan: `${utc(now)} ${planSum(facts.result)}`,
    days: [...byDate].map(([date, all]) => ({
      date,
      name: longDay(date),
      cards: all.map((placed) => cardOf(facts, placed, steps.get(placed.stage.id) ?? [])),
    })),
    clocks: facts.cures.flatMap((cure) => clocksOf(facts, cure, [...steps.values()].flat())),
  };
}

/** `2027-04-19T07:00Z`, as the text of ticks has it. */
export const utc = (minute: Minute): string =>
  `${new Date(minute * 60_000).toISOString().slice(0, 16)}Z`;

function isPicked(
  { zone }: SheetData,
  { stage, start, end }: PlacedStage,
  { days = null, person = null }: PhonePick,
): boolean {
  if (stage.kind === 'wait' || stage.kind === 'watched-vacuum') return false;
  if (person !== null && stage.people.length > 0 && !stage.people.includes(person)) return false;
  if (days === null) return true;
  const [first, last] = [start, Math.max(start, end - 1)].map((at) =>
    dayName(localDayNumber(at, zone)),
  );
  return first! <= days[1] && last! >= days[0];
}

function cardOf(facts: SheetData, placed: PlacedStage, steps: readonly Step[]): PhoneCard {
  const { stage, startIso, endIso } = placed;
  const sameDay = startIso.slice(0, 10) === endIso.slice(0, 10);
  const until = sameDay ? clock(endIso) : `${shortDay(endIso)} ${clock(endIso)}`;
  const waits = new Set(stage.waitsFor ?? []);
  const done =
    stage.state === 'done' || stage.state === 'implied' || (stage.state && steps.length === 0);
  return {
    id: stage.id,
    name: stage.name,
    when: startIso === endIso ? clock(startIso) : `${clock(startIso)} to ${until}`,
    who: facts.personNames(stage.people),
    withheld: isWithheld(stage) ? stage.withheld! : [],
    waitsFor: facts.build.part.questions.filter(({ id }) => waits.has(id)).map(({ text }) => text),
    state: done ? 'done' : stage.state ? 'running' : 'open',
    cautions: cautionsOf(facts.outcome, stage),
    steps: isWithheld(stage) ? [] : steps.map((step) => stepOf(facts, step)),
  };
}

const HELD: ReadonlySet<string> = new Set(['mixed', 'bag-down', 'gel', 'off']);

function stepOf(facts: SheetData, { key, stamp, batch, stage, infused }: Step): PhoneStep {
  const held = HELD.has(stamp);
  if (batch === null) return { key, held, label: stampWords(stamp, infused) };
  const of = facts.result.stages.find(({ id }) => id === stage)?.cure;
  const cure = facts.cures.find(({ id }) => id === of);
  const index = cure?.mixes.findIndex((mix) => mix.batch === batch.number) ?? -1;
  const mix = cure?.mixes[index];
  return {
    key,
    held,
    label: `Batch ${batch.number} ${stampWords(stamp, infused).toLowerCase()}${mix ? `: ${mixWords(facts, cure, mix, index)}` : ''}`,
  };
}

function mixWords(facts: SheetData, cure: CureSheetData, mix: MixResult, index: number): string {
  const read = scaleReadings(mix, facts.practice('mix-tolerance-share'));
  const grams = (value: number) => fixed(value, read.decimals);
  return `resin ${grams(read.resinG)} g, hardener until the scale reads ${grams(read.cumulativeG)} g; goes on ${mixDestination(cure.layups, cure.mixes, index)}`;
}

/** The clocks of one cure. They go by its first mix, as the plan has the room from then on. */
function clocksOf(facts: SheetData, cure: CureSheetData, all: readonly Step[]): PhoneClock[] {
  if (!cure.row || cure.withheld.length > 0) return [];
  const stages = facts.result.stages.filter(({ cure: of }) => of === cure.id);
  const ids = new Set(stages.map(({ id }) => id));
  const own = all.filter(({ stage }) => ids.has(stage));
  const mixes = own.filter(({ stamp }) => stamp === 'mixed');
  const records = recordsInForce(facts.build);
  const begun = stages.some(({ id, kind }) => kind === 'layup' && records.has(id));
  const first = mixes[0];
  const from = begun || !first?.at ? null : { key: first.key, at: first.at };
  const keys = (...stamps: readonly string[]) =>
    own.filter(({ stamp }) => stamps.includes(stamp)).map(({ key }) => key);
  const [down, gelled, off] = [keys('bag-down'), keys('gel'), keys('off')];
  if (from === null && !begun) return [];
  const clock = (what: ClockKind, iso: string | null, until: readonly string[]): PhoneClock[] =>
    iso === null || until.length === 0
      ? []
      : [
          {
            label: `${clockWords(what, cure.row?.infused === true)}: ${cure.name}`,
            at: minuteOf(iso),
            from,
            aheadMinutes: null,
            latest: null,
            until,
          },
        ];
  return [
    ...mixes.flatMap((step, i) => mixClocks(cure, step, mixes[i + 1]?.key ?? down[0], from)),
    ...clock('bag-by', cure.row.bagBy, down),
    ...clock('gel-from', cure.row.gel, gelled),
    ...clock('gel-by', cure.row.gelLatest, gelled),
    ...clock('off-from', cure.row.debagFrom, off),
  ];
}

function mixClocks(
  cure: CureSheetData,
  { key, at, batch }: Step,
  after: string | undefined,
  from: PhoneClock['from'],
): PhoneClock[] {
  if (at === null || batch === null) return [];
  const life = cure.mixes.find((mix) => mix.batch === batch.number)?.potLifeMin ?? null;
  const name = `${cure.name}, batch ${batch.number}`;
  const bagBy = cure.row?.bagBy ? minuteOf(cure.row.bagBy) : null;
  return [
    {
      label: `Mix by: ${name}`,
      at,
      from: from?.key === key ? null : from,
      aheadMinutes: MIX_AHEAD_MINUTES,
      latest: null,
      until: [key],
    },
    ...(life === null || after === undefined
      ? []
      : [
          {
            label: `${clockWords('use-by', false)}: ${name}`,
            at: Math.floor(at + life),
            from: { key, at },
            aheadMinutes: null,
            latest: bagBy === null ? null : { at: bagBy, from },
            until: [after],
          },
        ]),
  ];
}
