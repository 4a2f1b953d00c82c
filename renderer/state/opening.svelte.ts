/** Which build or draft lies open, and the way from one to another, on which nothing is lost. */
import type { Answer, OpenBuild, OpenDraft } from '../../app/contract/channels.ts';
import type { Fault } from '../../app/document/faults.ts';
import type { Call } from './bridge.ts';
import type { Change } from '../../app/document/edit/change.ts';
import { startingQuestions } from '../../app/judge/questions.ts';
import { duplicateOf } from '../../app/document/edit/duplicate.ts';
import { emptyBuild } from '../../app/document/edit/start.ts';
import type { DraftsState } from './drafts.svelte.ts';
import { leaveField } from './leaveField.ts';
import type { HistoryState } from './history.svelte.ts';
import type { LeavingState } from './leaving.svelte.ts';
import type { Announcer } from './announcer.svelte.ts';
import type { PlanningState } from './planning.svelte.ts';
import type { SessionState } from './session.svelte.ts';
import type { WindowView } from './windowView.svelte.ts';
import { frameWords } from '../words/frame.ts';
import { EDIT_NAMES, NEWS, WHOLE_FILE } from '../words/news.ts';

export interface OpeningParts {
  readonly call: Call;
  /** The machine's own zone, for a build that is begun here. */
  readonly zone: string;
  readonly session: SessionState;
  readonly window: WindowView;
  readonly planning: PlanningState;
  readonly history: HistoryState;
  readonly drafts: DraftsState;
  readonly leaving: LeavingState;
  readonly news: Announcer;
}

export class Opening {
  readonly #parts: OpeningParts;
  #promoting = false;
  /** Another number when another build or draft is on screen; the same for one that was completed. */
  place = $state(0);

  constructor(parts: OpeningParts) {
    this.#parts = parts;
  }

  /** Begins the session and shows what was open last. */
  async start(): Promise<void> {
    const { session, window, drafts, news } = this.#parts;
    const given = await session.start();
    if (!given) return;
    drafts.list = given.drafts;
    if (given.draft) this.#showDraft(given.draft);
    else if (given.open) this.show(given.open);
    window.begin(given.view, given.draft === null);
    if (given.notice) news.say(given.notice);
    session.status = 'ready';
  }

  /** Begins again with what the store holds now: another copy of the data was put in its place. */
  async restart(): Promise<void> {
    this.#close();
    await this.start();
  }

