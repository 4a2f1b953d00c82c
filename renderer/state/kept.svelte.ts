/** Removed builds and kept copies of the data, and the way back to them. */
import type { BuildSummary, CopySummary, OpenBuild } from '../../app/contract/channels.ts';
import type { Call } from './bridge.ts';
import { KEPT_WORDS } from '../words/kept.ts';
import type { Announcer } from './announcer.svelte.ts';

export interface KeptMeans {
  readonly call: Call;
  readonly news: Announcer;
  /** Brings what was typed to the store. @returns false when that failed */
  readonly flush: () => Promise<boolean>;
  readonly show: (open: OpenBuild) => void;
  /** Begins again with what the store holds now. */
  readonly restart: () => Promise<void>;
  readonly saveText: (name: string, text: string) => Promise<void>;
}

export class KeptState {
  readonly #means: KeptMeans;

  removed = $state.raw<readonly BuildSummary[]>([]);
  copies = $state.raw<readonly CopySummary[]>([]);

  constructor(means: KeptMeans) {
    this.#means = means;
  }

  async look(): Promise<void> {
    const { call } = this.#means;
    const [removed, copies] = await Promise.all([call('removed-list', {}), call('copy-list', {})]);
    if (removed.ok) this.removed = removed.value;
    if (copies.ok) this.copies = copies.value;
  }

  /** @returns true when it lies open now */
  async bringBack(id: string): Promise<boolean> {
    const { call, flush, show, news } = this.#means;
    if (!(await flush())) return false;
    const answer = await call('build-bring-back', { id });
    if (answer.ok) show(answer.value);
    else news.say(answer.detail);
    return answer.ok;
  }

  /** @returns true when the copy is what is on screen now */
  async putBack(name: string): Promise<boolean> {
    const { call, flush, restart, news } = this.#means;
    if (!(await flush())) return false;
    const answer = await call('copy-restore', { name });
    if (!answer.ok) {
      news.say(answer.detail);
      return false;
    }
    await restart();
    news.say(KEPT_WORDS.wasPutBack);
    return true;
  }

  async saveEverything(): Promise<void> {
    const { call, saveText, news } = this.#means;
    const answer = await call('shop-export', {});
    if (answer.ok) await saveText(KEPT_WORDS.exportName, answer.value.text);
    else news.say(answer.detail);
  }
}
