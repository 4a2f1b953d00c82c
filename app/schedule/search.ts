/**
 * The best plan within a count of schedules: urgent-first passes whose order and modes are changed
 * a little at a time, with the complete search before (small problems) and after (proof).
 */
import { runToEnd, type Interruptible } from './generators.ts';
import type { Compiled } from './compile.ts';
import { exactSearch, exactSteps } from './exact.ts';
import { GeneticSearch } from './genetic.ts';
import { leastEnd } from './bounds.ts';
import { genesOf } from './modes.ts';
import { compareScores, isSooner, scoreOf, type Score } from './objective.ts';
import { placeList, type Assignment } from './serial.ts';
import { seededRandom, type Random } from './random.ts';
import { sampleList } from './sampling.ts';
import { Shaking } from './shaking.ts';
import { canSearchWindows, WindowSearch } from './windowed.ts';
import { dueOf, earliestStarts } from './windows.ts';

export interface SearchOptions {
  readonly from: number;
  /** Most schedules generated here. */
  readonly schedules: number;
  readonly seed: number;
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

/** Nodes of the first turn of the search by windows, and those of a try at the proof as a share. */
const FIRST_TURN = 500;
const PROOF_SHARE = 0.5;
/** Nodes before which it is too early to say that the search of a small problem will not come to its end. */
const LEAST_TRIAL = 500;
/** Nodes of a first try at the complete search, and its largest share of the schedules. */
const TRIAL_NODES_A_STAGE = 4;
const LARGEST_TRIAL_SHARE = 0.03;

/**
 * Share of the genetic search's schedules, and their least number, that it goes on without a gain. It
 * lowers the last end; where dates are missed or prices paid, small changes gain more.
 */
const STALL_SHARE_FOR_END = 0.7;
const STALL_SHARE = 0.15;
const LEAST_STALL = 50;
/** Shares of the search by windows, by whether lists placed one by one break on greatest lags. */
const WINDOWS_WHERE_TIGHT = 0.95;
const WINDOWS_ELSEWHERE = 0.1;
/** Fewer schedules than this are not worth laying that search out. */
const LEAST_BY_WINDOWS = 10;
/** Raises that are many, as a share of the stages. */
const MANY_RAISES = 0.25;
/** Lists sampled for that. */
const PROBES = 5;
/** Up to so many open stages the complete search has its share at once. */
const SMALL_STAGES = 20;

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
): Interruptible<Assignment, SearchResult> {
  const state = new Improving(compiled, first, options);
  const { schedules } = options;
  const { open } = state;
  if (state.isSmall) yield* state.complete(Math.floor(schedules * SHARE_FIRST));
  else if (TRIAL_NODES_A_STAGE * open <= schedules * LARGEST_TRIAL_SHARE) {
    yield* state.complete(TRIAL_NODES_A_STAGE * open);
  } else state.giveUpProof();
  const last = state.mayBeProven ? Math.floor(schedules * SHARE_LAST) : 0;
  const left = (): number => schedules - last - state.generated;
  if (hasGreatestLags(compiled) && canSearchWindows(compiled)) {
    yield* state.searchWindows(left());
  }
  yield* state.vary(left());
  yield* state.shake(left());
  yield* state.complete(schedules - state.generated);
  const { plan, score, proven, generated } = state;
  return { plan, score, proven, generated };
}

/** True when something must not start too long after something else. */
export const hasGreatestLags = ({ arcs }: Compiled): boolean =>
  arcs.some((arc) => !arc.atLeast || arc.lag < 0);

type Pieces = Interruptible<Assignment, void>;

class Improving {
  private readonly c: Compiled;
  private readonly options: SearchOptions;
  private readonly random: Random;
  private readonly earliest: readonly number[];
  private readonly choices: readonly (readonly number[])[];
  plan: Assignment;
  score: Score;
  proven: boolean;
  private readonly leastEnd: number;
  generated = 0;
  /** Stages that are free to be placed. */
  readonly open: number;
  /** False once the complete search has shown that its end is far out of reach. */
  private hopeful = true;

  constructor(
    compiled: Compiled,
    first: { readonly plan: Assignment; readonly score: Score },
    options: SearchOptions,
  ) {
    this.c = compiled;
    this.open = compiled.stages.filter((stage) => stage.spec.fixedStart === null).length;
    this.options = options;
    this.random = seededRandom(options.seed);
    this.plan = first.plan;
    this.score = first.score;
    const { from } = options;
    this.earliest = earliestStarts(compiled, { from, modeOf: null, order: [] }).earliest;
    this.choices = genesOf(
      compiled,
      this.earliest,
      Math.min(first.score.end, compiled.problem.horizon),
    );
    this.leastEnd = leastEnd(compiled, from, this.earliest);
    this.proven = this.meetsBound();
  }

  /** True when relations alone, resources left out, allow nothing better. */
  private meetsBound(): boolean {
    this.generated++;
    const bound = exactSearch(this.c, { from: this.options.from, nodes: 1, better: this.score });
    return bound.exhausted && bound.plan === null && this.plan.missedPins.length === 0;
  }

  get isSmall(): boolean {
    return this.open <= SMALL_STAGES;
  }

  get mayBeProven(): boolean {
    return this.hopeful && !this.done;
  }

  /** Leaves all schedules to the passes. */
  giveUpProof(): void {
    this.hopeful = false;
  }

  /** True when everything is in time at no price and nothing can end sooner. */
  private get isShortest(): boolean {
    const { late, warnings, overtimeMinutes, end } = this.score;
    return late <= 0 && warnings === 0 && overtimeMinutes === 0 && end <= this.leastEnd;
  }

