/** How the window stands: open panel, zoom, selection. Kept for the next start, not in the undo list. */
import type { Call } from './bridge.ts';
import { Timer } from './timer.ts';

type View = Readonly<Record<string, unknown>>;

const WAIT_MS = 200;

export class WindowView {
  readonly #call: Call;
  readonly #timer = new Timer();
  #selected = $state<string | null>(null);
  all = $state.raw<View>({});

  constructor(call: Call) {
    this.#call = call;
  }

  /** @param selects whether what was selected is on screen again */
  begin(view: View, selects: boolean): void {
    this.all = view;
    const stage = view['stage'];
    if (selects && typeof stage === 'string') this.#selected = stage;
  }

  /** The selected stage, by its id. */
  get selected(): string | null {
    return this.#selected;
  }

  select(stage: string | null): void {
    this.#selected = stage;
    this.set({ stage });
  }

  /** The stage belonged to what is no longer shown; what is kept of it stays. */
  deselect(): void {
    this.#selected = null;
  }

  set(changes: View): void {
    this.all = { ...this.all, ...changes };
    this.#timer.start(WAIT_MS, () => this.#send());
  }

  /** At once, what would be kept a moment later. */
  save(): void {
    if (!this.#timer.running) return;
    this.#timer.stop();
    this.#send();
  }

  #send(): void {
    void this.#call('view-save', { view: { ...this.all } });
  }
}