  /** @returns true when it lies open now */
  async open(id: string): Promise<boolean> {
    const shown = await this.#swap(
      () => this.#parts.call('build-open', { id }),
      (open) => this.show(open),
    );
    if (shown) await this.#parts.session.listBuilds();
    return shown;
  }

  async openDraft(id: string): Promise<boolean> {
    if (id === this.#parts.drafts.openId) return true;
    return this.#swap(
      () => this.#parts.call('draft-open', { id }),
      (draft) => this.#showDraft(draft),
    );
  }

  /** Begins an empty build. */
  async create(): Promise<boolean> {
    const { call, zone, drafts } = this.#parts;
    const document = emptyBuild(zone, startingQuestions()) as Record<string, unknown>;
    const shown = await this.#swap(
      once(() => call('draft-create', { document })),
      (draft) => this.#showDraft(draft, true),
    );
    if (shown) await drafts.refresh();
    return shown;
  }

  /** Begins a build from the open one. @returns true when it lies open now */
  async duplicate(): Promise<boolean> {
    const { call, planning, history, session } = this.#parts;
    if (history.buildId === null) return false;
    const name = frameWords.header.copyOf(planning.document.name ?? frameWords.header.newBuild);
    const shown = await this.#swap(
      once(() => {
        const document = duplicateOf(planning.document, name) as Record<string, unknown>;
        return call('build-create', { document });
      }),
      (open) => this.show(open),
    );
    if (shown) await session.listBuilds();
    return shown;
  }

  /** Faults of the file, or none when it was opened. */
  async importFile(fileName: string, text: string): Promise<readonly Fault[]> {
    let faults: readonly Fault[] = [];
    const read = async (): Promise<Answer<OpenBuild>> => {
      const answer = await this.#parts.call('build-import', { fileName, text });
      if (answer.ok && 'opened' in answer.value) return { ok: true, value: answer.value.opened };
      const detail = answer.ok ? NEWS.notOpened(fileName) : answer.detail;
      faults =
        answer.ok && 'faults' in answer.value
          ? answer.value.faults
          : [{ path: WHOLE_FILE.path, found: detail, expected: WHOLE_FILE.buildFile }];
      return { ok: false, code: 'refused', detail };
    };
    if (await this.#swap(once(read), (open) => this.show(open))) {
      await this.#parts.session.listBuilds();
    }
    return faults;
  }

  async remove(id: string): Promise<void> {
    const { call, session, history, news } = this.#parts;
    const answer = await call('build-remove', { id });
    if (!answer.ok) {
      news.say(answer.detail);
      return;
    }
    session.builds = answer.value;
    if (id === history.buildId) this.#close();
  }

  async dropDraft(id: string): Promise<void> {
    const { drafts, news } = this.#parts;
    const why = await drafts.remove(id);
    if (why !== null) news.say(why);
    else if (id === drafts.openId) this.#close();
  }

  /** The open sample as it was shipped; one edit like any other. */
  async resetSample(): Promise<void> {
    const { call, session, history } = this.#parts;
    const id = history.buildId;
    if (id === null) return;
    const shown = await this.#swap(
      () => call('sample-reset', { id, expects: history.revision }),
      (open) => this.show(open),
    );
    if (shown) await session.listBuilds();
  }

  /** A build as the store gave it, in place of what is on screen. */
  show(open: OpenBuild): void {
    if (open.id !== this.#parts.history.buildId) {
      this.#parts.window.deselect();
      this.place += 1;
    }
    this.#put(open);
  }

  #put(open: OpenBuild): void {
    const { planning, history, drafts, news } = this.#parts;
    drafts.end();
    history.begin(open);
    planning.show(open.document, true);
    if (open.notice) news.say(open.notice);
  }

  /**
   * The draft has a plan: from here on it is a build with a history.
   * @param apply takes what was typed while the build was being made
   */
  async promote(apply: (change: Change) => unknown): Promise<void> {
    if (this.#promoting) return;
    this.#promoting = true;
    const { session, planning, drafts } = this.#parts;
    const sent = planning.document;
    const answer = await drafts.promote(sent);
    this.#promoting = false;
    const now = planning.document;
    if (answer?.ok) {
      // The same build goes on: a field that is being typed in stays as it is.
      this.#put(answer.value);
      if (now !== sent) apply({ label: EDIT_NAMES.jobCard, document: now });
      await Promise.all([drafts.refresh(), session.listBuilds()]);
    } else if (answer) {
      await Promise.all([drafts.refresh(), session.listBuilds()]);
    } else if (now !== sent && drafts.openId !== null && planning.ready) {
      // Another window's entries came in between; with them it may still be a build.
      await this.promote(apply);
    }
  }

  #showDraft(draft: OpenDraft, fresh = false): void {
    const { planning, drafts } = this.#parts;
    this.#close();
    this.place += 1;
    drafts.begin(draft, fresh);
    planning.show(draft.document, false);
  }

  #close(): void {
    const { window, planning, history, drafts } = this.#parts;
    history.end();
    drafts.end();
    planning.clear();
    window.deselect();
  }

  /** Shows what `fetch` brings, once nothing is left behind unsaved or the person wants that. */
  async #swap<T>(fetch: () => Promise<Answer<T>>, show: (value: T) => void): Promise<boolean> {
    const { history, drafts, news } = this.#parts;
    for (;;) {
      const leave = await this.#mayLeave();
      if (leave === 'stay') return false;
      const answer = await fetch();
      if (!answer.ok) {
        news.say(answer.detail);
        return false;
      }
      // Something was typed while it was fetched, or still stands in a field that nobody has left.
      leaveField();
      if (leave === 'saved' && !(history.idle && drafts.idle)) continue;
      show(answer.value);
      return true;
    }
  }

  async #mayLeave(): Promise<'saved' | 'without' | 'stay'> {
    const { planning, history, drafts, leaving } = this.#parts;
    while (!((await history.flush()) && (await drafts.flush()))) {
      const { saveDetail } = drafts.openId === null ? history : drafts;
      const name = planning.document.name ?? frameWords.header.newBuild;
      const choice = await leaving.ask({ name, detail: saveDetail });
      if (choice !== 'again') return choice;
    }
    return 'saved';
  }
}

/** Gives the first success again on later calls, for a request that makes something new each time. */
function once<T>(fetch: () => Promise<Answer<T>>): () => Promise<Answer<T>> {
  let made: Answer<T> | null = null;
  return async () => {
    if (!made?.ok) made = await fetch();
    return made;
  };
}
