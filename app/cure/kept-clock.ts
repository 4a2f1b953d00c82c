/** Clocks that are asked for again and again: one for the same resin over the same profile. */
import { memoByAll } from '../document/memo.ts';
import { cureClock, type ClockModel, type ClockOptions, type StatefulClock } from './clock.ts';
import type { TemperatureProfile } from './types.ts';

const known = memoByAll<StatefulClock>();

/** The clock over a profile: for the same two objects and options the same clock, with all it has worked out. */
export const keptClock = (
  model: ClockModel,
  profile: TemperatureProfile,
  options: ClockOptions = {},
): StatefulClock => {
  const { side = 'fitted', minimumC = null, headHours = 0 } = options;
  return known([profile, model], `${side} ${minimumC} ${headHours}`, () =>
    cureClock(model, profile, options),
  );
};
