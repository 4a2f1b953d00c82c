/**
 * Local search around the best plan: its own order and modes, changed in a few places. It is what lowers
 * the sum of ends once the last end cannot be lowered any more.
 */
import type { Compiled } from './compile.ts';
import { latestByOrder } from './floats.ts';
import { NEVER } from './length.ts';
import { compareScores, scoreOf, type Score } from './objective.ts';
import type { Random } from './random.ts';
import { placeByPriority, type Assignment } from './serial.ts';
import type { Interruptible } from './generators.ts';

export interface ShakeOptions {
  readonly from: number;
  /** Schedules that may be generated in all. */
  readonly schedules: number;
  readonly random: Random;
  /** Earliest starts by relations alone. */
  readonly earliest: readonly number[];
  /** Modes worth a choice, by stage. */
  readonly choices: readonly (readonly number[])[];
}

/** Passes between two yields. */
const PASSES_BETWEEN_YIELDS = 25;
const RAISES_BEFORE_REPAIR = 8;
/** Every so many passes the order of latest starts is taken instead. */
const JUSTIFIED = 8;
/** How often the modes stay as they are. */
const SAME_MODES = 0.3;

export class Shaking {
  private readonly c: Compiled;
  private readonly options: ShakeOptions;
  private readonly chosen: readonly number[];
  private base: readonly number[];
  private modes: readonly number[];
  /** Score of the plan that is changed: never better than the best, often as good. */
  private known: Score;
  private turn = 0;
  private justified: { readonly of: Assignment; readonly latest: readonly number[] } | null = null;
  generated = 0;
  plan: Assignment;
  score: Score;

  constructor(
    compiled: Compiled,
    first: { readonly plan: Assignment; readonly score: Score },
    options: ShakeOptions,
  ) {
    this.c = compiled;
    this.options = options;
    this.chosen = compiled.stages
      .map((stage) => stage.index)
      .filter((i) => options.choices[i]!.length > 0);
    this.plan = first.plan;
    this.score = first.score;
    this.known = first.score;
    this.base = first.plan.start;
    this.modes = compiled.stages.map((stage, i) =>
      options.choices[i]!.length > 0 ? first.plan.mode[stage.index]! : -1,
    );
  }

  /** Searches until so many schedules are generated in all, or until told to stop. */
  *run(until: number, shouldStop: () => boolean): Interruptible<null, void> {
    while (this.generated < until && !shouldStop()) {
      const justified = this.turn % JUSTIFIED === JUSTIFIED - 1 && this.generated + 1 < until;
      const priority = justified ? this.latest() : this.shaken(this.base);
      const modeOf = this.shakenModes();
      const { late, overtimeMinutes } = this.score;
      const result = placeByPriority(this.c, priority, {
        from: this.options.from,
        modeOf,
        raisesBeforeRepair: this.turn % 3 === 2 ? 0 : RAISES_BEFORE_REPAIR,
        allowOvertime: late > 0 || (overtimeMinutes > 0 && this.turn % 4 === 3),
        earliest: this.options.earliest,
        mostRaises: Math.max(1, until - this.generated),
      });
      this.generated += result.generated;
      if (++this.turn % PASSES_BETWEEN_YIELDS === 0) yield null;
      if (result.ok) this.take(result.plan, modeOf);
    }
  }

  private take(plan: Assignment, modeOf: readonly number[]): void {
    const score = scoreOf(this.c, plan);
    if (compareScores(score, this.known) > 0) return;
    this.known = score;
    this.base = plan.start;
    this.modes = modeOf;
    if (compareScores(score, this.score) < 0) {
      this.plan = plan;
      this.score = score;
    }
  }

  /** Latest starts by the plan's own order: of the same plan they are worked out once. */
  private latest(): readonly number[] {
    this.generated++;
    const { plan } = this;
    if (this.justified?.of !== plan) {
      const latest = latestByOrder(this.c, plan).map((t, i) => (t === NEVER ? plan.start[i]! : t));
      this.justified = { of: plan, latest };
    }
    return this.justified.latest;
  }

  private shaken(base: readonly number[]): number[] {
    const { random } = this.options;
    const priority = [...base];
    const count = 1 + random.below(3);
    const spread = Math.max(...base) - Math.min(...base) + 1;
    for (let k = 0; k < count; k++) {
      const i = random.below(priority.length);
      priority[i] = priority[i]! + (random.next() - 0.5) * spread * random.next();
    }
    return priority;
  }

  private shakenModes(): number[] {
    const { random, choices } = this.options;
    const out = [...this.modes];
    if (this.chosen.length === 0 || random.next() < SAME_MODES) return out;
    const count = 1 + random.below(2);
    for (let k = 0; k < count; k++) {
      const i = this.chosen[random.below(this.chosen.length)]!;
      const pick = random.below(choices[i]!.length + 1);
      out[i] = pick === 0 ? -1 : choices[i]![pick - 1]!;
    }
    return out;
  }
}
