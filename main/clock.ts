/** The clock of a session: the machine's, or one that `--now` has stopped. */
export interface Clock {
  readonly now: () => Date;
  /** True when the clock stands still. */
  readonly fixed: boolean;
}

export const machineClock: Clock = { now: () => new Date(), fixed: false };

/** A clock that always shows the same instant. */
export function fixedClock(instant: Date): Clock {
  const ms = instant.getTime();
  return { now: () => new Date(ms), fixed: true };
}
