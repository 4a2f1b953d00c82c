/** Measures functions many times and keeps the figures. */

export interface MeasureOptions {
  /** Counted runs; 30 by default. */
  readonly runs?: number;
  /** Runs before counting starts; 3 by default. */
  readonly warmUp?: number;
  /** What the median is to stay below. */
  readonly targetMs?: number;
  /** An earlier figure to compare with. */
  readonly against?: string;
}

export interface Figure {
  readonly name: string;
  readonly runs: number;
  readonly medianMs: number;
  readonly fastestMs: number;
  /** Nine of ten runs are no slower. */
  readonly p90Ms: number;
  /** Processor time of one run, on average: what a busy machine does not stretch. Null when
   * the run measured itself, elsewhere. */
  readonly cpuMs: number | null;
  readonly targetMs: number | null;
  /** median / target; at most 1 when the target is met. */
  readonly ofTarget: number | null;
  readonly against: string | null;
  /** median / median of `against`. */
  readonly ratio: number | null;
}

/** What a run measured itself, elsewhere. */
export interface Took {
  readonly ms: number;
  /** Processor time there, milliseconds. */
  readonly cpuMs: number;
}

/** What a bench file is given. */
export interface Suite {
  /** Whether a figure was asked for: lets a file skip a costly preparation. */
  wanted(name: string): boolean;
  /**
   * Runs `run` again and again. A number that it answers with is taken as the milliseconds it
   * measured itself, with or without processor time; otherwise the whole call is timed.
   */
  measure(
    name: string,
    options: MeasureOptions,
    run: () => void | number | Took | Promise<void | number | Took>,
  ): Promise<void>;
}

/** The value below which the given share of the sorted samples lies, by nearest rank. */
export function quantile(sorted: readonly number[], share: number): number {
  const rank = Math.min(sorted.length - 1, Math.max(0, Math.ceil(share * sorted.length) - 1));
  return sorted[rank] ?? Number.NaN;
}

/** Middle sample, or the mean of the two in the middle. */
export function median(sorted: readonly number[]): number {
  const half = sorted.length / 2;
  if (sorted.length % 2 === 1) return sorted[Math.floor(half)]!;
  return (sorted[half - 1]! + sorted[half]!) / 2;
}

/** Null where one of them is not known. */
const meanOf = (values: readonly (number | null)[]): number | null =>
  values.includes(null)
    ? null
    : round(values.reduce<number>((sum, one) => sum + one!, 0) / values.length);

const round = (value: number): number => Number(value.toPrecision(4));

/** A suite that tells `done` of every figure as it comes. */
export function makeSuite(
  wanted: (name: string) => boolean,
  done: (figure: Figure) => void,
): Suite {
  const medians = new Map<string, number>();
  return {
    wanted,
    async measure(name, options, run) {
      if (!wanted(name)) return;
      const { runs = 30, warmUp = 3, targetMs = null, against = null } = options;
      const samples: number[] = [];
      const elsewhere: (number | null)[] = [];
      let cpu = process.cpuUsage();
      for (let i = -warmUp; i < runs; i += 1) {
        if (i === 0) cpu = process.cpuUsage();
        const began = performance.now();
        const own = await run();
        const whole = performance.now() - began;
        if (i < 0) continue;
        samples.push(typeof own === 'object' ? own.ms : (own ?? whole));
        if (own !== undefined) elsewhere.push(typeof own === 'object' ? own.cpuMs : null);
      }
      const { user, system } = process.cpuUsage(cpu);
      samples.sort((a, b) => a - b);
      const middle = median(samples);
      medians.set(name, middle);
      const other = against === null ? undefined : medians.get(against);
      done({
        name,
        runs,
        medianMs: round(middle),
        fastestMs: round(samples[0]!),
        p90Ms: round(quantile(samples, 0.9)),
        cpuMs: elsewhere.length > 0 ? meanOf(elsewhere) : round((user + system) / 1000 / runs),
        targetMs,
        ofTarget: targetMs === null ? null : round(middle / targetMs),
        against,
        ratio: other === undefined ? null : round(middle / other),
      });
    },
  };
}
