/** The Web Worker: passes one request in and its answer out; long jobs piece by piece. */
import {
  answerPlanRequest,
  runJob,
  type JobReply,
  type JobRequest,
  type PlanRequest,
} from '../app/worker.ts';

type Message = PlanRequest | JobRequest | { readonly stop: true };

let running: Generator<JobReply, void, void> | null = null;

/** One piece, then a breath in which a stop can arrive. */
function step(job: Generator<JobReply, void, void>): void {
  if (job !== running) return;
  const piece = job.next();
  if (piece.done) {
    running = null;
    return;
  }
  self.postMessage(piece.value);
  setTimeout(() => step(job), 0);
}

self.onmessage = ({ data }: MessageEvent<Message>) => {
  if ('stop' in data) {
    running = null;
  } else if ('job' in data) {
    running = runJob(data);
    step(running);
  } else {
    self.postMessage(answerPlanRequest(data));
  }
};
