/** Somebody stays for a gel that falls after hours, or watches through the night and rests after it. */
import { layupStageId, leverId, type GelWatchRef, type LeverRef } from '../document/ids.ts';
import { freeId } from '../document/edit/change.ts';
import { filledIn } from '../document/assume.ts';
import { practiceOf } from '../document/library.ts';
import type { Build, FullBuild, Hours, Library } from '../document/schema.ts';
import { layupWithin } from '../messages/layups.ts';
import { leverWords } from '../messages/levers.ts';
import type { GelWatch } from '../messages/work.ts';
import type { UnseenGel } from '../plan/gelWatch.ts';
import { MINUTES_PER_HOUR, type Minute } from '../time/instant.ts';
import { dayName, dayNumber, localToMinute, minuteToLocal, weekdayOfDay } from '../time/zone.ts';
import type { LeverEdit, LeverTable, PlanOfferInput } from './lever.ts';

type WatchRef = Extract<LeverRef, { lever: 'gel-watch' }>;
type Person = FullBuild['crew'][number];

/** All gels that nobody sees, each watched by whoever is in the shop last that day. */
function watches({ context, document, plan }: PlanOfferInput): LeverEdit[] {
  const { library } = context;
  const refs = plan.unseenGels.map((gel) => watchOf(context, gel));
  const all = refs.filter((one) => one !== null);
  if (all.length === 0 || all.length < refs.length) return [];
  const edit = watchEdit(document, { lever: 'gel-watch', watches: all }, library);
  return edit ? [edit] : [];
}

function watchOf(
  { build, personHours, practice }: PlanOfferInput['context'],
  { layup, mixed, gel, latest }: UnseenGel,
): GelWatchRef | null {
  if (latest === null) return null;
  const until = Math.ceil((latest + practice('gel-look-minutes')) / 5) * 5;
  const leaves = (id: string): Minute =>
    (personHours[id] ?? []).findLast(({ start }) => start <= gel)?.end ?? -Infinity;
  const last = build.crew.toSorted((a, b) => leaves(b.id) - leaves(a.id))[0];
  if (!last || leaves(last.id) <= mixed) return null;
  const { zone } = build;
  return { layup, person: last.id, mix: local(mixed, zone), until: local(until, zone) };
}

const local = (minute: Minute, zone: string): string => {
  const { date, time } = minuteToLocal(minute, zone);
  return `${date}T${time}`;
};

/** @returns null where a person, or hours of that day to stay on from, are not there */
function watchEdit(document: Build, ref: WatchRef, library: Library): LeverEdit | null {
  const done = ref.watches.reduce<Watched | null>(
    (so, watch) => so && watched(so, watch, library),
    { build: filledIn(document), minutes: 0, told: [] },
  );
  if (!done || done.told.length === 0) return null;
  const practice = practiceOf(library);
  const rate = practice('labour-minor-per-h') * (1 + practice('overtime-share'));
  const { crew, pins, busy, zone } = done.build;
  return {
    id: leverId(ref),
    ...leverWords('gel-watch', { watches: done.told, zone }),
    document: { ...document, crew, pins, busy },
    addedMinor: Math.round((rate * done.minutes) / MINUTES_PER_HOUR),
  };
}

/** A build with the watches so far, what they take and what is told of them. */
interface Watched {
  readonly build: FullBuild;
  readonly minutes: number;
  readonly told: readonly GelWatch[];
}

