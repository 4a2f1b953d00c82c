/** Builds that are not complete yet. Each is kept as it is typed and becomes a build with its first plan. */
import type { Answer, DraftSummary, OpenBuild, OpenDraft } from '../../app/contract/channels.ts';
import type { Call } from './bridge.ts';
import type { Draft } from '../../app/document/edit/path.ts';
import { DraftKeeper } from './draftKeeper.ts';
import type { SaveState } from './failures.ts';

const FIRST_REVISION = 1;

export class DraftsState {
  readonly #call: Call;
  readonly #merged: (document: Draft) => void;
  #keeper: DraftKeeper | null = null;
  #fresh = false;

  list = $state.raw<readonly DraftSummary[]>([]);
  /** The draft that lies open, by its id. */
  openId = $state<string | null>(null);
  saveState = $state<SaveState>('saved');
  saveDetail = $state('');

  /** @param merged hears of what another window typed into the open draft */
  constructor(call: Call, merged: (document: Draft) => void) {
    this.#call = call;
    this.#merged = merged;
  }

  /** True when all that was typed is in the store. */
  get idle(): boolean {
    return this.#keeper?.idle ?? true;
  }

  /** @param fresh it was begun just now: it is removed on leaving where nothing was typed into it */
  begin(draft: OpenDraft, fresh = false): void {
    this.end();
    this.#fresh = fresh;
    this.#keeper = new DraftKeeper(this.#call, draft, {
      merged: (document) => this.#merged(document),
      moved: (id) => {
        this.openId = id;
        void this.refresh();
      },
      state: (state, detail) => {
        this.saveState = state;
        this.saveDetail = detail;
      },
    });
    this.openId = draft.id;
    this.saveState = 'saved';
    this.saveDetail = '';
  }

  end(): void {
    const keeper = this.#keeper;
    if (!keeper) return;
    keeper.close();
    this.#keeper = null;
    this.openId = null;
    if (this.#fresh && keeper.idle && keeper.place.expects === FIRST_REVISION) {
      void this.#remove(keeper.place);
    }
  }

  keep(document: Draft): void {
    this.#keeper?.keep(document);
  }

  async flush(): Promise<boolean> {
    return (await this.#keeper?.flush()) ?? true;
  }

  /**
   * Makes a build of the open draft, once all of it is stored.
   * @returns null when there is something newer to look at first, from here or from another window
   */
  async promote(document: Draft): Promise<Answer<OpenBuild> | null> {
    const keeper = this.#keeper;
    if (!keeper || !(await keeper.flush()) || keeper !== this.#keeper) return null;
    const draft = keeper.place;
    // What is typed meanwhile belongs to the build that is being made.
    const release = keeper.hold();
    const answer = await this.#call('build-create', {
      document: document as Record<string, unknown>,
      draft,
    });
    if (answer.ok) keeper.close();
    release();
    if (keeper !== this.#keeper) return null;
    if (!answer.ok && answer.code === 'stale') {
      const stored = await keeper.flush();
      if (stored && keeper.place.expects === draft.expects) await keeper.catchUp();
      return null;
    }
    if (!answer.ok) {
      this.saveState = 'failed';
      this.saveDetail = answer.detail;
    }
    return answer;
  }

  /** @returns why it could not be removed, or null */
  async remove(id: string): Promise<string | null> {
    return this.#remove({ id });
  }

  async #remove(draft: { readonly id: string; readonly expects?: number }): Promise<string | null> {
    const answer = await this.#call('draft-remove', draft);
    if (answer.ok) {
      this.list = answer.value;
      return null;
    }
    await this.refresh();
    return answer.code === 'not-found' ? null : answer.detail;
  }

  async refresh(): Promise<void> {
    const answer = await this.#call('draft-list', {});
    if (answer.ok) this.list = answer.value;
  }
}
