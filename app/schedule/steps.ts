/** Long work as generators: they yield intermediate results, and null where the caller may stop them. */

/** An intermediate result that is worked out only when somebody looks at it. */
export type Later<T> = () => T;

/**
 * Runs a generator to its end and gives what it returns.
 * @param each called with every intermediate result, nulls included
 */
export function runToEnd<T, R>(steps: Generator<T, R, void>, each?: (piece: T) => void): R {
  for (let step = steps.next(); ; step = steps.next()) {
    if (step.done) return step.value;
    each?.(step.value);
  }
}

/** The same generator with `tell` applied to every intermediate result; null stays null. */
export function* mapYields<T, U, R>(
  steps: Generator<T | null, R, void>,
  tell: (piece: T) => U,
): Generator<U | null, R, void> {
  for (let step = steps.next(); ; step = steps.next()) {
    if (step.done) return step.value;
    yield step.value === null ? null : tell(step.value);
  }
}
