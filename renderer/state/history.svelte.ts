/**
 * The open build and its history. An edit is read by the schema before it counts: one that can be no
 * build is taken back with its faults and kept to be corrected; every other is saved in order.
 */
import type { Answer, OpenBuild } from '../../app/contract/channels.ts';
import type { Fault } from '../../app/document/faults.ts';
import { readDocument } from '../../app/document/read.ts';
import type { Library } from '../../app/document/schema.ts';
import type { Call } from './bridge.ts';
import { change, type Change } from '../../app/document/edit/change.ts';
import type { Draft } from '../../app/document/edit/path.ts';
import { rebase } from '../../app/document/edit/rebase.ts';
import type { SaveState } from './failures.ts';
import type { Announcer } from './announcer.svelte.ts';
import { Saver, type Refusal, type StaleEdits } from './saver.ts';
import { NEWS, STEP_WORDS } from '../words/news.ts';

/** Where the open build is seen. */
export interface Board {
  /** The document is another one now, by undo or from another window. */
  show(open: OpenBuild): void;
  /** The document on screen, changed by an edit. */
  put(document: Draft): void;
}

export interface HistoryMeans {
  readonly call: Call;
  /** The rows that a build may name besides those it carries itself. */
  readonly library: () => Library;
  readonly board: Board;
  readonly news: Announcer;
}

type StepChannel = 'build-undo' | 'build-redo';

export class HistoryState {
  readonly #call: Call;
  readonly #library: () => Library;
  readonly #board: Board;
  readonly #news: Announcer;
  #saver: Saver | null = null;
  #steps: Promise<void> = Promise.resolve();
  #stepsWaiting = 0;

  buildId = $state<string | null>(null);
  saveState = $state<SaveState>('saved');
  saveDetail = $state('');
  undoLabel = $state<string | null>(null);
  redoLabel = $state<string | null>(null);
  /** The last edit that was taken back, until it is corrected or put aside. */
  refusal = $state.raw<Refusal | null>(null);
  /** Edits made while another window changed the build, until they are made again or left. */
  offered = $state.raw<StaleEdits | null>(null);

  constructor({ call, library, board, news }: HistoryMeans) {
    this.#call = call;
    this.#library = library;
    this.#board = board;
    this.#news = news;
  }

  /** True when every edit is in the store. */
  get idle(): boolean {
    return this.#saver?.idle ?? true;
  }

  get revision(): number {
    return this.#saver?.revision ?? 0;
  }

  /** True while an undo or redo is under way: an edit would be made on what is about to go. */
  get stepping(): boolean {
    return this.#stepsWaiting > 0;
  }

  /** Begins with a build as the store gave it; what waited for the one before is left. */
  begin(open: OpenBuild): void {
    if (open.id !== this.buildId) this.refusal = this.offered = null;
    this.#saver?.close();
    this.#saver = new Saver(this.#call, open, {
      saved: (next) => this.#took(next),
      stale: (edits) => void this.#offer(edits),
      refused: (refusal, document) => {
        this.#refuse(refusal);
        this.#board.put(document);
      },
      state: (state, detail) => {
        this.saveState = state;
        this.saveDetail = detail;
      },
    });
    this.buildId = open.id;
    this.saveState = 'saved';
    this.saveDetail = '';
    this.#took(open);
  }

  end(): void {
    this.#saver?.close();
    this.#saver = null;
    this.buildId = null;
    this.undoLabel = null;
    this.redoLabel = null;
    this.refusal = null;
    this.offered = null;
    this.saveState = 'saved';
  }

  /** @returns why the edit was not taken; nothing when it was */
  apply(edit: Change): readonly Fault[] {
    if (!this.#saver || this.buildId === null) return [];
    const read = readDocument({ ...edit.document, id: this.buildId }, this.#library());
    if (!read.ok) {
      this.#refuse({ change: edit, faults: read.faults });
      return read.faults;
    }
    if (this.refusal && sameField(this.refusal.change, edit)) this.refusal = null;
    this.#board.put(edit.document);
    this.#saver.push(edit);
    return [];
  }

  /** Forgets an edit that was taken back. */
  putAside(): void {
    this.refusal = null;
  }

  /** What is offered, as one edit of the newest state; it is offered no more. */
  takeOffered(newest: Draft): Change | null {
    if (!this.offered) return null;
    const { labels, base, document } = this.offered;
    this.offered = null;
    return change(labels.join(', '), rebase(base, document, newest));
  }

  leaveOffered(): void {
    this.offered = null;
  }

  /** @returns true when every edit is in the store */
  async flush(): Promise<boolean> {
    return (await this.#saver?.flush()) ?? true;
  }

  undo = (): Promise<void> => this.#queueStep('build-undo', STEP_WORDS.undone);
  redo = (): Promise<void> => this.#queueStep('build-redo', STEP_WORDS.redone);

  /** One after the other: each needs the revision that the one before has made. */
  #queueStep(channel: StepChannel, word: string): Promise<void> {
    this.#stepsWaiting += 1;
    this.#steps = this.#steps
      .then(() => this.#step(channel, word))
      .finally(() => (this.#stepsWaiting -= 1));
    return this.#steps;
  }

  async #step(channel: StepChannel, word: string): Promise<void> {
    const build = this.buildId;
    if (build === null) return;
    if (!(await this.flush())) {
      this.#news.say(NEWS.saveBeforeUndo);
      return;
    }
    const label = channel === 'build-undo' ? this.undoLabel : this.redoLabel;
    if (build !== this.buildId || label === null) return;
    const answer = await this.#call(channel, { id: build, expects: this.revision });
    if (build !== this.buildId) return;
    if (answer.ok) {
      this.#board.show(answer.value);
      this.#news.say(`${word}: ${label}`);
    } else if (answer.code === 'stale') await this.#reload();
    else this.#news.say(answer.detail);
  }

  #refuse(refusal: Refusal): void {
    this.refusal = refusal;
    this.#news.say(NEWS.notTaken(refusal.change.label));
  }

  #took(open: OpenBuild): void {
    this.undoLabel = open.canUndo ? (open.undoLabel ?? '') : null;
    this.redoLabel = open.canRedo ? (open.redoLabel ?? '') : null;
  }

  /** Shows the newest state, and keeps what was made on the older one beside it. */
  async #offer(edits: StaleEdits): Promise<void> {
    const before = this.offered;
    const build = this.buildId;
    await this.#reload(NEWS.changedUnderEdit);
    if (build !== this.buildId) return;
    this.offered = before
      ? {
          labels: [...before.labels, ...edits.labels],
          base: edits.base,
          document: rebase(before.base, before.document, edits.document),
        }
      : edits;
  }

  async #reload(words: string = NEWS.changedElsewhere): Promise<void> {
    if (this.buildId === null) return;
    const answer: Answer<OpenBuild> = await this.#call('build-open', { id: this.buildId });
    if (!answer.ok) {
      this.#news.say(answer.detail);
      return;
    }
    this.#board.show(answer.value);
    this.#news.say(words);
  }
}

/** True when the second is another try at what the first did. */
const sameField = (first: Change, second: Change): boolean =>
  first.field !== undefined ? first.field === second.field : first.label === second.label;
