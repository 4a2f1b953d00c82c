/** Ends a host that nobody has called for long, except while an alarm or a cure's clock waits. */

/** What the pages have told of the floor. */
export interface Floor {
  /** True while a cure's clock runs. */
  awake: boolean;
  /** Instants of the alarms that stand, in Unix ms. */
  alarmsMs: readonly number[];
}

/** An open page calls each minute, a frozen one not at all: a night is no reason to end. */
export const IDLE_MS = 12 * 3_600_000;

/** @returns true when nothing is waited for any more */
export function mayEnd(nowMs: number, lastCallMs: number, floor: Floor): boolean {
  const lastAlarm = Math.max(lastCallMs, ...floor.alarmsMs);
  return !floor.awake && nowMs - lastAlarm >= IDLE_MS;
}
