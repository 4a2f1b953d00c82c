/** Messages of the worker that makes the full answer and runs the long jobs, off the screen's thread. */
import type { Build, Library } from '../document/schema.ts';
import { FULL_ANSWER, type PlanDetail, type PlanOutcome } from '../plan/outcome.ts';
import type { Odds } from '../judge/odds.ts';
import type { SearchProgress, SearchResult } from '../judge/search.ts';
import { mapYields, type Interruptible } from '../schedule/generators.ts';
import { planSteps } from './plan.ts';
import { leverSearch } from './leverSearch.ts';
import type { OddsProgress } from './odds.ts';
import { oddsJob, type ShownPlan } from './oddsJob.ts';
import type { Minute } from '../time/instant.ts';
import { formatsOf, stepsWordedAs } from '../units/formats.ts';

/** Asks for the full answer to one revision of the document. */
export interface PlanRequest {
  readonly revision: number;
  readonly document: Build;
  readonly library: Library;
  readonly now: Minute;
}

/**
 * Functions do not cross threads: the part with its `kitFor` and `workFor` stays behind. So does the
 * library, which the asker has.
 */
export interface SentOutcome {
  readonly result: PlanOutcome['result'];
  readonly detail: Omit<PlanDetail, 'part' | 'library'>;
}

export interface PlanReply {
  readonly revision: number;
  readonly outcome: SentOutcome;
  /** False while better plans, closing times and levers may still follow. */
  readonly done: boolean;
}

/**
 * Answers one request: yields the first good plan, better ones as they are found, and last the whole
 * answer; null marks a point at which it may be stopped. The adapters for Web Worker and
 * worker_threads only pass messages, and leave a request when a newer one comes.
 */
export function* answerPlanRequest(request: PlanRequest): Interruptible<PlanReply, void> {
  const { revision, document, library, now } = request;
  const reply = (outcome: PlanOutcome, done: boolean): PlanReply => {
    const { part: _part, library: _library, ...detail } = outcome.detail;
    return { revision, outcome: { result: outcome.result, detail }, done };
  };
  const steps = planSteps(document, library, now, FULL_ANSWER);
  yield reply(yield* mapYields(steps, (outcome) => reply(outcome(), false)), true);
}

/** A long job on one document: all levers together, or the odds of the plan. */
export interface JobRequest {
  readonly job: 'search' | 'odds';
  readonly revision: number;
  readonly document: Build;
  readonly library: Library;
  readonly now: Minute;
  /** Finished builds of the shop's own behind its records. */
  readonly ownBuilds: number;
  /** The plan on the screen, whose odds are asked for; null: none yet. */
  readonly shown: ShownPlan | null;
}

export type JobReply = { readonly revision: number } & (
  | { readonly job: 'search'; readonly progress: SearchProgress }
  | { readonly job: 'search'; readonly result: SearchResult }
  | { readonly job: 'odds'; readonly progress: OddsProgress }
  | { readonly job: 'odds'; readonly result: Odds | null }
);

/** Runs a job as a generator; the caller stops it by asking no further. */
export const runJob = (request: JobRequest): Generator<JobReply, void, void> =>
  stepsWordedAs(formatsOf(request.document), unwordedJob(request));

function* unwordedJob(request: JobRequest): Generator<JobReply, void, void> {
  const { job, revision, document, library, now, ownBuilds, shown } = request;
  if (job === 'search') {
    const run = leverSearch(document, library, now);
    for (let step = run.next(); ; step = run.next()) {
      if (step.done) return yield { job, revision, result: step.value };
      yield { job, revision, progress: step.value };
    }
  }
  const run = oddsJob(document, library, now, ownBuilds, shown);
  for (let step = run.next(); ; step = run.next()) {
    if (step.done) return yield { job, revision, result: step.value };
    yield { job, revision, progress: step.value };
  }
}
