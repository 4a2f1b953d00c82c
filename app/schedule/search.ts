/**
 * The best plan within a count of schedules: urgent-first passes whose order and modes are changed
 * a little at a time, with the complete search before (small problems) and after (proof).
 */
import { runToEnd } from './steps.ts';
import type { Compiled } from './compile.ts';
import { exactSearch, exactSteps } from './exact.ts';
import { latestByOrder } from './floats.ts';
import { NEVER } from './length.ts';
import { compareScores, scoreOf, type Score } from './objective.ts';
import { place, type Assignment } from './place.ts';
import { seededRandom, type Random } from './random.ts';
import { earliestStarts } from './windows.ts';

export interface SearchOptions {
  readonly from: number;
  /** Most schedules generated here. */
  readonly schedules: number;
  readonly seed: number;
  readonly shouldStop?: (() => boolean) | undefined;
  /** Stops at the first plan that meets every due moment. */
  readonly stopWhenFits?: boolean;
}

export interface SearchResult {
  readonly plan: Assignment;
  readonly score: Score;
  readonly proven: boolean;
  readonly generated: number;
}

/** Share of the schedules that goes to the complete search before the passes are varied. */
const SHARE_FIRST = 0.25;
/** And the share that is left to it afterwards. */
const SHARE_LAST = 0.35;

/** Nodes before which it is too early to say that a search will not come to its end. */
const LEAST_TRIAL = 500;

/** Passes between two yield points. */
const PASSES_A_BREATH = 25;

type FirstPlan = { readonly plan: Assignment; readonly score: Score };

/** Improves a plan; never hands back a worse one. */
export const improvePlan = (
  compiled: Compiled,
  first: FirstPlan,
  options: SearchOptions,
): SearchResult => runToEnd(improveSteps(compiled, first, options));

/** The same as a generator: yields the best plan so far whenever it is better than the last one. */
export function* improveSteps(
  compiled: Compiled,
  first: FirstPlan,
  options: SearchOptions,
): Generator<Assignment | null, SearchResult, void> {
  const state = new Improving(compiled, first, options);
  yield* state.complete(Math.floor(options.schedules * SHARE_FIRST));
  yield* state.vary(Math.floor(options.schedules * (1 - SHARE_FIRST - SHARE_LAST)));
  yield* state.complete(options.schedules - state.generated);
  const { plan, score, proven, generated } = state;
  return { plan, score, proven, generated };
}

type Pieces = Generator<Assignment | null, void, void>;

class Improving {
  private readonly c: Compiled;
  private readonly options: SearchOptions;
  private readonly random: Random;
  private readonly earliest: readonly number[];
  private readonly choices: readonly number[];
  plan: Assignment;
  score: Score;
  proven: boolean;
  generated = 0;
  /** False once the complete search has shown that its end is far out of reach. */
  private hopeful = true;

  constructor(
    compiled: Compiled,
    first: { readonly plan: Assignment; readonly score: Score },
    options: SearchOptions,
  ) {
    this.c = compiled;
    this.options = options;
    this.random = seededRandom(options.seed);
    this.plan = first.plan;
    this.score = first.score;
    const { from } = options;
    this.earliest = earliestStarts(compiled, { from, modeOf: null, order: [] }).earliest;
    this.choices = compiled.stages.filter((s) => s.modes.length > 1).map((s) => s.index);
    this.proven = this.meetsBound();
  }

  /** True when relations alone, resources left out, allow nothing better. */
  private meetsBound(): boolean {
    this.generated++;
    const bound = exactSearch(this.c, { from: this.options.from, nodes: 1, better: this.score });
    return bound.exhausted && bound.plan === null && this.plan.missedPins.length === 0;
  }

  private get done(): boolean {
    return (
      this.proven ||
      this.options.shouldStop?.() === true ||
      (this.options.stopWhenFits === true && this.score.late === 0)
    );
  }

  private take(plan: Assignment, score: Score): void {
    this.plan = plan;
    this.score = score;
  }

  /** The complete search for anything better. A plan whose pins gave way is outside its reach. */
  *complete(nodes: number): Pieces {
    if (this.done || nodes <= 0 || !this.hopeful) return;
    const result = yield* exactSteps(this.c, {
      from: this.options.from,
      nodes,
      better: this.score,
      shouldStop: this.options.shouldStop,
      ...(this.options.stopWhenFits ? { stopWhenFits: true } : {}),
    });
    this.generated += result.generated;
    this.hopeful = result.hopeful || nodes < LEAST_TRIAL;
    if (result.plan) this.take(result.plan, result.score!);
    this.proven = result.exhausted && this.plan.missedPins.length === 0;
    if (result.plan) yield result.plan;
  }

  /** Passes around the best plan: its own order and modes, changed in a few places. */
  *vary(schedules: number): Pieces {
    const until = this.generated + schedules;
    let base = this.orderOf(this.plan);
    let modes = this.modesOfPlan();
    let known = this.score;
    let turn = 0;
    let told = this.plan;
    while (!this.done && this.generated < until) {
      const priority = turn % 8 === 7 ? this.latestOf(this.plan) : this.shaken(base);
      const modeOf = this.shakenModes(modes);
      const result = place(this.c, {
        from: this.options.from,
        priority,
        modeOf,
        patience: turn % 3 === 2 ? 0 : 8,
        allowOvertime: this.score.late > 0 || turn % 4 === 3,
        earliest: this.earliest,
        mostRaises: Math.max(1, until - this.generated),
      });
      this.generated += result.generated;
      turn++;
      if (turn % PASSES_A_BREATH === 0) {
        yield this.plan === told ? null : this.plan;
        told = this.plan;
      }
      if (!result.ok) continue;
      const score = scoreOf(this.c, result.plan);
      if (compareScores(score, known) > 0) continue;
      known = score;
      base = this.orderOf(result.plan);
      modes = modeOf;
      if (compareScores(score, this.score) < 0) this.take(result.plan, score);
    }
    if (this.plan !== told) yield this.plan;
  }

  private orderOf(plan: Assignment): number[] {
    return [...plan.start];
  }

  private modesOfPlan(): number[] {
    return this.c.stages.map((stage) =>
      stage.modes.length > 1 ? this.plan.mode[stage.index]! : -1,
    );
  }

  /** Latest starts by the plan's own order: the other half of a forward and backward improvement. */
  private latestOf(plan: Assignment): number[] {
    this.generated++;
    return latestByOrder(this.c, plan).map((t, i) => (t === NEVER ? plan.start[i]! : t));
  }

  private shaken(base: readonly number[]): number[] {
    const priority = [...base];
    const count = 1 + this.random.below(3);
    const spread = Math.max(...base) - Math.min(...base) + 1;
    for (let k = 0; k < count; k++) {
      const i = this.random.below(priority.length);
      priority[i] = priority[i]! + (this.random.next() - 0.5) * spread * this.random.next();
    }
    return priority;
  }

  private shakenModes(modes: readonly number[]): number[] {
    const out = [...modes];
    if (this.choices.length === 0 || this.random.next() < 0.3) return out;
    const count = 1 + this.random.below(2);
    for (let k = 0; k < count; k++) {
      const i = this.choices[this.random.below(this.choices.length)]!;
      out[i] = this.random.below(this.c.stages[i]!.modes.length + 1) - 1;
    }
    return out;
  }
}
