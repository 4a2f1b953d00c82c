/** Adaptive Runge-Kutta of order 5(4) (Dormand & Prince 1980) for a handful of equations. */

/** Writes dy/dt at (t, y) into `out`. */
export type Derivative = (t: number, y: readonly number[], out: number[]) => void;

/** One accepted step; both ends with their slopes, for interpolation between. */
export interface Step {
  readonly t0: number;
  readonly t1: number;
  readonly y0: readonly number[];
  readonly y1: readonly number[];
  readonly slope0: readonly number[];
  readonly slope1: readonly number[];
}

export interface IntegrateOptions {
  /** Relative tolerance of a step. */
  readonly relative: number;
  /** Absolute tolerance of each variable. */
  readonly absolute: readonly number[];
  /** Called after every step; true stops there. */
  readonly onStep?: (step: Step) => boolean;
  readonly firstStep?: number;
}

const A: readonly (readonly number[])[] = [
  [],
  [1 / 5],
  [3 / 40, 9 / 40],
  [44 / 45, -56 / 15, 32 / 9],
  [19372 / 6561, -25360 / 2187, 64448 / 6561, -212 / 729],
  [9017 / 3168, -355 / 33, 46732 / 5247, 49 / 176, -5103 / 18656],
  [35 / 384, 0, 500 / 1113, 125 / 192, -2187 / 6784, 11 / 84],
];
const C = [0, 1 / 5, 3 / 10, 4 / 5, 8 / 9, 1, 1];
/** Difference of the fifth- and fourth-order weights. */
const E = [71 / 57600, 0, -71 / 16695, 71 / 1920, -17253 / 339200, 22 / 525, -1 / 40];
const MOST_STEPS = 100_000;

/**
 * Integrates from `from` to `to` and gives the state at the end, or at the step that `onStep`
 * stopped. The derivative is not asked for outside [from, to].
 * @throws Error when the tolerance cannot be met within 100,000 steps.
 */
export function integrate(
  derivative: Derivative,
  initial: readonly number[],
  from: number,
  to: number,
  options: IntegrateOptions,
): number[] {
  const size = initial.length;
  const { relative, absolute, onStep } = options;
  const k = Array.from({ length: 7 }, () => new Array<number>(size).fill(0));
  const trial = new Array<number>(size).fill(0);
  let y = [...initial];
  let t = from;
  let step = Math.min(to - from, options.firstStep ?? (to - from) / 100);
  derivative(t, y, k[0]!);
  for (let count = 0; t < to; count++) {
    if (count > MOST_STEPS) throw new Error('The integration takes more than 100,000 steps.');
    step = Math.min(step, to - t);
    for (let stage = 1; stage < 7; stage++) {
      const weights = A[stage]!;
      for (let i = 0; i < size; i++) {
        let sum = 0;
        for (let j = 0; j < stage; j++) sum += weights[j]! * k[j]![i]!;
        trial[i] = y[i]! + step * sum;
      }
      derivative(t + C[stage]! * step, trial, k[stage]!);
    }
    let error = 0;
    for (let i = 0; i < size; i++) {
      let miss = 0;
      for (let stage = 0; stage < 7; stage++) miss += E[stage]! * k[stage]![i]!;
      const scale = absolute[i]! + relative * Math.max(Math.abs(y[i]!), Math.abs(trial[i]!));
      error = Math.max(error, Math.abs(step * miss) / scale);
    }
    if (!(error <= 1)) {
      step *= Number.isFinite(error) ? Math.max(0.2, 0.9 * error ** -0.2) : 0.2;
      continue;
    }
    const next = [...trial];
    const t1 = to - t - step <= 1e-12 * Math.abs(to) ? to : t + step;
    const stop = onStep?.({
      t0: t,
      t1,
      y0: y,
      y1: next,
      slope0: [...k[0]!],
      slope1: [...k[6]!],
    });
    t = t1;
    y = next;
    if (stop) break;
    // First same as last: the slope at the end of this step begins the next one.
    for (let i = 0; i < size; i++) k[0]![i] = k[6]![i]!;
    step *= Math.min(5, 0.9 * Math.max(error, 1e-10) ** -0.2);
  }
  return y;
}

/**
 * Value of a variable inside a step, by the cubic through both ends and their slopes.
 * @param variable index into the state
 * @param t between the ends of the step, in the unit of the integration
 */
export function within(step: Step, variable: number, t: number): number {
  const length = step.t1 - step.t0;
  const s = (t - step.t0) / length;
  const [a, b] = [step.y0[variable]!, step.y1[variable]!];
  const [da, db] = [step.slope0[variable]! * length, step.slope1[variable]! * length];
  return (
    a * (1 + 2 * s) * (1 - s) ** 2 +
    da * s * (1 - s) ** 2 +
    b * s * s * (3 - 2 * s) +
    db * s * s * (s - 1)
  );
}

/**
 * Time inside a step at which a rising variable reaches a value, in the unit of the integration.
 * @param variable index into the state
 */
export function timeOf(step: Step, variable: number, value: number): number {
  let [low, high] = [step.t0, step.t1];
  for (let i = 0; i < 50; i++) {
    const middle = (low + high) / 2;
    if (within(step, variable, middle) < value) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
