/**
 * Keeps one build that is not complete yet in the store. Only the newest state counts. When another
 * window has written since, its entries and those made here are brought together.
 */
import type { Failure, OpenDraft } from '../../app/contract/channels.ts';
import type { Call } from './bridge.ts';
import type { Draft } from '../../app/document/edit/path.ts';
import { rebase } from '../../app/document/edit/rebase.ts';
import { FAILURE_KIND, RETRY_MS, type SaveState } from './failures.ts';
import { Timer } from './timer.ts';

interface Listener {
  /** What another window typed is in it now. */
  merged(document: Draft): void;
  /** Dropped or finished in another window: what was typed here goes on as a draft of its own. */
  moved(id: string): void;
  state(state: SaveState, detail: string): void;
}

export class DraftKeeper {
  readonly #call: Call;
  readonly #listener: Listener;
  readonly #timer = new Timer();
  #id: string;
  #revision: number;
  #stored: Draft;
  #newest: Draft;
  #sending: Promise<void> | null = null;
  #closed = false;
  #held: Promise<void> | null = null;

  constructor(call: Call, draft: OpenDraft, listener: Listener) {
    this.#call = call;
    this.#listener = listener;
    this.#id = draft.id;
    this.#revision = draft.revision;
    this.#stored = this.#newest = draft.document as Draft;
  }

  get place(): { readonly id: string; readonly expects: number } {
    return { id: this.#id, expects: this.#revision };
  }

  /** True when all is in the store. */
  get idle(): boolean {
    return this.#newest === this.#stored;
  }

  keep(document: Draft): void {
    this.#newest = document;
    this.#listener.state('saving', '');
    void this.flush();
  }

  /** @returns true when all is in the store or the draft was left, false when it could not be stored */
  async flush(): Promise<boolean> {
    this.#timer.stop();
    if (this.#held) await this.#held;
    if (this.#closed || this.idle) return true;
    this.#sending ??= this.#send();
    await this.#sending;
    return this.idle;
  }

  /** Keeps what is typed from now on here, until the returned function is called. */
  hold(): () => void {
    let release = () => {};
    this.#held = new Promise((resolve) => (release = resolve));
    return () => {
      this.#held = null;
      release();
    };
  }

  /** Reads what another window has written, and brings it together with what was typed here. */
  async catchUp(): Promise<boolean> {
    const answer = await this.#call('draft-open', { id: this.#id });
    if (this.#closed) return false;
    if (!answer.ok) return this.#failed(answer);
    const theirs = answer.value.document as Draft;
    this.#newest = this.idle ? theirs : rebase(this.#stored, this.#newest, theirs);
    this.#stored = theirs;
    this.#revision = answer.value.revision;
    this.#listener.merged(this.#newest);
    return true;
  }

  close(): void {
    this.#closed = true;
    this.#timer.stop();
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
    while (!this.idle) {
      const document = this.#newest;
      const answer = await this.#call('draft-save', { ...this.place, document });
      if (this.#closed) return;
      if (answer.ok) {
        this.#stored = document;
        this.#revision = answer.value.revision;
        continue;
      }
      const kind = FAILURE_KIND[answer.code];
      const mayContinue =
        kind === 'stale'
          ? await this.catchUp()
          : kind === 'gone'
            ? await this.#moveOn()
            : this.#failed(answer);
      if (!mayContinue) return;
    }
  }

  async #moveOn(): Promise<boolean> {
    const document = this.#newest;
    const answer = await this.#call('draft-create', { document });
    if (this.#closed) return false;
    if (!answer.ok) return this.#failed(answer);
    this.#id = answer.value.id;
    this.#revision = answer.value.revision;
    this.#stored = document;
    this.#listener.moved(this.#id);
    return true;
  }

  #failed({ code, detail }: Failure): false {
    this.#listener.state('failed', detail);
    const kind = FAILURE_KIND[code];
    if (kind === 'retry' || kind === 'retry-few-times') {
      this.#timer.start(RETRY_MS, () => void this.flush());
    }
    return false;
  }
}
