/** Long work as generators: they yield intermediate results, and null where the caller may stop them. */

/**
 * A generator that may be stopped: it yields intermediate results `T`, and null where it has none but may be
 * stopped; it returns `R`.
 */
export type Interruptible<T, R> = Generator<T | null, R, void>;

/** An intermediate result that is worked out only when somebody looks at it. */
export type Lazy<T> = () => T;

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
  steps: Interruptible<T, R>,
  tell: (piece: T) => U,
): Interruptible<U, R> {
  for (let step = steps.next(); ; step = steps.next()) {
    if (step.done) return step.value;
    yield step.value === null ? null : tell(step.value);
  }
}
