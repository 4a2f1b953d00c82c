/** How the window stands: open panel, zoom, selection. Kept for the next start, not in the undo list. */
import { VIEW_BY_BUILD } from '../../app/contract/names.ts';
import type { Call } from './bridge.ts';
import { Timer } from './timer.ts';

type View = Readonly<Record<string, unknown>>;

const WAIT_MS = 200;

export class WindowView {
  readonly #call: Call;
  readonly #timer = new Timer();
  /** What the program was told last: another window may have changed the rest since. */
  #told: View = {};
  #selected = $state<string | null>(null);
  all = $state.raw<View>({});

  constructor(call: Call) {
    this.#call = call;
  }

  /** @param selects whether what was selected is on screen again */
  begin(view: View, selects: boolean): void {
    this.all = view;
    this.#told = view;
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
    const view = changesBetween(this.#told, this.all);
    this.#told = this.all;
    if (Object.keys(view).length > 0) void this.#call('view-save', { view });
  }
}

/** What is kept for each build is told build by build. */
function changesBetween(told: View, all: View): View {
  const changed = Object.entries(all).filter(([key, value]) => value !== told[key]);
  return Object.fromEntries(
    changed.map(([key, value]) =>
      VIEW_BY_BUILD.includes(key) && isView(value) && isView(told[key])
        ? [key, changesBetween(told[key], value)]
        : [key, value],
    ),
  );
}

const isView = (value: unknown): value is View => typeof value === 'object' && value !== null;
