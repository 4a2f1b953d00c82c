/** What the shop's own finished builds taught, as main has it. */
import { createContext } from 'svelte';
import type { FinishedBuild } from '../../app/contract/channels.ts';
import type { Call } from '../state/bridge.ts';

export class ShopState {
  readonly #call: Call;
  finished = $state.raw<readonly FinishedBuild[]>([]);
  trouble = $state('');

  constructor(call: Call) {
    this.#call = call;
  }

  async read(): Promise<void> {
    const answer = await this.#call('lessons-read', {});
    this.trouble = answer.ok ? '' : answer.detail;
    if (answer.ok) this.finished = answer.value;
  }
}

export const [getShop, setShop] = createContext<ShopState>();
