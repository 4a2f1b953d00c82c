/** Asks the worker for the full answer: it streams better ones until it is done; stale ones are dropped. */
import type { PlanReply, PlanRequest } from '../../app/answer/worker.ts';

/** The part of a Worker that is used here. */
export interface WorkerPort {
  postMessage(message: unknown): void;
  onmessage: ((event: MessageEvent<PlanReply>) => void) | null;
  onerror: ((event: ErrorEvent) => void) | null;
}

export interface Listener {
  readonly answered: (answer: PlanReply) => void;
  /** Nothing more will come to the newest question. */
  readonly failed: () => void;
}

export class Solver {
  readonly #worker: WorkerPort;
  /** `revision` counts the questions of this window; the answer carries it back. */
  #newest = 0;
  #asking = false;

  constructor(worker: WorkerPort, { answered, failed }: Listener) {
    this.#worker = worker;
    worker.onmessage = ({ data }) => {
      if (data.revision !== this.#newest || !this.#asking) return;
      if (data.done) this.#asking = false;
      answered(data);
    };
    worker.onerror = () => {
      if (!this.#asking) return;
      this.#asking = false;
      failed();
    };
  }

  /** The worker leaves what it was asked before for this. */
  ask(question: Omit<PlanRequest, 'revision'>): void {
    this.#newest += 1;
    this.#asking = true;
    this.#worker.postMessage({ ...question, revision: this.#newest });
  }

  /** Forgets what was asked: its answer is about something no longer on screen. */
  drop(): void {
    this.stop();
    this.#newest += 1;
  }

  /** Stops the worker; the best answer so far stays. */
  stop(): void {
    if (!this.#asking) return;
    this.#asking = false;
    this.#worker.postMessage({ stop: true });
  }
}
