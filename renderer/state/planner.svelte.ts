/**
 * What is on screen and how it changes. Every edit is a pure change of the document: applied at once,
 * planned at once on this thread, saved in order, and answered in full by the worker a moment later.
 */
import type { BuildSummary, ChannelOutput, OpenBuild } from '../../app/contract/channels.ts';
import type { Build, Lever, Library, StageResult } from '../../app/document/schema.ts';
import type { PlanOutcome } from '../../app/plan/outcome.ts';
import type { SheetKind } from '../../app/shop/parts.ts';
import { SHEETS } from '../../app/shop/sheets.ts';
import type { Minute } from '../../app/time/instant.ts';
import type { PlanReply } from '../../app/answer/worker.ts';
import { mergeLibraries } from '../../app/document/library.ts';
import { readDocument } from '../../app/document/read.ts';
import { printedRecord, saysTheSame } from '../../app/plan/replanPrinted.ts';
import type { Call } from '../bridge.ts';
import type { Change } from '../edit/change.ts';
import type { Draft } from '../edit/path.ts';
import { assumptionsOf, emptyBuild, missingOf } from '../edit/start.ts';
import { glanceAt } from './glance.ts';
import { Saver, type SaveState } from './saver.ts';
import type { Thinking } from './searchWords.ts';
import { Solver, type WorkerPort } from './solver.ts';

export interface Fault {
  readonly path: string;
  readonly found: string;
  readonly expected: string;
}

/** Everything from outside that the planner leans on. */
export interface Surroundings {
  readonly call: Call;
  /** The page's own print dialog. */
  readonly printPage: () => void;
  /** The sheets as a page of their own, for the shell's printer. */
  readonly sheetsHtml: (outcome: PlanOutcome, only: SheetKind | null) => string;
  /** Hands a text to the browser as a file to keep. */
  readonly downloadText: (fileName: string, text: string) => void;
  /** The first answer, on this thread. */
  readonly plan: (document: Build, library: Library, now: Minute) => PlanOutcome;
  readonly applyLever: (document: Build, leverId: string, library: Library) => Build | null;
  readonly worker: WorkerPort;
  /** Milliseconds of a clock that only runs forward. */
  readonly elapsedMs: () => number;
  readonly zone: string;
}

const EMPTY_LIBRARY: Library = {
  resins: [],
  cloths: [],
  cores: [],
  consumables: [],
  releases: [],
  moulds: [],
  labour: [],
  finishing: [],
  consequences: [],
  practice: [],
};
type Printed = Build['printed'];
const MS_PER_MINUTE = 60_000;
const VIEW_WAIT_MS = 200;

export class PlannerState {
  readonly #around: Surroundings;
  readonly #saver: Saver;
  readonly #solver: Solver;
  #clockAtStart = 0;
  #elapsedAtStart = 0;
  #promoting = false;
  #steps: Promise<void> = Promise.resolve();
  #stepsWaiting = 0;
  #viewTimer: ReturnType<typeof setTimeout> | null = null;

  status = $state<'starting' | 'ready' | 'failed'>('starting');
  failure = $state('');
  runtime = $state<'electron' | 'browser'>('browser');
  shipped = $state.raw<Library>(EMPTY_LIBRARY);
  builds = $state.raw<readonly BuildSummary[]>([]);

  buildId = $state<string | null>(null);
  /** A build that is not complete yet: it is kept with the view and becomes a build with its first plan. */
  drafting = $state(false);
  document = $state.raw<Draft>({});
  outcome = $state.raw<PlanOutcome | null>(null);
  /** False while only the first answer stands and the worker still thinks. */
  full = $state(false);
  /** Whether better plans may still come. */
  thinking = $state<Thinking>('done');
  /** Why there is no plan of a document that has everything it needs. */
  trouble = $state('');
  now = $state<Minute>(0);
  nowFixed = $state(false);

  saveState = $state<SaveState>('saved');
  saveDetail = $state('');
  undoLabel = $state<string | null>(null);
  redoLabel = $state<string | null>(null);

  #selected = $state<string | null>(null);
  view = $state.raw<Readonly<Record<string, unknown>>>({});
  /** What the last act did, for ears as well as eyes. */
  news = $state('');

  /** The rows of this build first, the shipped library behind. */
  readonly rows = $derived(
    mergeLibraries({ ...EMPTY_LIBRARY, ...this.document.library } as Library, this.shipped),
  );
  readonly missing = $derived(missingOf(this.document));
  readonly assumptions = $derived(assumptionsOf(this.document));
  readonly result = $derived(this.outcome?.result ?? null);
  readonly started = $derived<readonly string[]>(
    (this.document.records ?? []).map((record) => record.stage),
  );
  readonly glance = $derived(this.result ? glanceAt(this.result, this.started) : null);
  readonly stage = $derived<StageResult | null>(
    this.result?.stages.find((s) => s.id === this.selected) ?? null,
  );

