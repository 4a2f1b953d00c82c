/** Long work done piece by piece. */

/** Runs a piecewise work to its end at once. */
export function runToEnd<T, R>(steps: Generator<T, R, void>, each?: (piece: T) => void): R {
  for (let step = steps.next(); ; step = steps.next()) {
    if (step.done) return step.value;
    each?.(step.value);
  }
}

/** A piecewise work whose pieces are told in other words; a yield point (null) stays one. */
export function* mapYields<T, U, R>(
  steps: Generator<T | null, R, void>,
  tell: (piece: T) => U,
): Generator<U | null, R, void> {
  for (let step = steps.next(); ; step = steps.next()) {
    if (step.done) return step.value;
    yield step.value === null ? null : tell(step.value);
  }
}
