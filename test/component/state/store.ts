/** A stand-in of the program behind the page: keeps documents, counts revisions, fails on demand. */
import type {
  Answer,
  ChannelName,
  ErrorCode,
  Failure,
  OpenBuild,
  OpenDraft,
} from '../../../app/contract/channels.ts';
import type { Call } from '../../../renderer/state/bridge.ts';

interface Input {
  readonly id: string;
  readonly expects: number;
  readonly label: string;
  readonly document: Record<string, unknown>;
  readonly draft?: { readonly id: string; readonly expects: number };
}

export interface Sent {
  readonly expects: number;
  readonly label: string;
  readonly document: Record<string, unknown>;
}

export const openOf = (id: string, revision: number, document: object): OpenBuild => ({
  id,
  revision,
  document: { ...document },
  canUndo: revision > 1,
  canRedo: false,
  undoLabel: revision > 1 ? `revision ${revision}` : null,
  redoLabel: null,
});

export class StandInStore {
  /** Every build-save that was accepted, in order. */
  readonly sent: Sent[] = [];
  /** Names of all calls, failed ones included. */
  readonly asked: string[] = [];
  readonly builds = new Map<string, { revision: number; document: Record<string, unknown> }>();
  readonly drafts = new Map<string, { revision: number; document: Record<string, unknown> }>();
  #made = 0;
  /** Why a call fails, or null. */
  fails: (name: ChannelName, input: Input) => ErrorCode | Failure | null = () => null;

  readonly call = (async (name: ChannelName, input: Input): Promise<Answer<unknown>> => {
    this.asked.push(name);
    await Promise.resolve();
    const failure = this.fails(name, input);
    if (typeof failure === 'string') return { ok: false, code: failure, detail: `no: ${failure}` };
    return failure ?? this.#answer(name, input);
  }) as unknown as Call;

  #answer(name: ChannelName, input: Input): Answer<unknown> {
    switch (name) {
      case 'build-save':
        return this.#save(input);
      case 'build-open':
        return this.#open(input.id);
      case 'build-create':
        return this.#create(input);
      case 'draft-open':
        return this.#openDraft(input.id);
      case 'draft-create':
        return this.#createDraft(input);
      case 'draft-save':
        return this.#saveDraft(input);
      case 'draft-remove':
        this.drafts.delete(input.id);
        return this.#listDrafts();
      case 'draft-list':
        return this.#listDrafts();
      case 'build-list':
        return { ok: true, value: [] };
      default:
        return { ok: true, value: {} };
    }
  }

  #save({ id, expects, label, document }: Input): Answer<OpenBuild> {
    const kept = this.builds.get(id);
    if (!kept) return gone;
    if (kept.revision !== expects) return behind;
    this.sent.push({ expects, label, document });
    this.builds.set(id, { revision: expects + 1, document });
    return this.#open(id);
  }

  #open(id: string): Answer<OpenBuild> {
    const kept = this.builds.get(id);
    return kept ? { ok: true, value: openOf(id, kept.revision, kept.document) } : gone;
  }

  #create({ document, draft }: Input): Answer<OpenBuild> {
    if (draft) {
      const kept = this.drafts.get(draft.id);
      if (!kept) return gone;
      if (kept.revision !== draft.expects) return behind;
      this.drafts.delete(draft.id);
    }
    const id = `made-${(this.#made += 1)}`;
    this.builds.set(id, { revision: 1, document });
    return this.#open(id);
  }

  #openDraft(id: string): Answer<OpenDraft> {
    const kept = this.drafts.get(id);
    return kept ? { ok: true, value: { id, ...kept } } : gone;
  }

  #createDraft({ document }: Input): Answer<OpenDraft> {
    const id = `draft-${(this.#made += 1)}`;
    this.drafts.set(id, { revision: 1, document });
    return this.#openDraft(id);
  }

  #saveDraft({ id, expects, document }: Input): Answer<OpenDraft> {
    const kept = this.drafts.get(id);
    if (!kept) return gone;
    if (kept.revision !== expects) return behind;
    this.drafts.set(id, { revision: expects + 1, document });
    return this.#openDraft(id);
  }

  #listDrafts(): Answer<unknown> {
    const value = [...this.drafts].map(([id, { document }]) => ({
      id,
      name: (document['name'] as string | undefined) ?? null,
      changedAt: '2027-04-12T06:00:00.000Z',
    }));
    return { ok: true, value };
  }
}

const gone: Failure = { ok: false, code: 'not-found', detail: 'It is gone.' };
const behind: Failure = { ok: false, code: 'stale', detail: 'Changed in another window.' };
