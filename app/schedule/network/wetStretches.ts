/** The wet work of a cure in stretches: who may lay each, for how long, and when it may begin. */
import { practiceOf } from '../../document/library.ts';
import { memoByAll } from '../../document/memo.ts';
import type { Library } from '../../document/schema.ts';
import type { Layup } from '../../part/types.ts';
import { stretchesOf } from '../../route/routes.ts';
import { MINUTES_PER_HOUR } from '../../time/instant.ts';
import type { Mode } from '../problem.ts';
import { crewModes, type Crew } from './crew.ts';
import type { CureSetup } from './input.ts';
import { NOBODY, settleMinutesOf, type WetHours } from './wetHours.ts';
import { minutesOf } from './wetRules.ts';
import { wetStarts, type WetStretch } from './wetStarts.ts';
import { longestStretch, workedThrough } from './workedThrough.ts';

/** Person-minutes of wet work of a stretch. */
export const personMinutesOf = (
  { wetMinutes }: Pick<CureSetup, 'wetMinutes'>,
  stretch: readonly Layup[],
) => stretch.reduce((sum, layup) => sum + wetMinutes[layup.id]!, 0);

/**
 * True where none of the crew's hours hold the work of a stretch, and the watch where nobody else takes it.
 * Hours that hold not even the watch are no hours for wet work: that is told as it is.
 */
export function isTooLong(crew: Crew, modes: readonly Mode[], watchMinutes: number): boolean {
  const least = Math.min(...modes.map(minutesOf)) + (crew.size < 2 ? watchMinutes : 0);
  const longest = longestStretch(crew.teamsOf(1, 1).map(({ hours }) => hours));
  return modes.length > 0 && least > longest && longest >= watchMinutes;
}

/** The stretches of a cure in order: who may lay each, and when it may begin. */
interface WetStretches {
  readonly modes: readonly (readonly Mode[])[];
  readonly laid: readonly WetStretch[];
}

/** So much wet work is kept for the same clocks and hours: about every cure that routes make of a part. */
const STRETCHES_KEPT = 64;
const knownStretches = memoByAll<WetStretches>(STRETCHES_KEPT);

/** Routes and changed builds with the same work in hand, the same clocks and the same hours share its stretches. */
export function wetStretches(crew: Crew, hours: WetHours, setup: CureSetup): WetStretches {
  const work = (): WetStretches => {
    const modes = wetModes(crew, setup, hours.library);
    return { modes, laid: wetStarts(hours, setup, modes) };
  };
  const { library, personHours, personOvertime = NOBODY, from, horizon } = hours;
  const { inHands, clock, early = clock, laid = clock, laidEarly = laid } = setup;
  if (!inHands) return work();
  const asked = [early, laid, laidEarly, library, personHours, personOvertime];
  return knownStretches(asked, `${from} ${horizon} ${workText(crew, setup)}`, work);
}

/** All that the modes of the stretches are made from, but for crew and library. */
function workText(crew: Crew, setup: WetWork): string {
  const stretches = stretchesOf(setup.cure).map((stretch) => {
    const { peopleMin, peopleMax } = peopleFor(setup, stretch);
    const most = Math.max(1, Math.min(crew.size, Math.max(peopleMin, peopleMax)));
    const minutes = Array.from({ length: most }, (_, k) => minutesFor(setup, stretch, k + 1));
    return `${peopleMin} ${peopleMax} ${minutes.join()}`;
  });
  return stretches.join(';');
}

type WetWork = Pick<CureSetup, 'cure' | 'dry' | 'wetMinutes' | 'inHands'>;

/** Person-minutes of a stretch with so many people on it. */
const minutesFor = (setup: WetWork, stretch: readonly Layup[], people: number): number =>
  personMinutesOf(setup.inHands?.(people) ?? setup, stretch);

/** One front fills as fast for one person at the feed as for two. */
const peopleFor = ({ dry }: WetWork, stretch: readonly Layup[]) => ({
  peopleMin: dry ? 1 : Math.max(...stretch.map((layup) => layup.peopleMin)),
  peopleMax: dry ? 1 : Math.max(...stretch.map((layup) => layup.peopleMax)),
});

/** Who may lay each stretch of a cure, for how long: before anything is said of when. */
export function wetModes(crew: Crew, setup: WetWork, library: Library): Mode[][] {
  const practice = practiceOf(library);
  const tiresMinutes = practice('long-wet-work-hours') * MINUTES_PER_HOUR;
  const watchMinutes = practice('watch-minutes');
  const settleMinutes = settleMinutesOf(library);
  return stretchesOf(setup.cure).map((stretch) => {
    const modes = crewModes(crew, {
      personMinutes: (people) => minutesFor(setup, stretch, people),
      ...peopleFor(setup, stretch),
      unbroken: true,
    }).map((mode) => withFatigue(mode, tiresMinutes));
    return isTooLong(crew, modes, watchMinutes)
      ? modes.map((mode) => workedThrough(mode, settleMinutes + watchMinutes))
      : modes;
  });
}

/** Wet work that is long enough to tire is warned of: taken only where more hands are not to be had. */
const withFatigue = (mode: Mode, tiresMinutes: number): Mode =>
  mode.length.kind === 'work' && mode.length.minutes > tiresMinutes
    ? { ...mode, warnings: (mode.warnings ?? 0) + 1 }
    : mode;