  private get done(): boolean {
    return this.proven || (this.options.stopWhenFits === true && this.score.late === 0);
  }

  private take(plan: Assignment, score: Score): void {
    this.plan = plan;
    this.score = score;
  }

  /** The complete search for anything better. A plan whose pins gave way is outside its reach. */
  *complete(most: number): Pieces {
    const nodes = Math.min(most, this.options.schedules - this.generated);
    if (this.done || nodes <= 0 || !this.hopeful) return;
    const result = yield* exactSteps(this.c, {
      from: this.options.from,
      nodes,
      better: this.score,
      ...(this.options.stopWhenFits ? { stopWhenFits: true } : {}),
    });
    this.generated += result.generated;
    this.hopeful = result.hopeful || (this.isSmall && nodes < LEAST_TRIAL);
    if (result.plan) this.take(result.plan, result.score!);
    this.proven = result.exhausted && this.plan.missedPins.length === 0;
    if (result.plan) yield result.plan;
  }

  /** True when lists that are placed one by one have to go back for greatest lags again and again. */
  private breaksOnLags(): boolean {
    const { before, after, stages } = this.c;
    const open = stages.map((s) => s.index).filter((i) => stages[i]!.spec.fixedStart === null);
    const urgency = Float64Array.from(this.earliest, (t) => -t);
    let raises = 0;
    for (let k = 0; k < PROBES && this.generated < this.options.schedules; k++) {
      const list = sampleList(open, before, after, urgency, this.random);
      const { generated } = placeList(this.c, list, {
        from: this.options.from,
        modeOf: null,
        raisesBeforeRepair: 0,
        allowOvertime: this.score.late > 0,
        earliest: this.earliest,
        mostRaises: Math.min(open.length, this.options.schedules - this.generated),
      });
      this.generated += generated;
      raises += generated - 1;
    }
    return raises > PROBES * open.length * MANY_RAISES;
  }

  /** Search by windows in the modes of the best plan. */
  *searchWindows(most: number): Pieces {
    if (this.done) return;
    const share = this.breaksOnLags() ? WINDOWS_WHERE_TIGHT : WINDOWS_ELSEWHERE;
    if (share === WINDOWS_ELSEWHERE && this.score.late > 0) return;
    // The probes have had their part of it.
    const left = this.options.schedules - this.generated;
    const schedules = Math.min(Math.floor(most * share), left);
    const { from } = this.options;
    const { plan } = this;
    if (schedules < LEAST_BY_WINDOWS || plan.missedPins.length > 0) return;
    const { horizon } = this.c.problem;
    const search = new WindowSearch(this.c, plan.mode, {
      from,
      schedules,
      random: this.random,
      endBy: this.c.stages.map((stage, i) =>
        Math.min(horizon, Math.max(dueOf(this.c, stage), plan.end[i]!)),
      ),
    });
    search.know(plan);
    const before = this.generated;
    const settled = this.c.stages.every((stage) => stage.modes.length <= 1);
    let proven = false;
    for (let nodes = FIRST_TURN; !this.done && !proven; nodes *= 2) {
      const until = search.generated + nodes;
      yield* search.improveAround(until);
      this.generated = before + search.generated;
      const next = search.plan();
      const score = scoreOf(this.c, next);
      if (compareScores(score, this.score) < 0) {
        this.take(next, score);
        yield next;
      }
      if (settled) proven = yield* search.prove(Math.floor(nodes * PROOF_SHARE));
      this.generated = before + search.generated;
      if (search.generated >= schedules) break;
    }
  }

  /** Crossings and justifications from the best plan and from sampled ones. */
  *vary(schedules: number): Pieces {
    if (this.done || schedules <= 0) return;
    const { from } = this.options;
    const genetic = new GeneticSearch(this.c, this, {
      from,
      schedules,
      random: this.random,
      earliest: this.earliest,
      choices: this.choices,
    });
    const { late, warnings, overtimeMinutes } = this.score;
    const endOnly = late <= 0 && warnings === 0 && overtimeMinutes === 0;
    const share = endOnly ? STALL_SHARE_FOR_END : STALL_SHARE;
    const stall = Math.max(LEAST_STALL, schedules * share);
    yield* this.follow(
      genetic,
      schedules,
      () => this.done || this.isShortest || genetic.generated - genetic.lastGain > stall,
    );
  }

  /** The best plan changed in a few places. */
  *shake(schedules: number): Pieces {
    if (this.done || schedules <= 0) return;
    const { from } = this.options;
    const shaking = new Shaking(this.c, this, {
      from,
      schedules,
      random: this.random,
      earliest: this.earliest,
      choices: this.choices,
    });
    yield* this.follow(shaking, schedules, () => this.done);
  }

  /** Runs a search and takes over what it finds. */
  private *follow(
    search: GeneticSearch | Shaking,
    schedules: number,
    shouldStop: () => boolean,
  ): Pieces {
    const before = this.generated;
    let told = this.score;
    for (const pause of search.run(schedules, shouldStop)) {
      this.adopt(search);
      const tell = isSooner(this.score, told);
      yield tell ? this.plan : pause;
      if (tell) told = this.score;
    }
    this.adopt(search);
    this.generated = before + search.generated;
    if (this.score !== told) yield this.plan;
  }

  private adopt({ plan, score }: GeneticSearch | Shaking): void {
    if (compareScores(score, this.score) < 0) this.take(plan, score);
  }
}
