/** A page that lay open while the machine slept. */
import { afterEach, expect, it, vi } from 'vitest';
import { afterSleep, LOOK_MS } from '../../../renderer/state/wake.ts';

const MINUTE_MS = 60_000;

afterEach(() => vi.useRealTimers());

it('looks at its clock again within five seconds of waking, and not before', () => {
  vi.useFakeTimers();
  let woken = 0;
  const end = afterSleep(() => (woken += 1));
  vi.advanceTimersByTime(10 * MINUTE_MS);
  expect(woken).toBe(0);
  // Timers stand still in a sleep, the clock does not.
  vi.setSystemTime(Date.now() + 9 * 60 * MINUTE_MS);
  vi.advanceTimersByTime(LOOK_MS);
  expect(woken).toBe(1);
  vi.advanceTimersByTime(10 * MINUTE_MS);
  expect(woken).toBe(1);
  end();
  vi.setSystemTime(Date.now() + 60 * MINUTE_MS);
  vi.advanceTimersByTime(10 * LOOK_MS);
  expect(woken).toBe(1);
});
