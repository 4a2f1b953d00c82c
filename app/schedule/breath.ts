/** Long work done piece by piece. */

/** Runs a piecewise work to its end at once. */
export function drain<T, R>(steps: Generator<T, R, void>, each?: (piece: T) => void): R {
  for (let step = steps.next(); ; step = steps.next()) {
    if (step.done) return step.value;
    each?.(step.value);
  }
}
