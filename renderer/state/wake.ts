/** Notices that the machine has slept: the page's own timers stand still meanwhile and do not catch up. */

/** The clock is looked at so often; it was asleep where it leapt over two looks. */
export const LOOK_MS = 5_000;

/** Calls at the first look after a sleep. @returns what ends the looking */
export function afterSleep(call: () => unknown): () => void {
  let lookedMs = Date.now();
  const timer = setInterval(() => {
    const slept = Date.now() - lookedMs > 2 * LOOK_MS;
    lookedMs = Date.now();
    if (slept) call();
  }, LOOK_MS);
  return () => clearInterval(timer);
}
