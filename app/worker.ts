/** Messages of the worker that thinks further than the screen's thread may. */
import type { Build, Library } from './build/schema.ts';
import { FULL_ANSWER, type PlanDetail, type PlanOutcome } from './outcome.ts';
import { plan } from './plan.ts';
import type { Minute } from './time/instant.ts';

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
}

/** Answers one request. The adapters for Web Worker and worker_threads only pass messages. */
export function answerPlanRequest(request: PlanRequest): PlanReply {
  const { revision, document, library, now } = request;
  const { result, detail } = plan(document, library, now, FULL_ANSWER);
  const { part: _part, library: _library, ...sent } = detail;
  return { revision, outcome: { result, detail: sent } };
}
