/**
 * Heat under the bag: a tent or oven programme over one cure, from its sealed bag on.
 *
 * While the programme runs the temperature is its own alone, whatever the room does; after it the room
 * holds again. Two bags sealed at different minutes therefore go through the same programme, and
 * their degrees of cure never cross: a later bag never ends earlier, and both ways are inverted
 * exactly. What the mould keeps of the heat after the programme is not counted.
 */
import type { HeatProgramme, Milestone } from '../document/schema.ts';
import type { Minute } from '../time/instant.ts';
import { cureClock, type ClockModel } from './clock.ts';
import { keptClock } from './kept-clock.ts';
import { laggedProfile } from './profile.ts';
import type { Side } from './rate.ts';
import type { CureClock, TemperatureProfile, TemperatureSegment } from './types.ts';

/** Ramps are followed in whole degrees; a half goes down however it was reached. */
const wholeDegree = (temperatureC: number): number => Math.round(temperatureC - 1e-6);

/**
 * A programme from minute 0, the moment the bag is sealed: ramps (up or down) and holds from `fromC`,
 * followed with the mould's lag. Whole minutes; empty when the steps take no time.
 * @param lagHours of the coldest spot behind the air of tent or oven
 */
export function programmeProfile(
  steps: HeatProgramme['steps'],
  fromC: number,
  lagHours: number,
): TemperatureProfile {
  const list: TemperatureSegment[] = [];
  let minute = 0;
  let atC = fromC;
  const add = (end: Minute, temperatureC: number) => {
    const last = list[list.length - 1];
    if (last && last.temperatureC === temperatureC) list[list.length - 1] = { ...last, end };
    else list.push({ start: minute, end, temperatureC });
    minute = end;
  };
  for (const { temperatureC, rampKPerHour, holdHours } of steps) {
    const perMinute = (Math.sign(temperatureC - atC) * rampKPerHour) / 60;
    const rampFrom = minute;
    const rampMinutes = rampLength(atC, temperatureC, rampKPerHour);
    for (let passed = 0; passed < rampMinutes; passed++) {
      add(rampFrom + passed + 1, wholeDegree(atC + perMinute * (passed + 0.5)));
    }
    const holdMinutes = Math.round(holdHours * 60);
    if (holdMinutes > 0) add(minute + holdMinutes, temperatureC);
    atC = temperatureC;
  }
  return laggedProfile(list, lagHours, fromC);
}

/** Whole minutes of a ramp; a hair over one counts as that one. */
const rampLength = (fromC: number, toC: number, rampKPerHour: number): number =>
  Math.ceil((Math.abs(toC - fromC) / rampKPerHour) * 60 - 1e-6);

/** A programme with its moment: what the bag that was sealed then goes through. */
export const programmeFrom = (programme: TemperatureProfile, sealed: Minute): TemperatureProfile =>
  programme.map(({ start, end, temperatureC }) => ({
    start: sealed + start,
    end: sealed + end,
    temperatureC,
  }));

/** Length of a programme from the sealed bag on, whole minutes; 0 for an empty one. */
export const programmeMinutes = (programme: TemperatureProfile): number =>
  programme[programme.length - 1]?.end ?? 0;

interface HeatedCase {
  readonly model: ClockModel;
  /** What part and mould go through without heat. */
  readonly room: TemperatureProfile;
  /** From minute 0, not empty. */
  readonly programme: TemperatureProfile;
  readonly minimumC: number;
  /** Which way uncertainty is taken; as fitted when absent. */
  readonly side?: Side;
}

/** Milestones from the sealed bag on; `headHours` is the dose that the resin has had by then. */
export function sealedClock(heated: HeatedCase, headHours = 0) {
  const { model, room, programme, minimumC, side = 'fitted' } = heated;
  const inside = cureClock(model, programme, { side, minimumC, headHours });
  const lasts = programmeMinutes(programme);
  const { doseHours } = inside.stateAt(0, lasts);
  const after = keptClock(model, room, { side, minimumC, headHours: doseHours });
  const [first, last] = [room[0]!.start, room[room.length - 1]!.end];

  const reached = (start: Minute, milestone: Milestone): Minute | null => {
    if (start < first || start > last) return null;
    const within = inside.reached(0, milestone);
    if (within === null) return after.reached(start + lasts, milestone);
    return start + within > last ? null : start + within;
  };
  const clock: CureClock = {
    reached,
    latestStart(end, milestone) {
      const within = inside.reached(0, milestone);
      const start =
        within === null
          ? (after.latestStart(end, milestone) ?? -Infinity) - lasts
          : Math.min(Math.floor(end), last) - within;
      return start < first ? null : start;
    },
    earliestStart(end, milestone) {
      const within = inside.reached(0, milestone);
      const start =
        within === null
          ? (after.earliestStart(end, milestone) ?? Infinity) - lasts
          : Math.ceil(end) - within;
      const earliest = Math.max(first, start);
      return reached(earliest, milestone) === null ? null : earliest;
    },
  };
  return clock;
}

/**
 * Clock of a heated cure. Open time counts from first contact, in the room. Gel counts from first
 * contact too: `wetMinutes` later the bag is sealed and the heat begins (a mix that gels before that
 * gels by the room). All else counts from the sealed bag.
 * @param agedHours dose that the oldest resin has had when the bag is sealed, equivalent hours
 */
export function heatedClock(heated: HeatedCase, wetMinutes: number, agedHours: number): CureClock {
  const { model, room, minimumC, side = 'fitted' } = heated;
  const laid = keptClock(model, room, { side, minimumC });
  const sealed = sealedClock(heated);
  const oldest = sealedClock(heated, agedHours);
  const later = (minute: Minute | null): number => minute ?? Infinity;
  const orNull = (minute: number): Minute | null => (Number.isFinite(minute) ? minute : null);
  return {
    reached(start, milestone) {
      if (milestone === 'open') return laid.reached(start, milestone);
      if (milestone !== 'gel') return sealed.reached(start, milestone);
      const bagged = oldest.reached(start + wetMinutes, 'gel');
      return orNull(Math.min(later(laid.reached(start, 'gel')), later(bagged)));
    },
    // The earlier of two: in time when either is, not before a minute when neither is.
    latestStart(end, milestone) {
      if (milestone === 'open') return laid.latestStart(end, milestone);
      if (milestone !== 'gel') return sealed.latestStart(end, milestone);
      const bagged = oldest.latestStart(end, 'gel');
      const start = Math.max(
        laid.latestStart(end, 'gel') ?? -Infinity,
        bagged === null ? -Infinity : bagged - wetMinutes,
      );
      return start < room[0]!.start ? null : orNull(start);
    },
    earliestStart(end, milestone) {
      if (milestone === 'open') return laid.earliestStart(end, milestone);
      if (milestone !== 'gel') return sealed.earliestStart(end, milestone);
      const tooEarly = this.latestStart(Math.ceil(end) - 1, 'gel');
      const start = tooEarly === null ? room[0]!.start : tooEarly + 1;
      return this.reached(start, 'gel') === null ? null : start;
    },
  };
}
