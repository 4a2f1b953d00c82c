/** Clocks that are asked for again and again: one for the same resin over the same profile. */
import { memoByAll } from '../document/memo.ts';
import type { Milestone } from '../document/schema.ts';
import type { Minute } from '../time/instant.ts';
import { cureClock, type ClockModel, type ClockOptions, type StatefulClock } from './clock.ts';
import type { CureClock, TemperatureProfile } from './types.ts';

const known = memoByAll<StatefulClock>();

/** The clock over a profile: for the same two objects and options the same clock, with all it has worked out. */
export const keptClock = (
  model: ClockModel,
  profile: TemperatureProfile,
  options: ClockOptions = {},
): StatefulClock => {
  const { side = 'fitted', minimumC = null, headHours = 0 } = options;
  return known([profile, model], `${side} ${minimumC} ${headHours}`, () =>
    withAnswersKept(cureClock(model, profile, options)),
  );
};

type Ask = CureClock['reached'];

/** Rules and routes ask one clock for the same minutes: their answers are kept, at most so many of each kind. */
const MOST_ANSWERS = 10_000;

const withAnswersKept = (clock: StatefulClock): StatefulClock => ({
  ...clock,
  reached: remembered(clock.reached),
  latestStart: remembered(clock.latestStart),
  earliestStart: remembered(clock.earliestStart),
});

function remembered(ask: Ask): Ask {
  const byMilestone = new Map<Milestone, Map<Minute, Minute | null>>();
  return (minute, milestone) => {
    let answers = byMilestone.get(milestone);
    if (!answers) byMilestone.set(milestone, (answers = new Map<Minute, Minute | null>()));
    const known = answers.get(minute);
    if (known !== undefined) return known;
    const answer = ask(minute, milestone);
    if (answers.size >= MOST_ANSWERS) answers.clear();
    answers.set(minute, answer);
    return answer;
  };
}
