/** The Web Worker: takes one request at a time, sends its answers piece by piece, and leaves it for a newer one. */
import {
  answerPlanRequest,
  runJob,
  type JobReply,
  type JobRequest,
  type PlanReply,
  type PlanRequest,
} from '../app/answer/worker.ts';

type Message = PlanRequest | JobRequest | { readonly stop: true };

let running: Generator<PlanReply | JobReply | null, void, void> | null = null;

/** Work between two looks for a newer message. A message to oneself waits its turn behind it. */
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
  // A turn already on its way goes on with whatever runs by then.
  if (idle && running !== null) turn.port2.postMessage(null);
};
