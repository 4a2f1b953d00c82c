/** Asks the worker for the full answer: one question on its way, the newest one waiting, stale ones dropped. */
import type { PlanReply, PlanRequest } from '../../app/worker.ts';

/** The part of a Worker that is used here. */
export interface WorkerPort {
  postMessage(message: unknown): void;
  onmessage: ((event: MessageEvent<PlanReply>) => void) | null;
  onerror: ((event: ErrorEvent) => void) | null;
}

export class Solver {
  readonly #worker: WorkerPort;
  #newest = 0;
  #busy = false;
  /** `revision` counts the questions of this window; the answer carries it back. */
  #waiting: PlanRequest | null = null;

  constructor(worker: WorkerPort, answered: (answer: PlanReply) => void) {
    this.#worker = worker;
    worker.onmessage = ({ data }) => {
      this.#busy = false;
      if (this.#waiting) this.#post(this.#waiting);
      else if (data.revision === this.#newest) answered(data);
    };
    worker.onerror = () => {
      this.#busy = false;
      if (this.#waiting) this.#post(this.#waiting);
    };
  }

  ask(question: Omit<PlanRequest, 'revision'>): void {
    this.#newest += 1;
    const next = { ...question, revision: this.#newest };
    if (this.#busy) this.#waiting = next;
    else this.#post(next);
  }

  /** Forgets what was asked: its answer is about something no longer on screen. */
  drop(): void {
    this.#newest += 1;
    this.#waiting = null;
  }

  #post(question: PlanRequest): void {
    this.#waiting = null;
    this.#busy = true;
    this.#worker.postMessage(question);
  }
}
