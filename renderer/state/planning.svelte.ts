/**
 * The document on screen and its plan: a first answer at once on this thread, better ones from the
 * worker as they come.
 */
import type { PlanReply } from '../../app/answer/worker.ts';
import { mergeLibraries } from '../../app/document/library.ts';
import { readDocument } from '../../app/document/read.ts';
import type { Build, Library, StageResult } from '../../app/document/schema.ts';
import type { PlanOutcome } from '../../app/plan/outcome.ts';
import type { Minute } from '../../app/time/instant.ts';
import type { Draft } from '../../app/document/edit/path.ts';
import { withStandIns, type StandIn } from '../../app/document/standIns.ts';
import { assumptionsOf, missingOf } from '../../app/document/edit/start.ts';
import { glanceAt } from '../../app/shop/glance.ts';
import { faultWords } from '../../app/document/faultWords.ts';
import { NEEDED_FIELDS } from '../../app/document/fields.ts';
import { frameWords } from '../words/frame.ts';
import type { SearchPhase } from '../words/search.ts';
import { EMPTY_LIBRARY } from './session.svelte.ts';
import { Solver, type WorkerPort } from './solver.ts';

export interface PlanningMeans {
  /** The first answer, on this thread. */
  readonly plan: (document: Build, library: Library, now: Minute) => PlanOutcome;
  readonly worker: WorkerPort;
  /** Another one, when that one hangs or has failed. */
  readonly newWorker?: () => WorkerPort;
}

/** What a plan is made with besides the document. */
interface Surroundings {
  readonly shipped: Library;
  readonly now: Minute;
}

export class PlanningState {
  readonly #plan: PlanningMeans['plan'];
  readonly #around: Surroundings;
  readonly #solver: Solver;
  /** A stored build can always be planned: that its crew is gone is a finding like any other. */
  #whole = false;

  document = $state.raw<Draft>({});
  outcome = $state.raw<PlanOutcome | null>(null);
  /** False while only the first answer is there and the worker is still searching. */
  full = $state(false);
  /** Whether better plans may still come. */
  thinking = $state<SearchPhase>('done');
  /** What the plan on screen is drawn with in place of what is still missing; none in a plan to work from. */
  standIns = $state.raw<readonly StandIn[]>([]);
  /** Why there is no plan of a document that has everything it needs. */
  trouble = $state('');

  /** The rows of this build first, the shipped library behind. */
  readonly rows = $derived.by(() =>
    mergeLibraries({ ...EMPTY_LIBRARY, ...this.document.library } as Library, this.#around.shipped),
  );
  readonly missing = $derived(missingOf(this.document));
  readonly assumptions = $derived(assumptionsOf(this.document));
  readonly result = $derived(this.outcome?.result ?? null);
  /** There is a plan, and nothing in it stands in for what is missing: it may be worked from. */
  readonly ready = $derived(this.outcome !== null && this.standIns.length === 0);
  readonly glance = $derived(this.result ? glanceAt(this.result) : null);

  /** @param around read again for every plan */
  constructor({ plan, worker, newWorker }: PlanningMeans, around: Surroundings) {
    this.#plan = plan;
    this.#around = around;
    this.#solver = new Solver(
      worker,
      {
        answered: (reply) => this.#answered(reply),
        failed: () => (this.thinking = 'stopped'),
      },
      newWorker,
    );
  }

  stage(id: string | null): StageResult | null {
    return this.result?.stages.find((stage) => stage.id === id) ?? null;
  }

  /** @param whole false for a build that may still lack what nobody can assume */
  show(document: Draft, whole: boolean): void {
    this.document = document;
    this.#whole = whole;
    this.replan();
  }

  clear(): void {
    this.#solver.drop();
    this.document = {};
    this.standIns = [];
    this.outcome = null;
    this.trouble = '';
  }

  /** The document on screen as it was planned at a moment before; null where it cannot be planned. */
  planAt(minute: Minute): PlanOutcome | null {
    try {
      return this.#plan(this.document as Build, this.#around.shipped, minute);
    } catch {
      return null;
    }
  }

  replan(): void {
    this.trouble = '';
    this.full = false;
    this.thinking = 'done';
    const { shipped, now } = this.#around;
    const nothingYet = this.missing.length === NEEDED_FIELDS.length;
    if (!this.#whole && nothingYet) {
      this.standIns = [];
      this.outcome = null;
      this.#solver.drop();
      return;
    }
    const { document, standIns } = this.#drawn(this.document);
    this.standIns = standIns;
    try {
      this.outcome = keepRoutes(this.#plan(document, shipped, now), this.outcome);
    } catch (error) {
      this.outcome = null;
      this.trouble = this.#inWords(error);
      this.#solver.drop();
      return;
    }
    this.thinking = 'thinking';
    this.#solver.ask({ document, library: shipped, now });
  }

  /** The plan that a changed document would have; null where it has none. Nothing on screen changes. */
  foresee(document: Draft): PlanOutcome | null {
    const { shipped, now } = this.#around;
    try {
      return this.#plan(this.#drawn(document).document, shipped, now);
    } catch {
      return null;
    }
  }

  /** A stored build as it is; another with something in place of what it lacks. */
  #drawn(document: Draft): ReturnType<typeof withStandIns> {
    if (this.#whole) return { document: document as Build, standIns: [] };
    const unnamed = { build: frameWords.header.newBuild, person: frameWords.header.somebody };
    return withStandIns(document, this.rows, this.#around.now, unnamed);
  }

  /** Stops the worker; the best plan so far stays. */
  stopThinking(): void {
    if (this.thinking !== 'thinking') return;
    this.#solver.stop();
    this.thinking = 'stopped';
  }

  /** What cannot be read, field by field, rather than the reader's own words. */
  #inWords(error: unknown): string {
    const read = readDocument(this.document, this.#around.shipped);
    if (read.ok) return error instanceof Error ? error.message : String(error);
    return read.faults.map(faultWords).join('. ');
  }

  #answered({ outcome: { result, detail }, done }: PlanReply): void {
    if (!this.outcome) return;
    const { part, library } = this.outcome.detail;
    const next = { result, detail: { ...detail, part, library } };
    // What other routes close at and what would help comes with the last piece alone.
    this.outcome = done ? next : keepRoutes(onlyTaken(next), this.outcome);
    this.full = done;
    if (done) this.thinking = 'done';
  }
}

/** The taken route alone, as a first answer has it. */
const onlyTaken = ({ result, detail }: PlanOutcome): PlanOutcome => ({
  result: { ...result, routes: result.routes.filter((route) => route.id === result.route.id) },
  detail,
});

/** A first answer has the taken route alone: the other routes stay as they were until the worker answers. */
function keepRoutes(first: PlanOutcome, previous: PlanOutcome | null): PlanOutcome {
  if (!previous || previous.result.build.id !== first.result.build.id) return first;
  const known = new Set(first.result.routes.map((route) => route.id));
  const rest = previous.result.routes.filter((route) => !known.has(route.id));
  if (rest.length === 0) return first;
  return {
    result: { ...first.result, routes: [...first.result.routes, ...rest] },
    // Their sums open from the table of routes as well.
    detail: { ...first.detail, routes: { ...previous.detail.routes, ...first.detail.routes } },
  };
}