  constructor(around: Surroundings) {
    this.#around = around;
    this.#saver = new Saver(around.call, {
      saved: (open) => this.#took(open),
      stale: () => void this.#reload(),
      state: (state, detail) => {
        this.saveState = state;
        this.saveDetail = detail;
      },
    });
    this.#solver = new Solver(around.worker, {
      answered: (reply) => this.#answered(reply),
      failed: () => (this.thinking = 'stopped'),
    });
  }

  // -------------------------------------------------------------------------------------------
  // Start, open, create, remove

  async start(): Promise<void> {
    const answer = await this.#around.call('session-start', {});
    if (!answer.ok) {
      this.status = 'failed';
      this.failure = answer.detail;
      return;
    }
    this.#begin(answer.value);
  }

  #begin(session: ChannelOutput<'session-start'>): void {
    this.runtime = session.runtime;
    this.shipped = session.library;
    this.builds = session.builds;
    this.view = session.view;
    this.nowFixed = session.nowFixed;
    this.#clockAtStart = Math.floor(Date.parse(session.now) / MS_PER_MINUTE);
    this.#elapsedAtStart = this.#around.elapsedMs();
    this.now = this.#clockAtStart;
    this.status = 'ready';
    if (session.notice) this.news = session.notice;
    if (session.view['drafting'] === true) this.openDraft();
    else if (session.open) {
      this.#show(session.open);
      const stage = session.view['stage'];
      if (typeof stage === 'string') this.#selected = stage;
    }
  }

  async open(id: string): Promise<boolean> {
    await this.#saver.flush();
    return this.#showAnswer(await this.#around.call('build-open', { id }));
  }

  /** The one unfinished build, if there is one. */
  get draft(): Draft | null {
    const draft = this.view['draft'];
    return typeof draft === 'object' && draft !== null ? (draft as Draft) : null;
  }

  async create(): Promise<void> {
    await this.#saver.flush();
    this.#keepDraft(emptyBuild(this.#around.zone));
    this.openDraft();
  }

  openDraft(): void {
    this.#close();
    this.drafting = true;
    this.document = this.draft ?? emptyBuild(this.#around.zone);
    this.#keepDraft(this.document);
    this.#replan();
  }

  dropDraft(): void {
    this.#keepDraft(null);
    if (this.drafting) this.#close();
  }

  /** At once, not with the other view changes: these are entries that must not be lost. */
  #keepDraft(draft: Draft | null): void {
    this.view = { ...this.view, draft, drafting: draft !== null };
    const kept = this.#around.call('view-save', { view: { ...this.view } });
    if (draft === null) return;
    this.saveState = 'saving';
    void kept.then((answer) => {
      // A newer entry has its own answer to wait for.
      if (!this.drafting || this.view['draft'] !== draft) return;
      this.saveState = answer.ok ? 'saved' : 'failed';
      this.saveDetail = answer.ok ? '' : answer.detail;
    });
  }

  /** The draft has a plan: from here on it is a build with a history. */
  async #promote(): Promise<void> {
    if (this.#promoting) return;
    this.#promoting = true;
    const sent = this.document;
    const answer = await this.#around.call('build-create', {
      document: sent as Record<string, unknown>,
    });
    this.#promoting = false;
    if (!answer.ok) {
      this.saveState = 'failed';
      this.saveDetail = answer.detail;
      return;
    }
    const typedSince = this.document;
    this.drafting = false;
    this.#show(answer.value);
    this.#keepDraft(null);
    if (typedSince !== sent) this.apply({ label: 'Job card', document: typedSince });
    await this.listBuilds();
  }

  /** Faults of the file, or none when it was opened. */
  async importFile(fileName: string, text: string): Promise<readonly Fault[]> {
    await this.#saver.flush();
    const answer = await this.#around.call('build-import', { fileName, text });
    if (!answer.ok) return [{ path: '(file)', found: answer.detail, expected: 'a build file' }];
    if ('faults' in answer.value) return answer.value.faults;
    this.#show(answer.value.opened);
    await this.listBuilds();
    return [];
  }

  async remove(id: string): Promise<void> {
    const answer = await this.#around.call('build-remove', { id });
    if (!answer.ok) {
      this.news = answer.detail;
      return;
    }
    this.builds = answer.value;
    if (id === this.buildId) this.#close();
  }

  /** The open sample as it was shipped; one edit like any other. */
  async resetSample(): Promise<void> {
    if (this.buildId === null) return;
    await this.#saver.flush();
    const input = { id: this.buildId, expects: this.#saver.revision };
    await this.#showAnswer(await this.#around.call('sample-reset', input));
  }

  async listBuilds(): Promise<void> {
    const answer = await this.#around.call('build-list', {});
    if (answer.ok) this.builds = answer.value;
  }

  async #showAnswer(
    answer: { ok: true; value: OpenBuild } | { ok: false; detail: string },
  ): Promise<boolean> {
    if (!answer.ok) {
      this.news = answer.detail;
      return false;
    }
    this.#show(answer.value);
    await this.listBuilds();
    return true;
  }

  #show(open: OpenBuild): void {
    if (open.id !== this.buildId) this.#selected = null;
    if (this.drafting) {
      this.drafting = false;
      this.setView({ drafting: false });
    }
    this.buildId = open.id;
    this.document = open.document as Draft;
    this.#saver.begin(open);
    this.#took(open);
    this.#replan();
  }

  #close(): void {
    this.buildId = null;
    this.drafting = false;
    this.undoLabel = null;
    this.redoLabel = null;
    this.trouble = '';
    this.#solver.drop();
    this.document = {};
    this.outcome = null;
    this.#selected = null;
  }

  // -------------------------------------------------------------------------------------------
  // Edits, undo

  apply(change: Change): void {
    if (this.buildId === null && !this.drafting) return;
    if (this.#stepsWaiting > 0) {
      // It was made on a document that is about to be replaced.
      this.news = 'Undo was still under way: make that change once more.';
      return;
    }
    this.document = change.document;
    this.#replan();
    if (this.drafting) {
      this.#keepDraft(this.document);
      if (this.outcome) void this.#promote();
    } else this.#saver.push(change);
    this.news = `${change.label}. ${this.glance?.fit.headline ?? ''}`;
  }

  undo = (): Promise<void> => this.#queueStep('build-undo', 'Undone');
  redo = (): Promise<void> => this.#queueStep('build-redo', 'Done again');

  /** One after the other: each needs the revision that the one before has made. */
  #queueStep(channel: 'build-undo' | 'build-redo', word: string): Promise<void> {
    this.#stepsWaiting += 1;
    this.#steps = this.#steps
      .then(() => this.#step(channel, word))
      .finally(() => (this.#stepsWaiting -= 1));
    return this.#steps;
  }

  async #step(channel: 'build-undo' | 'build-redo', word: string): Promise<void> {
    const label = channel === 'build-undo' ? this.undoLabel : this.redoLabel;
    if (this.buildId === null || label === null) return;
    await this.#saver.flush();
    if (this.saveState === 'failed') return;
    const answer = await this.#around.call(channel, {
      id: this.buildId,
      expects: this.#saver.revision,
    });
    if (answer.ok) {
      this.#show(answer.value);
      this.news = `${word}: ${label}`;
    } else if (answer.code === 'stale') await this.#reload();
    else this.news = answer.detail;
  }

  async saveNow(): Promise<void> {
    this.#saveView();
    if (!this.drafting) return this.#saver.flush();
    this.#keepDraft(this.document);
    if (this.outcome) await this.#promote();
  }

  #took(open: OpenBuild): void {
    this.undoLabel = open.canUndo ? (open.undoLabel ?? '') : null;
    this.redoLabel = open.canRedo ? (open.redoLabel ?? '') : null;
  }

  async #reload(): Promise<void> {
    if (this.buildId === null) return;
    const answer = await this.#around.call('build-open', { id: this.buildId });
    if (!answer.ok) {
      this.news = answer.detail;
      return;
    }
    this.#show(answer.value);
    this.news =
      'Changed in another window: this one shows the newest now. Your last edit was not taken.';
  }

  // -------------------------------------------------------------------------------------------
  // Planning

  /** Moves the clock on; a fixed clock stands still. */
  tick(): void {
    if (this.nowFixed || this.status !== 'ready') return;
    const passed = Math.floor((this.#around.elapsedMs() - this.#elapsedAtStart) / MS_PER_MINUTE);
    const now = this.#clockAtStart + passed;
    if (now === this.now) return;
    this.now = now;
    this.#replan();
  }

  #replan(): void {
    this.trouble = '';
    this.full = false;
    this.thinking = 'done';
    // A stored build can always be planned: that its crew is gone is a finding like any other.
    if (this.drafting && this.missing.length > 0) {
      this.outcome = null;
      this.#solver.drop();
      return;
    }
    const previous = this.outcome;
    try {
      const first = this.#around.plan(this.document as Build, this.shipped, this.now);
      this.outcome = keepRoutes(first, previous);
    } catch (error) {
      this.outcome = null;
      this.trouble = this.#inWords(error);
      this.#solver.drop();
      return;
    }
    this.thinking = 'thinking';
    this.#solver.ask({ document: this.document as Build, library: this.shipped, now: this.now });
  }

  /** What cannot be read, field by field, rather than the reader's own words. */
  #inWords(error: unknown): string {
    const read = readDocument(this.document, this.shipped);
    if (read.ok) return error instanceof Error ? error.message : String(error);
    return read.faults
      .map(({ path, found, expected }) => `${path}: found ${found}, expected ${expected}`)
      .join('. ');
  }

  #answered({ outcome: { result, detail }, done }: PlanReply): void {
    if (!this.outcome) return;
    const { part, library } = this.outcome.detail;
    const next = { result, detail: { ...detail, part, library } };
    // What other routes close at and what would help comes with the last piece alone.
    this.outcome = done ? next : keepRoutes(onlyTaken(next), this.outcome);
    this.full = done;
    if (done) this.thinking = 'done';
  }

  /** Ends the thinking; the best plan so far stands. */
  stopThinking(): void {
    if (this.thinking !== 'thinking') return;
    this.#solver.stop();
    this.thinking = 'stopped';
  }

  /** Changes the build by a lever; says so when it is not open any more. */
  pull(lever: Lever): void {
    const next = this.#around.applyLever(this.document as Build, lever.id, this.shipped);
    if (next) this.apply({ label: `Lever: ${lever.label}`, document: next });
    else this.news = `${lever.label}: not open for this build any more.`;
  }

  // -------------------------------------------------------------------------------------------
  // View

  get selected(): string | null {
    return this.#selected;
  }

  set selected(stage: string | null) {
    this.#selected = stage;
    this.setView({ stage });
  }

  setView(changes: Readonly<Record<string, unknown>>): void {
    this.view = { ...this.view, ...changes };
    if (this.#viewTimer !== null) clearTimeout(this.#viewTimer);
    this.#viewTimer = setTimeout(() => this.#saveView(), VIEW_WAIT_MS);
  }

  #saveView(): void {
    if (this.#viewTimer === null) return;
    clearTimeout(this.#viewTimer);
    this.#viewTimer = null;
    void this.#around.call('view-save', { view: { ...this.view } });
  }

  /** Prints the sheets: by the shell where there is one, by the browser otherwise. */
  async print(to: 'dialog' | 'pdf', only: SheetKind | null = null): Promise<void> {
    if (!this.outcome) return;
    const shown = this.outcome;
    if (this.runtime === 'browser') {
      this.#around.printPage();
      this.#keepPrinted(shown, only);
      return;
    }
    const { name } = shown.result.build;
    const html = this.#around.sheetsHtml(shown, only);
    const answer = await this.#around.call('print-sheets', { html, to, name: name.slice(0, 120) });
    this.news = answer.ok ? (answer.value.done ? 'Printed.' : 'Not printed.') : answer.detail;
    if (answer.ok && answer.value.done) this.#keepPrinted(shown, only);
  }

  /** What now hangs on the wall; sheets without moments are not the schedule. */
  #keepPrinted(shown: PlanOutcome, only: SheetKind | null): void {
    if (only !== null && !SHEETS[only].tellsWhen) return;
    if (shown.result.build.id !== this.outcome?.result.build.id) return;
    const printed = printedRecord(shown, this.now);
    if (printed === null || saysTheSame(this.document.printed as Printed, printed)) return;
    this.apply({ label: 'Printed the schedule', document: { ...this.document, printed } });
  }

  /** Forgets what hangs on the wall: the next plan is the best one again. */
  planAfresh(): void {
    if (!this.document.printed) return;
    this.apply({
      label: 'Plan afresh, whatever is printed',
      document: { ...this.document, printed: null },
    });
  }

  /** Keeps a text as a file: through the shell's dialog where there is one, as a download otherwise. */
  async saveText(fileName: string, text: string): Promise<void> {
    if (this.runtime === 'browser') {
      this.#around.downloadText(fileName, text);
      this.news = `${fileName} saved.`;
      return;
    }
    const answer = await this.#around.call('text-save', { name: fileName.slice(0, 120), text });
    this.news = answer.ok ? (answer.value.done ? 'Saved.' : 'Not saved.') : answer.detail;
  }
}

/** The taken route alone, as a first answer has it. */
const onlyTaken = ({ result, detail }: PlanOutcome): PlanOutcome => ({
  result: { ...result, routes: result.routes.filter((route) => route.id === result.route.id) },
  detail,
});

/** The first answer knows the chosen route alone: the others stay as they were until the worker speaks. */
function keepRoutes(first: PlanOutcome, previous: PlanOutcome | null): PlanOutcome {
  if (!previous || previous.result.build.id !== first.result.build.id) return first;
  const known = new Set(first.result.routes.map((route) => route.id));
  const rest = previous.result.routes.filter((route) => !known.has(route.id));
  if (rest.length === 0) return first;
  return { ...first, result: { ...first.result, routes: [...first.result.routes, ...rest] } };
}
