/** Alarms that go off in the program itself, since the system slows a hidden page, which would sound them late. */
import type { StandingAlarm } from '../session.ts';

export interface AlarmMeans {
  readonly nowMs: () => number;
  readonly show: (title: string, body: string) => void;
  /** Calls again and again, also at once after the machine has slept. @returns what ends it */
  readonly every: (ms: number, call: () => void) => () => void;
}

/** The clock is looked at so often: a long timer would be late after a sleep. */
const LOOK_MS = 5_000;
/** A due alarm is called out again after so long. */
const AGAIN_MS = 60_000;

/** @returns what takes the alarms that stand from now on; one that stays is not called out anew for that */
export function alarmKeeper(means: AlarmMeans): (alarms: readonly StandingAlarm[]) => void {
  let standing: readonly StandingAlarm[] = [];
  let shownMs = new Map<string, number>();
  let stop: (() => void) | null = null;
  const look = (): void => {
    const now = means.nowMs();
    for (const { id, at, title, body } of standing) {
      const shown = shownMs.get(id);
      if (Date.parse(at) > now || (shown !== undefined && now - shown < AGAIN_MS)) continue;
      shownMs.set(id, now);
      means.show(title, body);
    }
  };
  return (alarms) => {
    standing = alarms;
    shownMs = new Map([...shownMs].filter(([id]) => alarms.some((alarm) => alarm.id === id)));
    if (alarms.length === 0) {
      stop?.();
      stop = null;
      return;
    }
    stop ??= means.every(LOOK_MS, look);
    look();
  };
}
