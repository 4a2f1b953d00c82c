/** The Web Worker that plans: one request at a time, its answers sent as they come, left for a newer one. */
import {
  answerPlanRequest,
  runJob,
  type JobReply,
  type JobRequest,
  type PlanReply,
  type PlanRequest,
} from '../../app/answer/worker.ts';
import type { Interruptible } from '../../app/schedule/generators.ts';

type Message = PlanRequest | JobRequest | { readonly stop: true };

let running: Interruptible<PlanReply | JobReply, void> | null = null;

/** Work between two checks for a newer message: the worker's message to itself queues behind that one. */
const PIECE_MS = 12;
const turn = new MessageChannel();

turn.port1.onmessage = () => {
  const job = running;
  if (job === null) return;
  const until = performance.now() + PIECE_MS;
  do {
    const piece = job.next();
    if (piece.done) {
      running = null;
      return;
    }
    if (piece.value) {
      self.postMessage(piece.value);
      break;
    }
  } while (performance.now() < until);
  turn.port2.postMessage(null);
};

self.onmessage = ({ data }: MessageEvent<Message>) => {
  const idle = running === null;
  running = 'stop' in data ? null : 'job' in data ? runJob(data) : answerPlanRequest(data);
  // Otherwise the next turn is queued already, and goes on with whatever is running by then.
  if (idle && running !== null) turn.port2.postMessage(null);
};
