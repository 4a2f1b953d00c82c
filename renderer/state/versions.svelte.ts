/** The history of the open build: its steps, names for states, what changed since, the way back. */
import type { HistoryEntry, OpenBuild } from '../../app/contract/channels.ts';
import { differences, type Difference } from '../../app/document/differences.ts';
import type { Draft } from '../../app/document/edit/path.ts';
import type { Announcer } from './announcer.svelte.ts';
import type { Call } from './bridge.ts';

export interface VersionsMeans {
  readonly call: Call;
  readonly news: Announcer;
  /** The open build at its newest revision, once everything typed is stored; null when there is none. */
  readonly settled: () => Promise<{ readonly id: string; readonly revision: number } | null>;
  readonly document: () => Draft;
  readonly show: (open: OpenBuild) => void;
}

export class VersionsState {
  readonly #means: VersionsMeans;

  entries = $state.raw<readonly HistoryEntry[]>([]);
  /** The state that is looked at, and what changed from it to now. */
  looked = $state<number | null>(null);
  changed = $state.raw<readonly Difference[]>([]);

  constructor(means: VersionsMeans) {
    this.#means = means;
  }

  async list(): Promise<void> {
    this.looked = null;
    const open = await this.#means.settled();
    if (!open) return;
    const answer = await this.#means.call('history-list', { id: open.id });
    if (answer.ok) this.entries = answer.value;
    else this.#means.news.say(answer.detail);
  }

  async look(revision: number): Promise<void> {
    const open = await this.#means.settled();
    if (!open) return;
    const answer = await this.#means.call('version-read', { id: open.id, revision });
    if (!answer.ok) {
      this.#means.news.say(answer.detail);
      return;
    }
    this.changed = differences(answer.value.document as Draft, this.#means.document());
    this.looked = revision;
  }

  /** @param name null takes the name away */
  async name(revision: number | 'newest', name: string | null): Promise<void> {
    const open = await this.#means.settled();
    if (!open) return;
    const at = revision === 'newest' ? open.revision : revision;
    const answer = await this.#means.call('version-name', { id: open.id, revision: at, name });
    if (answer.ok) this.entries = answer.value;
    else this.#means.news.say(answer.detail);
  }

  /** @returns true when the state of that revision is on screen now */
  async goBack(revision: number): Promise<boolean> {
    const open = await this.#means.settled();
    if (!open) return false;
    const wanted = { id: open.id, expects: open.revision, revision };
    const answer = await this.#means.call('version-return', wanted);
    if (answer.ok) this.#means.show(answer.value);
    else this.#means.news.say(answer.detail);
    return answer.ok;
  }
}