function watched({ build, minutes, told }: Watched, ref: GelWatchRef, library: Library) {
  const practice = practiceOf(library);
  const { zone } = build;
  const person = build.crew.find(({ id }) => id === ref.person);
  const [mix, until] = [ref.mix, ref.until].map((at) => localToMinute(at, zone)?.minute ?? null);
  const stays = person && spansOf(person, ref);
  if (mix == null || until == null || !stays) return null;
  const from = localToMinute(`${ref.mix.slice(0, 10)}T${stays.from}`, zone)?.minute ?? until;
  const most = practice('gel-watch-most-hours') * MINUTES_PER_HOUR;
  if (until <= from || until - from > most) return null;
  const rested = until + practice('rest-hours') * MINUTES_PER_HOUR;
  const rest = restAfter(person, ref, rested, zone);
  const stage = layupStageId('layup', ref.layup);
  return {
    build: {
      ...build,
      crew: build.crew.map((one) =>
        one === person ? { ...one, overtime: { ...one.overtime, ...stays.overtime } } : one,
      ),
      pins: [...build.pins.filter((pin) => pin.stage !== stage), { stage, start: ref.mix }],
      busy: rest
        ? [...build.busy, { id: freeId(build, 'busy', 'rest'), ...rest.block }]
        : build.busy,
    },
    minutes: minutes + until - from,
    told: [
      ...told,
      {
        person: person.name,
        layup: layupWithin(ref.layup),
        ...{ mix, until, restsUntil: rest?.until ?? null },
      },
    ],
  };
}

/** From the end of that day's hours on, over midnight where the gel lies there. */
function spansOf(
  { hours, overtime }: Person,
  { mix, until }: GelWatchRef,
): { readonly from: string; readonly overtime: Hours } | null {
  const [first, last] = [dayNumber(mix.slice(0, 10)), dayNumber(until.slice(0, 10))];
  const [day, next] = [weekdayOfDay(first), weekdayOfDay(last)];
  const from = hours[day]?.at(-1)?.[1];
  const till = until.slice(11);
  if (from === undefined || last - first > 1) return null;
  const evening = longer(overtime[day], from, last === first ? till : '24:00');
  if (evening === null) return null;
  const stays: Hours = { [day]: evening };
  if (last === first || till === '00:00') return { from, overtime: stays };
  const own = hours[next]?.[0]?.[0];
  const morning = longer(overtime[next], '00:00', own !== undefined && own < till ? own : till);
  return morning && { from, overtime: { ...stays, [next]: morning } };
}

type Spans = NonNullable<Hours['mon']>;

/** The spans with one more, or with the one that begins with it made longer; null where another lies there. */
function longer(before: Spans | undefined, from: string, till: string): Spans | null {
  if (from >= till) return null;
  const others = (before ?? []).filter(([start]) => start !== from);
  if (others.some(([start, end]) => start < till && from < end)) return null;
  const same = (before ?? []).find(([start]) => start === from);
  const end = same && same[1] > till ? same[1] : till;
  return [...others, [from, end] satisfies Spans[number]].sort((a, b) => (a[0] < b[0] ? -1 : 1));
}

/** The hours that are not worked so that the rest is whole; null where the next day begins after it. */
function restAfter(person: Person, { mix, until }: GelWatchRef, rested: Minute, zone: string) {
  const isNextDay = until.slice(0, 10) !== mix.slice(0, 10);
  const date = isNextDay ? until.slice(0, 10) : dayName(dayNumber(mix.slice(0, 10)) + 1);
  const spans = person.hours[weekdayOfDay(dayNumber(date))] ?? [];
  const [begins, ends] = [spans[0]?.[0], spans.at(-1)?.[1]];
  if (begins === undefined || ends === undefined) return null;
  const from = localToMinute(`${date}T${begins}`, zone)?.minute;
  const end = localToMinute(`${date}T${ends}`, zone)?.minute;
  if (from === undefined || end === undefined || from >= rested) return null;
  const whole = Math.min(rested, end);
  return {
    until: whole,
    block: {
      what: 'Rest after the watch',
      who: { kind: 'person' as const, id: person.id },
      from: local(from, zone),
      until: local(whole, zone),
    },
  };
}

export const WATCH_LEVERS: LeverTable<'gel-watch'> = {
  'gel-watch': {
    subject: 'gel watch',
    offerWithPlan: watches,
    edit: watchEdit,
  },
};
