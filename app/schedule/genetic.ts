/**
 * Genetic search: two populations of schedules, one pushed left and one pushed right. Children of
 * either are placed the other way round, so that every pass is at once a crossing and a justification
 * (two populations: D. Debels, M. Vanhoucke, 2005; crossing where the other parent is busier: V. Valls,
 * F. Ballestin, S. Quintanilla, 2008). The populations shrink, from wide to deep.
 */
import type { Board } from './board.ts';
import type { Compiled } from './compile.ts';
import { cross, moveOne } from './crossover.ts';
import { RightPass } from './justify.ts';
import { hashOf, MemberPool, type Genes, type Member } from './member.ts';
import { nominalMinutes } from './modes.ts';
import { compareScores, isSooner, scorerOf, type Score, type Scorer } from './objective.ts';
import { paceFor, type Pace } from './pace.ts';
import type { Random } from './random.ts';
import { sampleList } from './sampling.ts';
import { boardOf, listByPriority } from './pass.ts';
import { LeftPass, type Assignment } from './serial.ts';
import { latestStarts } from './windows.ts';
import type { Interruptible } from './generators.ts';

/** 0: pushed left; 1: pushed right. */
type Direction = 0 | 1;

const SMALLEST_SIZE = 4;
/** Size at the end of the search as a share of the size at its beginning. */
const SHRINKS_TO = 0.15;
/** A list that was placed before is changed again, so many times at most. */
const NEW_LIST_TRIES = 20;
/** How often a child's choice of modes is changed somewhere. */
const MUTATED_SHARE = 0.5;
/** Raises tried for a window that may lapse, by turns, where repairs are of use. */
const RAISES_BEFORE_REPAIR = 8;
/** Passes between two yields. */
const PASSES_BETWEEN_YIELDS = 25;

export interface GeneticOptions {
  readonly from: number;
  /** Schedules that the whole search may generate. */
  readonly schedules: number;
  readonly random: Random;
  /** Earliest starts by relations alone. */
  readonly earliest: readonly number[];
  /** Modes worth a choice, by stage. */
  readonly choices: readonly (readonly number[])[];
}

/** A search that can be left and taken up again; `plan` and `score` are the best so far. */
export class GeneticSearch {
  private readonly c: Compiled;
  private readonly options: GeneticOptions;
  private readonly board: Board;
  private readonly scorer: Scorer;
  private readonly random: Random;
  private readonly open: Int32Array;
  private readonly orders: readonly [
    readonly (readonly number[])[],
    readonly (readonly number[])[],
  ];
  private readonly urgency: readonly [Float64Array, Float64Array];
  private readonly weight: Float64Array;
  private readonly nursery: MemberPool;
  /** Stages whose mode is worth a gene, and the modes to choose from. */
  private readonly choices: readonly (readonly number[])[];
  private readonly chosen: readonly number[];
  private readonly endBy: number;
  private readonly list: Int32Array;
  private readonly scratch: Int32Array;
  private readonly seen = new Set<number>();
  private readonly populations: [Member[], Member[]] = [[], []];
  private readonly size: number;
  private readonly pace: Pace;
  /** Lateness, while the best plan is late, counts before warnings and overtime. */
  private readonly lateFirst: boolean;
  private latestRight: Score | null = null;
  private direction: Direction = 1;
  private turn = 0;
  /** Schedules generated when the best plan last became better by more than the sum of ends. */
  lastGain = 0;
  generated = 0;
  plan: Assignment;
  score: Score;

  constructor(
    compiled: Compiled,
    first: { readonly plan: Assignment; readonly score: Score },
    options: GeneticOptions,
  ) {
    const { stages, before, after } = compiled;
    this.c = compiled;
    this.options = options;
    this.board = boardOf(compiled);
    this.scorer = scorerOf(compiled);
    this.random = options.random;
    this.plan = first.plan;
    this.score = first.score;
    this.lateFirst = first.score.late > 0;
    this.endBy = Math.min(first.score.end, compiled.problem.horizon);
    const open = stages.map((s) => s.index).filter((i) => stages[i]!.spec.fixedStart === null);
    this.open = Int32Array.from(open);
    this.orders = [before, after];
    const nominal = nominalMinutes(compiled, options.earliest, this.endBy);
    this.urgency = this.urgencies(nominal);
    this.weight = Float64Array.from(stages, (_, i) => nominal[i]! * scarcity(compiled, i));
    this.nursery = new MemberPool(open.length, this.weight);
    this.choices = options.choices;
    this.chosen = open.filter((i) => this.choices[i]!.length > 0);
    this.list = new Int32Array(open.length);
    this.scratch = new Int32Array(stages.length);
    this.pace = paceFor(options.schedules, open.length);
    this.size = Math.max(SMALLEST_SIZE, Math.round(this.pace.size));
  }

