/**
 * An open instance as a shop would meet it: hours that are closed at night and at weekends, lengths
 * and lags that depend on the moment, a second and worse way of doing everything, and people asked for
 * by number. Every time of the instance is a minute of a strictly increasing map, so the best plans
 * of both are the same ones and a makespan is read back exactly.
 */
import type { Calendar } from '../../app/time/instant.ts';
import type { AnyOf, Length, Mode, MonotoneMap, Problem } from '../../app/schedule/problem.ts';
import { seededRandom, type Random } from '../../app/schedule/random.ts';
import { horizonOf, type Instance } from './psplib-read.ts';

const DAY = 1440;
/** A Monday, in minutes of Unix UTC. */
const MONDAY = 29_001_600 - (29_001_600 % (7 * DAY)) + 4 * DAY;
const SHORTEST_UNIT = 4;
const LONGEST_UNIT = 19;

/** Units of time as minutes of working hours; unit 0 is `minuteOf[before]`. */
interface Clock {
  readonly minuteOf: Int32Array;
  readonly before: number;
  readonly hours: Calendar;
}

export interface Dressed {
  readonly problem: Problem;
  /** The unit of time in which a minute lies, the end of it counted. */
  readonly unitOf: (minute: number) => number;
}

/** Units of uneven lengths inside days of uneven hours, five days of seven. */
function clockOf(random: Random, before: number, after: number): Clock {
  const minuteOf = new Int32Array(before + after + 1);
  const hours: { start: number; end: number }[] = [];
  let day = 0;
  let minute = MONDAY + 7 * 60;
  let closes = MONDAY + 16 * 60;
  hours.push({ start: minute, end: closes });
  for (let k = 0; k < minuteOf.length; k++) {
    if (minute >= closes) {
      do day++;
      while (day % 7 >= 5);
      const opens = MONDAY + day * DAY + (6 + random.below(3)) * 60;
      closes = MONDAY + day * DAY + (14 + random.below(5)) * 60;
      hours.push({ start: opens, end: closes });
      minute = opens;
    }
    minuteOf[k] = minute;
    minute += SHORTEST_UNIT + random.below(LONGEST_UNIT - SHORTEST_UNIT + 1);
  }
  return { minuteOf, before, hours };
}

/** Index of the first unit that begins at or after a minute. */
function unitFrom({ minuteOf }: Clock, minute: number): number {
  let low = 0;
  let high = minuteOf.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (minuteOf[middle]! >= minute) high = middle;
    else low = middle + 1;
  }
  return low;
}

/** The moment so many units after a minute, a unit begun counted as the next one. */
function lagMap(clock: Clock, units: number): MonotoneMap {
  const { minuteOf } = clock;
  const at = (k: number): number | null => (k >= 0 && k < minuteOf.length ? minuteOf[k]! : null);
  const upTo = (minute: number): number => unitFrom(clock, minute + 1) - 1;
  return {
    apply: (x) => at(unitFrom(clock, x) + units),
    latest: (y) => at(upTo(y) - units),
    earliest: (y) => {
      const before = at(unitFrom(clock, y) - units - 1);
      return before === null ? null : before + 1;
    },
  };
}

function lengthOf(clock: Clock, units: number): Length {
  const map = lagMap(clock, units);
  return { kind: 'function', endOf: map.apply, latestStart: map.latest };
}

/** The instance with the rules of a workshop added; the same for the same seed. */
export function dress(instance: Instance, seed: number): Dressed {
  const random = seededRandom(seed);
  const { duration, demand, capacity, arcs } = instance;
  const units = horizonOf(instance);
  const clock = clockOf(random, units, 3 * units + 20);
  const minute = (unit: number): number => clock.minuteOf[clock.before + unit]!;
  const people = capacity.map((count, k) =>
    Array.from({ length: count }, (_, n) => `r${k}-${String(n).padStart(3, '0')}`),
  );
  const anyOf = (amounts: readonly number[]): AnyOf[] =>
    amounts.flatMap((count, k) => (count > 0 ? [{ people: people[k]!, count }] : []));
  const modesOf = (i: number): Mode[] => {
    const amounts = demand[i]!;
    const best: Mode = {
      id: 'usual',
      uses: [],
      anyOf: anyOf(amounts),
      calendar: clock.hours,
      length: lengthOf(clock, duration[i]!),
    };
    // Slower, or with more hands, or both; never better in anything.
    const slower = random.below(3);
    const k = random.below(capacity.length);
    const more = amounts.map((amount, r) =>
      r === k ? Math.min(capacity[k]!, amount + 1) : amount,
    );
    const worse: Mode = {
      ...best,
      id: 'worse',
      anyOf: anyOf(slower === 0 || random.below(2) === 0 ? more : amounts),
      length: lengthOf(clock, duration[i]! + slower),
    };
    return random.below(2) === 0 ? [best, worse] : [worse, best];
  };
  const problem: Problem = {
    from: minute(0),
    due: minute(units),
    horizon: minute(units),
    resources: people.flatMap((ids, k) =>
      ids.map((id, n) => ({ id, name: `R${k + 1} no. ${n + 1}`, capacity: 1 })),
    ),
    stages: duration.map((_, i) => ({
      id: `a${i}`,
      name: `Activity ${i}`,
      kind: 'own',
      cure: null,
      modes: modesOf(i),
      release: null,
      due: null,
      fixedStart: null,
      fixedEnd: null,
      air: null,
      perishable: false,
    })),
    relations: arcs.map(({ from, to, lag }) => ({
      type: lag >= 0 ? 'at-least' : 'at-most',
      from: lag >= 0 ? `a${from}` : `a${to}`,
      anchor: 'start',
      to: lag >= 0 ? `a${to}` : `a${from}`,
      lag: lagMap(clock, Math.abs(lag)),
      why: 'own-order',
    })),
    airSettleMinutes: 0,
  };
  return { problem, unitOf: (at) => unitFrom(clock, at) - clock.before };
}
