/** One cure of a plan in full: its moments as planned, with the clock and temperatures behind them. */
import { cureClock, type StatefulClock } from '../cure/clock.ts';
import type { CureModel, TemperatureProfile } from '../cure/types.ts';
import type { CureResult, HardenerRow, Milestone } from '../document/schema.ts';
import type { Minute } from '../time/instant.ts';
import type { CureGlass } from './cureGlass.ts';
import type { PlanDetail, PlanOutcome } from './outcome.ts';

export interface Moment {
  readonly milestone: Milestone;
  /** Null: never in what this cure goes through. */
  readonly at: Minute | null;
}

export interface CureStory {
  readonly id: string;
  readonly name: string;
  /** First contact of the oldest resin under the bag. */
  readonly mixed: Minute;
  readonly sealed: Minute;
  /** Latest gel; null where the cold leaves it open. `moments` has the earliest. */
  readonly gelLatest: Minute | null;
  /** In the order of the cure. */
  readonly moments: readonly Moment[];
  /** Late side, over what part and mould go through from the sealed bag on. */
  readonly clock: StatefulClock;
  /** The same on the early side: open time, earliest gel, bond window. */
  readonly early: StatefulClock;
  readonly model: CureModel;
  /** What part and mould go through, heat included. */
  readonly profile: TemperatureProfile;
  readonly glass: CureGlass;
  readonly hardener: HardenerRow;
}

/** Cures that have a place in time. */
export const placedCures = ({ result }: PlanOutcome): readonly CureResult[] =>
  result.cures.filter(({ firstMix }) => firstMix !== null);

/**
 * One cure of the plan in full.
 * @param id of the cure, as `core+inner`
 * @returns null while the cure has no place in time
 */
export function cureStory({ result, detail }: PlanOutcome, id: string): CureStory | null {
  const row = result.cures.find((cure) => cure.id === id);
  const made = detail.cures[id];
  const hardener = made && hardenerIn(detail, made.hardener);
  if (!row || !made?.glass || !hardener) return null;
  const { model, profile, times, glass } = made;
  const { bagMix, sealed } = times;
  if (bagMix === null || sealed === null) return null;
  return {
    id,
    name: row.name,
    mixed: bagMix,
    sealed,
    moments: [
      { milestone: 'open', at: times.open },
      { milestone: 'gel', at: times.gel },
      { milestone: 'tackFree', at: times.tackFree },
      { milestone: 'debag', at: times.debagFrom },
      { milestone: 'demould', at: times.demouldFrom },
      { milestone: 'sand', at: times.sandFrom },
      { milestone: 'bondUntil', at: times.bondUntil },
      { milestone: 'full', at: times.fullFrom },
    ],
    gelLatest: times.gelLatest,
    clock: cureClock(model, profile, { side: 'late', minimumC: hardener.minimumC }),
    early: cureClock(model, profile, { side: 'early' }),
    model,
    profile,
    glass,
    hardener,
  };
}

const hardenerIn = ({ library, build }: PlanDetail, hardener: string): HardenerRow | undefined =>
  library.resins
    .find((resin) => resin.id === build.resin.system)
    ?.hardeners.find((row) => row.id === hardener);