  private urgencies(nominal: Float64Array): readonly [Float64Array, Float64Array] {
    const { earliest, from } = this.options;
    const latest = latestStarts(this.c, { from, modeOf: null, order: [] });
    // Latest ends, the priority that serves best by itself (R. Kolisch, 1996).
    const left = Float64Array.from(latest, (t, i) => -Math.max(t, from) - nominal[i]!);
    const right = Float64Array.from(earliest);
    return [left, right];
  }

  /** Searches until so many schedules are generated in all, or until told to stop. */
  *run(until: number, shouldStop: () => boolean): Interruptible<null, void> {
    if (this.open.length === 0) return;
    const mayContinue = (): boolean => this.generated < until && !shouldStop();
    if (this.populations[1].length === 0) yield* this.firstMembers(mayContinue);
    while (mayContinue()) {
      const { direction } = this;
      const other: Direction = direction === 0 ? 1 : 0;
      const children: Member[] = [];
      for (const mother of this.populations[direction]) {
        if (!mayContinue()) break;
        const child = this.childOf(mother, this.populations[direction], other);
        if (child) children.push(child);
        if (++this.turn % PASSES_BETWEEN_YIELDS === 0) yield null;
      }
      this.populations[other] = this.survivors(children, this.populations[other]);
      if (this.populations[other].length === 0) return;
      this.direction = other;
    }
  }

  /** Pushed right: the plan there is, then by turns sampled so, and sampled left and then pushed. */
  private *firstMembers(mayContinue: () => boolean): Interruptible<null, void> {
    const members: Member[] = [];
    const keep = (member: Member | null): void => {
      if (member) members.push(member);
    };
    const { open, orders, urgency, random } = this;
    keep(this.placeRight(this.listOf(this.plan), this.genesOfPlan()));
    for (let k = 1; k < this.size && mayContinue(); k++) {
      const genes = this.randomGenes();
      if (k % 2 === 1) {
        keep(this.placeRight(sampleList(open, orders[1], orders[0], urgency[1], random), genes));
      } else {
        const list = sampleList(open, orders[0], orders[1], urgency[0], random);
        const left = this.placeLeft(list, genes);
        if (left && mayContinue()) keep(this.placeRight(left.places.list, genes));
      }
      if (++this.turn % PASSES_BETWEEN_YIELDS === 0) yield null;
    }
    this.populations[1] = members;
  }

  private listOf(plan: Assignment): Int32Array {
    return listByPriority(
      this.c,
      plan.end.map((t) => t),
    ).reverse();
  }

  private genesOfPlan(): Genes | null {
    const genes = this.noGenes();
    for (const i of this.chosen) genes![i] = this.plan.mode[i]!;
    return genes;
  }

  private noGenes(): Genes | null {
    return this.chosen.length > 0 ? new Int8Array(this.c.stages.length).fill(-1) : null;
  }

  private randomGenes(): Genes | null {
    const genes = this.noGenes();
    if (genes && this.random.next() < MUTATED_SHARE) this.mutate(genes);
    return genes;
  }

  private mutate(genes: Genes): void {
    const { random, chosen, choices } = this;
    const count = 1 + random.below(2);
    for (let k = 0; k < count; k++) {
      const i = chosen[random.below(chosen.length)]!;
      const pick = random.below(choices[i]!.length + 1);
      genes[i] = pick === 0 ? -1 : choices[i]![pick - 1]!;
    }
  }

  private childOf(mother: Member, parents: readonly Member[], other: Direction): Member | null {
    const { list, random, scratch, orders, pace } = this;
    const [before, after] = other === 0 ? orders : [orders[1], orders[0]];
    const genes = this.noGenes();
    const pair = { mother, father: this.fatherFrom(parents) };
    cross(list, genes, pair, this.nursery, { random, longest: pace.longestStretch });
    moveOne(before, after, list, scratch, random);
    if (genes && random.next() < MUTATED_SHARE) this.mutate(genes);
    for (let k = 0; k < NEW_LIST_TRIES && !this.isNew(other, list, genes); k++) {
      moveOne(before, after, list, scratch, random);
    }
    return other === 0 ? this.placeLeft(list, genes) : this.placeRight(list, genes);
  }

