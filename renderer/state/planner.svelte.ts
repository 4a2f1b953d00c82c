/**
 * What is on screen, from its parts: session, window, planning, history, drafts, printing, and the way
 * from one build to another. Every edit is a pure change of the document: applied and planned at once,
 * saved in order, and answered in full by the worker a moment later. What most components read stands
 * here; the rest is read from the part it belongs to.
 */
import { formatsOf } from '../../app/units/formats.ts';
import type { Fault } from '../../app/document/faults.ts';
import type { Build, Lever, Library, StageResult } from '../../app/document/schema.ts';
import type { Change } from '../../app/document/edit/change.ts';
import type { Draft } from '../../app/document/edit/path.ts';
import { Calendars } from './calendars.ts';
import { DraftsState } from './drafts.svelte.ts';
import type { SaveState } from './failures.ts';
import { HistoryState } from './history.svelte.ts';
import { KeptState } from './kept.svelte.ts';
import { LeavingState } from './leaving.svelte.ts';
import { Announcer } from './announcer.svelte.ts';
import { Opening } from './opening.svelte.ts';
import { PlanningState, type PlanningMeans } from './planning.svelte.ts';
import { PrintingState, type PrintingMeans } from './printing.svelte.ts';
import { SessionState } from './session.svelte.ts';
import { VersionsState } from './versions.svelte.ts';
import { WindowView } from './windowView.svelte.ts';
import { EDIT_NAMES, NEWS } from '../words/news.ts';

/** Everything from outside that the planner uses. */
export interface Surroundings extends PlanningMeans, PrintingMeans {
  readonly applyLever: (document: Build, leverId: string, library: Library) => Build | null;
  /** Milliseconds of a clock that goes on while the machine sleeps. */
  readonly elapsedMs: () => number;
  /** The machine's own zone, for a build that is begun here. */
  readonly zone: string;
}

export class PlannerState {
  readonly #applyLever: Surroundings['applyLever'];
  readonly #news = new Announcer();
  readonly #window: WindowView;
  readonly session: SessionState;
  readonly planning: PlanningState;
  readonly history: HistoryState;
  readonly drafts: DraftsState;
  readonly printing: PrintingState;
  readonly opening: Opening;
  readonly calendars: Calendars;
  readonly kept: KeptState;
  readonly versions: VersionsState;
  readonly leaving = new LeavingState();
  /** How the open build is worded. */
  readonly formats = $derived.by(() => formatsOf(this.document));

  constructor(around: Surroundings) {
    const { call, zone } = around;
    this.#applyLever = around.applyLever;
    this.#window = new WindowView(call);
    this.calendars = new Calendars(call);
    this.session = new SessionState(call, around.elapsedMs);
    this.planning = new PlanningState(around, this.session);
    this.history = new HistoryState({
      call,
      library: () => this.session.shipped,
      board: {
        show: (open) => this.opening.show(open),
        put: (document) => this.planning.show(document, true),
      },
      news: this.#news,
    });
    this.drafts = new DraftsState(call, (document) => this.planning.show(document, false));
    this.printing = new PrintingState(around, this, this.#news);
    const { session, planning, history, drafts, leaving } = this;
    const [window, news] = [this.#window, this.#news];
    this.opening = new Opening({
      ...{ call, zone, session, window, planning, history, drafts, leaving, news },
    });
    this.versions = new VersionsState({
      call,
      news,
      settled: async () => {
        if (history.buildId === null || !(await history.flush())) return null;
        return { id: history.buildId, revision: history.revision };
      },
      document: () => planning.document,
      show: (open) => this.opening.show(open),
    });
    this.kept = new KeptState({
      call,
      news,
      flush: async () => (await history.flush()) && (await drafts.flush()),
      show: (open) => {
        this.opening.show(open);
        void session.listBuilds();
      },
      restart: () => this.opening.restart(),
      saveText: (name, text) => this.printing.saveText(name, text),
    });
  }

  start = (): Promise<void> => this.opening.start();

  /**
   * Takes an edit, or takes it back at once.
   * @returns why it was not taken, field by field; nothing when it was
   */
  apply(change: Change): readonly Fault[] {
    if (this.buildId === null && !this.drafting) return [];
    if (this.history.stepping) {
      // It was made on a document that is about to be replaced.
      this.#news.say(NEWS.undoUnderWay);
      return [];
    }
    // The panel that was just opened for this edit is open again at the next start.
    this.#window.save();
    if (this.drafting) {
      this.planning.show(change.document, false);
      this.drafts.keep(change.document);
      this.#promoteWhole();
    } else {
      const faults = this.history.apply(change);
      if (faults.length > 0) return faults;
    }
    const verdict = this.planning.ready ? this.planning.glance?.fit.headline : null;
    this.#news.say(`${change.label}. ${verdict ?? ''}`);
    return [];
  }

  /** Changes the build by a lever; says so when it is not open any more. */
  pull(lever: Lever): void {
    if (!this.planning.ready) {
      // It would be applied to what stands in.
      this.#news.say(NEWS.enterFirst);
      return;
    }
    const next = this.#applyLever(this.document as Build, lever.id, this.shipped);
    if (next) this.apply({ label: EDIT_NAMES.lever(lever.label), document: next });
    else this.#news.say(NEWS.leverClosed(lever.label));
  }

  /** Moves the clock on, and the plan with it. */
  tick(): void {
    if (this.session.tick()) this.planning.replan();
  }

  /** Everything that waits goes to the store now. */
  async saveNow(): Promise<void> {
    this.#window.save();
    await Promise.all([this.history.flush(), this.drafts.flush()]);
    this.#promoteWhole();
  }

  #promoteWhole(): void {
    if (this.drafting && this.planning.ready)
      void this.opening.promote((change) => this.apply(change));
  }

  /** True while something that was typed is not in the store. */
  get unsaved(): boolean {
    return !this.history.idle || !this.drafts.idle;
  }

  get saveState(): SaveState {
    return this.drafting ? this.drafts.saveState : this.history.saveState;
  }

  get saveDetail(): string {
    return this.drafting ? this.drafts.saveDetail : this.history.saveDetail;
  }

  get buildId(): string | null {
    return this.history.buildId;
  }

  /** The open build is one of the samples that come with the program. */
  get isSample(): boolean {
    return this.session.builds.find((build) => build.id === this.buildId)?.sample === true;
  }

  /** True while a build lies open that is not complete yet. */
  get drafting(): boolean {
    return this.drafts.openId !== null;
  }

  get document(): Draft {
    return this.planning.document;
  }

  get outcome() {
    return this.planning.outcome;
  }

  get result() {
    return this.planning.result;
  }

  get rows(): Library {
    return this.planning.rows;
  }

  get assumptions() {
    return this.planning.assumptions;
  }

  /** The selected stage as it is planned, or null. */
  get stage(): StageResult | null {
    return this.planning.stage(this.#window.selected);
  }

  get shipped(): Library {
    return this.session.shipped;
  }

  get runtime() {
    return this.session.runtime;
  }

  get now() {
    return this.session.now;
  }

  get news(): string {
    return this.#news.text;
  }

  get view() {
    return this.#window.all;
  }

  setView(changes: Readonly<Record<string, unknown>>): void {
    this.#window.set(changes);
  }

  get selected(): string | null {
    return this.#window.selected;
  }

  set selected(stage: string | null) {
    this.#window.select(stage);
  }
}
