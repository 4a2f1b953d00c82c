/** Asks the worker for the full answer: it streams better ones until it is done; stale ones are dropped. */
import type { PlanReply, PlanRequest } from '../../app/answer/worker.ts';
import { Timer } from './timer.ts';

/** The part of a Worker that is used here. */
export interface WorkerPort {
  postMessage(message: unknown): void;
  terminate?(): void;
  onmessage: ((event: MessageEvent<PlanReply>) => void) | null;
  onerror: ((event: ErrorEvent) => void) | null;
}

export interface Listener {
  readonly answered: (answer: PlanReply) => void;
  /** Nothing more will come to the newest question. */
  readonly failed: () => void;
}

/** A worker that has said nothing for so long hangs; its answer comes in pieces, far more often. */
export const SILENT_MS = 60_000;

export class Solver {
  readonly #newWorker: (() => WorkerPort) | null;
  readonly #listener: Listener;
  readonly #watchdog = new Timer();
  #worker: WorkerPort;
  /** `revision` counts the questions of this window; the answer carries it back. */
  #newest = 0;
  #asking = false;

  /** @param newWorker makes another one when this one hangs or has failed; without it this one goes on */
  constructor(worker: WorkerPort, listener: Listener, newWorker: (() => WorkerPort) | null = null) {
    this.#newWorker = newWorker;
    this.#listener = listener;
    this.#worker = this.#hire(worker);
  }

  #hire(worker: WorkerPort): WorkerPort {
    worker.onmessage = ({ data }) => {
      if (data.revision !== this.#newest || !this.#asking) return;
      if (data.done) this.#rest();
      else this.#watch();
      this.#listener.answered(data);
    };
    worker.onerror = () => this.#replace();
    return worker;
  }

  #watch(): void {
    this.#watchdog.start(SILENT_MS, () => this.#replace());
  }

  #rest(): void {
    this.#asking = false;
    this.#watchdog.stop();
  }

  /** Another worker from now on; what this one was asked stays unanswered. */
  #replace(): void {
    const asking = this.#asking;
    this.#rest();
    if (this.#newWorker) {
      this.#worker.terminate?.();
      this.#worker = this.#hire(this.#newWorker());
    }
    if (asking) this.#listener.failed();
  }

  /** The worker leaves what it was asked before for this. */
  ask(question: Omit<PlanRequest, 'revision'>): void {
    this.#newest += 1;
    this.#asking = true;
    this.#watch();
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
    this.#rest();
    this.#worker.postMessage({ stop: true });
  }
}
