/** When wet work may begin: the intervals equal a look at every minute. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bagDueOf, bagDueRange } from '../../app/cure/bag-due.ts';
import { cureClock } from '../../app/cure/clock.ts';
import { fitSheet } from '../../app/cure/fit.ts';
import type { TemperatureProfile } from '../../app/cure/types.ts';
import { practiceOf } from '../../app/document/library.ts';
import { wetStarts } from '../../app/schedule/network/wetStarts.ts';
import type { Mode } from '../../app/schedule/problem.ts';
import type { CureSetup } from '../../app/schedule/network/input.ts';
import { expandHours, LONGEST_BREAK_MINUTES } from '../../app/time/calendar.ts';
import type { Calendar, Minute } from '../../app/time/instant.ts';
import { isoToMinute } from '../../app/time/zone.ts';
import { library } from '../library.ts';
import { forAll, tally } from '../support/draws.ts';

const ZONE = 'Europe/Lisbon';
const FIRST = isoToMinute('2027-10-25T00:00+01:00')!;
const DAYS = 12;
const HORIZON = FIRST + DAYS * 1440;
/** Minutes from here on are looked at one by one, for one working week. */
const FROM = FIRST + 2 * 1440;
const UNTIL = FROM + 5 * 1440;
const practice = practiceOf(library);
const resin = library.resins[0]!;

const day = fc.constantFrom<[string, string][]>(
  [],
  [
    ['07:30', '12:00'],
    ['12:30', '16:30'],
  ],
  [['08:00', '13:00']],
  [['06:00', '21:00']],
  [['18:00', '21:00']],
);
const week = fc.record({ mon: day, tue: day, wed: day, thu: day, fri: day, sat: day });
const drawn = fc.record({
  weeks: fc.array(week, { minLength: 1, maxLength: 2 }),
  hardener: fc.constantFrom(...resin.hardeners),
  dayC: fc.integer({ min: 14, max: 32 }),
  nightC: fc.integer({ min: 8, max: 24 }),
  /** Warmer by so much on the afternoon of every third day. */
  warmerK: fc.integer({ min: 0, max: 12 }),
  minutes: fc.array(fc.integer({ min: 20, max: 240 }), { minLength: 1, maxLength: 2 }),
});
type Drawn = typeof drawn extends fc.Arbitrary<infer T> ? T : never;

function profileOf({ dayC, nightC, warmerK }: Drawn): TemperatureProfile {
  return Array.from({ length: DAYS }, (_, i) => {
    const from = FIRST + i * 1440;
    const afternoonC = dayC + (i % 3 === 0 ? warmerK : 0);
    return [
      { start: from, end: from + 720, temperatureC: nightC },
      { start: from + 720, end: from + 840, temperatureC: dayC },
      { start: from + 840, end: from + 1440, temperatureC: afternoonC },
    ];
  }).flat();
}

const holds = (calendar: Calendar, minute: Minute): boolean =>
  calendar.some(({ start, end }) => start <= minute && minute < end);
const within = (calendar: Calendar, start: Minute, minutes: number): boolean =>
  calendar.some((span) => span.start <= start && start + minutes <= span.end);

function laidOut(one: Drawn) {
  const { weeks, hardener, minutes } = one;
  const people = weeks.map((hours) => expandHours(hours, [], ZONE, FIRST, HORIZON));
  const model = fitSheet(hardener, practice, resin.chemistry);
  const profile = profileOf(one);
  const { minimumC } = hardener;
  const late = cureClock(model, profile, { side: 'late', minimumC });
  const early = cureClock(model, profile, { side: 'early', minimumC });
  const held = (temperatureC: number) =>
    cureClock(model, [{ start: 0, end: 60 * 1440, temperatureC }], { side: 'early', minimumC });
  const setup = {
    bagDueRange: bagDueRange(profile, held, practice),
    clock: late,
    early,
    laidEarly: early,
    wetMinutes: {},
  } as unknown as CureSetup;
  const stretches = minutes.map((wet) =>
    people.map((calendar, i): Mode => ({
      id: `${i}`,
      uses: [],
      calendar,
      length: { kind: 'work', minutes: wet, unbroken: true },
    })),
  );
  const personHours = Object.fromEntries(people.map((own, i) => [`p${i}`, own]));
  const hours = { library, personHours, from: FIRST, horizon: HORIZON };
  return { people, late, early, stretches, laid: wetStarts(hours, setup, stretches) };
}

