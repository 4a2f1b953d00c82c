/**
 * Brings every accepted edit of one open build to the store, in order, one revision a gesture.
 * Gestures that share a merge key wait a moment for the next one, so that a stepper held down is one
 * revision. A save that fails for want of program or disk is tried again; an edit that is refused is
 * taken out, and those made after it go on without it.
 */
import type { Failure, OpenBuild } from '../../app/contract/channels.ts';
import type { Fault } from '../../app/document/faults.ts';
import type { Call } from './bridge.ts';
import type { Change } from '../../app/document/edit/change.ts';
import type { Draft } from '../../app/document/edit/path.ts';
import { rebase } from '../../app/document/edit/rebase.ts';
import { FAILURE_KIND, RETRY_MS, type SaveState } from './failures.ts';
import { Timer } from './timer.ts';
import { WHOLE_FILE } from '../words/news.ts';

/** An edit that was taken back. */
export interface Refusal {
  readonly change: Change;
  readonly faults: readonly Fault[];
}

/** Edits made on a state that another window has changed since. */
export interface StaleEdits {
  readonly labels: readonly string[];
  /** The document that the first of them was made on. */
  readonly base: Draft;
  /** With all of them. */
  readonly document: Draft;
}

interface Listener {
  /** A revision is in the store. */
  saved(open: OpenBuild): void;
  /** Another window has written since: what waited here is handed over and waits no more. */
  stale(edits: StaleEdits): void;
  /** An edit was taken out. @param document what now stands, with every later edit in it */
  refused(refusal: Refusal, document: Draft): void;
  state(state: SaveState, detail: string): void;
}

/** @property base the document that the edit was made on */
type Waiting = Change & { readonly base: Draft };

const MERGE_WAIT_MS = 700;
/** After so many faults of the program an edit counts as refused. */
const MOST_FAULTS = 3;

export class Saver {
  readonly #call: Call;
  readonly #listener: Listener;
  readonly #build: string;
  readonly #timer = new Timer();
  #revision: number;
  /** The document with everything that waits. */
  #newest: Draft;
  #waiting: Waiting[] = [];
  #sending: Promise<void> | null = null;
  /** True while a caller waits until all is stored: no edit is held back for merging. */
  #urgent = false;
  #faults = 0;
  #closed = false;

  /** @param open a build as the store gave it */
  constructor(
    call: Call,
    open: Pick<OpenBuild, 'id' | 'revision' | 'document'>,
    listener: Listener,
  ) {
    this.#call = call;
    this.#listener = listener;
    this.#build = open.id;
    this.#revision = open.revision;
    this.#newest = open.document as Draft;
  }

  get revision(): number {
    return this.#revision;
  }

  /** True when all is in the store. */
  get idle(): boolean {
    return this.#waiting.length === 0;
  }

  push(change: Change): void {
    const last = this.#waiting[this.#waiting.length - 1];
    const merged = last && change.merge !== undefined && last.merge === change.merge;
    if (merged) this.#waiting.pop();
    this.#waiting.push({ ...change, base: merged ? last.base : this.#newest });
    this.#newest = change.document;
    this.#listener.state('saving', '');
    if (change.merge === undefined) this.#start();
    else this.#timer.start(MERGE_WAIT_MS, () => this.#start());
  }

  /** Sends what waits. @returns true when nothing waits any more, false when a save has failed */
  async flush(): Promise<boolean> {
    this.#urgent = true;
    await this.#start();
    this.#urgent = false;
    return this.idle;
  }

  /** Leaves what still waits. */
  close(): void {
    this.#closed = true;
    this.#timer.stop();
    this.#waiting = [];
  }

  #start(): Promise<void> {
    this.#timer.stop();
    if (this.idle) return Promise.resolve();
    this.#sending ??= this.#send();
    return this.#sending;
  }

  async #send(): Promise<void> {
    try {
      await this.#sendAll();
    } finally {
      this.#sending = null;
    }
    if (this.idle && !this.#closed) this.#listener.state('saved', '');
  }

  async #sendAll(): Promise<void> {
    let job = this.#waiting[0];
    while (job) {
      const { label, document } = job;
      const input = { id: this.#build, expects: this.#revision, label, document };
      const answer = await this.#call('build-save', input);
      if (this.#closed) return;
      if (answer.ok) this.#took(job, answer.value);
      else if (!this.#goesOn(job, answer)) return;
      // The next one still waits to be merged: its own timer sends it.
      if (this.#timer.running && !this.#urgent) return;
      job = this.#waiting[0];
    }
  }

  #took(job: Waiting, open: OpenBuild): void {
    this.#revision = open.revision;
    this.#faults = 0;
    const [first] = this.#waiting;
    // The first in line may have been merged into a newer one while it was on its way.
    if (first === job) this.#waiting.shift();
    else if (first) this.#waiting[0] = { ...first, base: job.document };
    this.#listener.saved(open);
  }

  /** True when what waits can be sent at once. */
  #goesOn(job: Waiting, failure: Failure): boolean {
    const kind = FAILURE_KIND[failure.code];
    if (kind === 'stale') {
      const labels = this.#waiting.map(({ label }) => label);
      const { base } = this.#waiting[0]!;
      this.#waiting = [];
      this.#listener.stale({ labels, base, document: this.#newest });
      return false;
    }
    if (kind === 'retry-few-times') this.#faults += 1;
    if (kind === 'rejected' || this.#faults >= MOST_FAULTS) {
      this.#faults = 0;
      this.#takeOut(job, failure);
      return true;
    }
    this.#listener.state('failed', failure.detail);
    if (kind !== 'gone') this.#timer.start(RETRY_MS, () => this.#start());
    return false;
  }

  /** The edits behind the refused one were made on a document that held it: each is rebased without it. */
  #takeOut(job: Waiting, failure: Failure): void {
    // It was merged into a newer edit meanwhile, which is sent in its place.
    if (this.#waiting[0] !== job) return;
    this.#waiting.shift();
    const { base, ...change } = job;
    let ground = base;
    this.#waiting = this.#waiting.map((later) => {
      const document = rebase(later.base, later.document, ground);
      const moved = { ...later, base: ground, document };
      ground = document;
      return moved;
    });
    this.#newest = ground;
    const faults = failure.faults ?? [
      { path: WHOLE_FILE.path, found: failure.detail, expected: WHOLE_FILE.keepableEdit },
    ];
    this.#listener.refused({ change, faults }, ground);
  }
}
