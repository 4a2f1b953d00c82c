/**
 * Brings every accepted edit to the store, in order, one revision a gesture. Gestures that share a
 * merge key wait a moment for the next one, so that a stepper held down is one revision.
 */
import type { OpenBuild } from '../../app/contract/channels.ts';
import type { Call } from '../bridge.ts';
import type { Draft } from '../edit/path.ts';

export interface SaveJob {
  readonly label: string;
  readonly document: Draft;
  readonly merge?: string;
}

export type SaveState = 'saved' | 'saving' | 'failed';

interface Listener {
  /** A revision is in the store. */
  saved(open: OpenBuild): void;
  /** Another window has written since: what is waiting here was dropped. */
  stale(): void;
  state(state: SaveState, detail: string): void;
}

const MERGE_WAIT_MS = 700;
const RETRY_MS = 4000;

export class Saver {
  readonly #call: Call;
  readonly #listener: Listener;
  #build = '';
  #revision = 0;
  #waiting: SaveJob[] = [];
  #timer: ReturnType<typeof setTimeout> | null = null;
  #sending: Promise<void> | null = null;

  constructor(call: Call, listener: Listener) {
    this.#call = call;
    this.#listener = listener;
  }

  /** Starts over on a build as the store gave it. */
  begin(open: Pick<OpenBuild, 'id' | 'revision'>): void {
    this.#build = open.id;
    this.#revision = open.revision;
    this.#waiting = [];
    this.#stopTimer();
    this.#listener.state('saved', '');
  }

  get revision(): number {
    return this.#revision;
  }

  push(job: SaveJob): void {
    const last = this.#waiting[this.#waiting.length - 1];
    if (last && job.merge !== undefined && last.merge === job.merge) this.#waiting.pop();
    this.#waiting.push(job);
    this.#listener.state('saving', '');
    this.#stopTimer();
    if (job.merge === undefined) void this.flush();
    else this.#timer = setTimeout(() => void this.flush(), MERGE_WAIT_MS);
  }

  /** Sends what waits; resolves when nothing waits any more or a save has failed. */
  flush(): Promise<void> {
    this.#stopTimer();
    this.#sending ??= this.#send().finally(() => (this.#sending = null));
    return this.#sending;
  }

  get idle(): boolean {
    return this.#waiting.length === 0 && this.#sending === null;
  }

  async #send(): Promise<void> {
    let job = this.#waiting[0];
    while (job) {
      const build = this.#build;
      const answer = await this.#call('build-save', {
        id: build,
        expects: this.#revision,
        label: job.label,
        document: job.document,
      });
      // Another build was opened meanwhile: this answer is about one that is no longer on screen.
      if (build !== this.#build) return;
      if (!answer.ok) {
        this.#failed(answer.code, answer.detail);
        return;
      }
      this.#revision = answer.value.revision;
      // The first in line may have been merged into a newer one while it was on its way.
      if (this.#waiting[0] === job) this.#waiting.shift();
      this.#listener.saved(answer.value);
      // The next one still waits to be merged: its own timer sends it.
      if (this.#timer !== null) return;
      job = this.#waiting[0];
    }
    this.#listener.state('saved', '');
  }

  #failed(code: string, detail: string): void {
    if (code === 'stale') {
      this.#waiting = [];
      this.#listener.stale();
      return;
    }
    this.#listener.state('failed', detail);
    this.#stopTimer();
    this.#timer = setTimeout(() => void this.flush(), RETRY_MS);
  }

  #stopTimer(): void {
    if (this.#timer !== null) clearTimeout(this.#timer);
    this.#timer = null;
  }
}