  private fatherFrom(parents: readonly Member[]): Member {
    let best = parents[this.random.below(parents.length)]!;
    for (let k = 1; k < this.pace.tournament; k++) {
      const rival = parents[this.random.below(parents.length)]!;
      if (compareScores(rival.score, best.score) < 0) best = rival;
    }
    return best;
  }

  private isNew(direction: Direction, list: Int32Array, genes: Genes | null): boolean {
    const hash = hashOf(direction, list, genes);
    if (this.seen.has(hash)) return false;
    this.seen.add(hash);
    return true;
  }

  /** Places a list to the left; the member is ready to be placed to the right. */
  private placeLeft(list: Int32Array, genes: Genes | null): Member | null {
    const { board, score } = this;
    const pass = new LeftPass(board, list, {
      from: this.options.from,
      modeOf: genes,
      raisesBeforeRepair:
        score.warnings > 0 || score.late > 0
          ? this.turn % 3 === 2
            ? 0
            : RAISES_BEFORE_REPAIR
          : RAISES_BEFORE_REPAIR,
      allowOvertime: score.late > 0 || (score.overtimeMinutes > 0 && this.turn % 2 === 0),
      earliest: this.options.earliest,
      mostRaises: Math.max(1, this.options.schedules - this.generated),
    });
    const obstacle = pass.run();
    this.generated += pass.generated;
    if (obstacle) return null;
    const own = this.scorer.left(board, pass.missedMinutes);
    if (compareScores(own, this.score) < 0) {
      if (isSooner(own, this.score)) this.lastGain = this.generated;
      this.score = own;
      this.plan = pass.plan();
    }
    return this.nursery.make(list, board.at, false, own.end, genes, {
      ...own,
      sum: this.workMoment(),
    });
  }

  /** Places a list to the right; a schedule that begins later than all others is tried to the left. */
  private placeRight(list: Int32Array, genes: Genes | null): Member | null {
    const { board } = this;
    const pass = new RightPass(board, list, {
      endBy: this.endBy,
      modeOf: genes,
      allowOvertime: this.score.late > 0,
      allowRepairs: false,
      most: this.options.schedules - this.generated,
    });
    pass.run();
    this.generated += pass.generated;
    const own = this.scorer.right(board, this.open, pass.misplaced, this.lateFirst);
    const member = this.nursery.make(list, board.at, true, -own.end, genes, {
      ...own,
      sum: -this.workMoment(),
    });
    if (!this.latestRight || isSooner(own, this.latestRight)) {
      this.latestRight = own;
      if (this.generated < this.options.schedules) this.placeLeft(member.places.list, genes);
    }
    return member;
  }

  /** Work times twice its middle: of two equal schedules the one whose work lies where it is pushed. */
  private workMoment(): number {
    const { open, weight, board } = this;
    let sum = 0;
    for (let k = 0; k < open.length; k++) {
      const i = open[k]!;
      sum += weight[i]! * (board.at[2 * i]! + board.at[2 * i + 1]! - 2 * this.options.from);
    }
    return sum;
  }

  /** The fittest of both generations, no schedule twice. */
  private survivors(children: readonly Member[], previous: readonly Member[]): Member[] {
    const used = Math.min(1, this.generated / this.options.schedules);
    const size = Math.max(SMALLEST_SIZE, Math.round(this.size * (1 - (1 - SHRINKS_TO) * used)));
    const kept = new Map<number, Member>();
    const all = [...children, ...previous].sort((a, b) => compareScores(a.score, b.score));
    for (const member of all) {
      if (kept.size < size && !kept.has(member.hash)) kept.set(member.hash, member);
      else this.nursery.giveUp(member);
    }
    return [...kept.values()];
  }
}

/** Share of all capacities that a stage takes while it runs, in its first mode. */
function scarcity({ stages, capacity }: Compiled, i: number): number {
  const uses = stages[i]!.modes[0]?.uses ?? [];
  return uses.reduce((sum, use) => sum + use.amount / capacity[use.resource]!, 0);
}