describe('starts of wet work', () => {
  it('are exactly the minutes that keep each rule', () => {
    const seen = tally('bag down', 'bag late', 'gel seen', 'gel alone', 'arriving', 'settled');
    forAll(
      fc.property(drawn, (one) => {
        const { people, early, stretches, laid } = laidOut(one);
        const wet = one.minutes.at(-1)!;
        const due = bagDueOf(early, practice);
        const watch = practice('watch-minutes');
        const look = practice('gel-look-minutes');
        const lookEvery = practice('look-every-minutes');
        const gelIsSeen = (start: Minute): boolean => {
          const gel = early.reached(start, 'gel');
          const watched = (minute: Minute): boolean =>
            people.some((own) => holds(own, minute)) && minute < HORIZON;
          const hour = Array.from({ length: watch }, (_, k) => start + wet + k);
          if (gel === null || !hour.every(watched)) return false;
          return Array.from({ length: lookEvery + 1 }, (_, k) => gel + k).some((minute) =>
            people.some((own) => within(own, minute, look)),
          );
        };
        const settling = practice('mix-after-arrival-minutes');
        const arrives = (calendar: Calendar, start: Minute): boolean =>
          calendar.some(
            (span, i) =>
              span.start <= start &&
              start < span.start + settling &&
              (i === 0 || span.start - calendar[i - 1]!.end > LONGEST_BREAK_MINUTES),
          );
        for (const mode of laid.at(-1)!.modes) {
          const calendar = stretches.at(-1)!.find(({ id }) => id === mode.id)!.calendar!;
          let base = (start: Minute): boolean => within(calendar, start, wet);
          for (const { why, open } of mode.starts ?? []) {
            const before = base;
            const keeps = (start: Minute): boolean => {
              if (why === 'bag-down') return start + wet <= (due.apply(start) ?? Infinity);
              if (why === 'gel-in-hours') return gelIsSeen(start);
              expect(why).toBe('mix-after-arrival');
              return !arrives(calendar, start);
            };
            for (let start = FROM; start < UNTIL; start++) {
              if (!before(start)) continue;
              const kept = keeps(start);
              expect(holds(open, start), `${String(why)} at ${start - FIRST}`).toBe(kept);
              if (why === 'bag-down') seen.saw(kept ? 'bag down' : 'bag late');
              else if (why === 'gel-in-hours') seen.saw(kept ? 'gel seen' : 'gel alone');
              else seen.saw(kept ? 'settled' : 'arriving');
            }
            base = (start) => before(start) && holds(open, start);
          }
        }
      }),
      { numRuns: 40, seed: 16, seen },
    );
  });

  it('let the next layup follow on tack exactly where one of its own starts lies between', () => {
    const seen = tally('met', 'missed');
    forAll(
      fc.property(drawn, (one) => {
        const [wet, next] = one.minutes;
        if (next === undefined) return;
        const { people, late, early, laid } = laidOut(one);
        const [first, second] = laid;
        if (first!.leftOff.includes('tack-in-hours')) return;
        const starts: boolean[] = [];
        for (let minute = FIRST; minute < HORIZON; minute++) {
          starts.push(
            second!.modes.some(
              ({ calendar, starts: windows = [] }) =>
                within(calendar!, minute, next) && windows.every(({ open }) => holds(open, minute)),
            ),
          );
        }
        for (const mode of first!.modes) {
          const tack = mode.starts!.find(({ why }) => why === 'tack-in-hours')!.open;
          const bag = mode.starts!.find(({ why }) => why === 'bag-down')?.open;
          for (let start = FROM; start < UNTIL; start += 3) {
            if (!people.some((own) => within(own, start, wet!))) continue;
            if (!within(mode.calendar!, start, wet!) || (bag && !holds(bag, start))) continue;
            const gel = late.reached(start, 'gel');
            const tackFree = early.reached(start, 'tackFree') ?? HORIZON;
            const from = gel === null ? Infinity : Math.max(gel, start + wet!);
            const met = starts.slice(from - FIRST, tackFree - FIRST + 1).includes(true);
            expect(holds(tack, start), `${start - FIRST}`).toBe(met && from <= tackFree);
            seen.saw(met ? 'met' : 'missed');
          }
        }
      }),
      { numRuns: 60, seed: 17, seen },
    );
  });
});
