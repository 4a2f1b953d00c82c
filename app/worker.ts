/** Messages of the worker that thinks further than the screen's thread may. */
import type { Build, Library } from './build/schema.ts';
import { FULL_ANSWER, type PlanOutcome } from './outcome.ts';
import { plan } from './plan.ts';
import type { Minute } from './time/instant.ts';

/** Asks for the full answer to one revision of the document. */
export interface PlanRequest {
  readonly revision: number;
  readonly document: Build;
  readonly library: Library;
  readonly now: Minute;
}

/** Functions do not cross threads: the part's `kitFor` and `workFor` stay behind. */
export type SentOutcome = Omit<PlanOutcome, 'detail'>;

export interface PlanReply {
  readonly revision: number;
  readonly outcome: SentOutcome;
}

/** Answers one request. The adapters for Web Worker and worker_threads only pass messages. */
export function answerPlanRequest(request: PlanRequest): PlanReply {
  const { revision, document, library, now } = request;
  const { result } = plan(document, library, now, FULL_ANSWER);
  return { revision, outcome: { result } };
}
