/** Closing Electron's window, over a stand-in of it that asks its page first, as Electron does. */
import { describe, expect, it } from 'vitest';
import { guardLeaving, type LeavingWindow } from '../../../main/electron/leaving.ts';

type Listener = (event: { preventDefault(): void }) => void;

/**
 * A window in the order of Electron: `close`, then the page's own refusal, which lets the window stand
 * unless a listener of `will-prevent-unload` prevents that.
 */
class Window implements LeavingWindow {
  readonly #listeners = new Map<string, Listener>();
  destroyed = false;
  loads = 1;
  /** Whether the page holds something that is not stored. */
  unsaved = true;
  readonly log: string[];
  readonly webContents: LeavingWindow['webContents'];

  constructor(log: string[]) {
    this.log = log;
    this.webContents = {
      on: (event: string, listener: Listener) => this.#listeners.set(event, listener),
      reload: () => {
        if (!this.#pageGoes()) return;
        this.loads += 1;
        this.#emit('did-finish-load');
      },
    };
  }

  on(event: string, listener: Listener): void {
    this.#listeners.set(event, listener);
  }

  close(): void {
    this.#emit('close');
    this.destroyed = this.#pageGoes();
  }

  isDestroyed(): boolean {
    return this.destroyed;
  }

  #pageGoes(): boolean {
    if (!this.unsaved) return true;
    this.log.push('held');
    return this.#emit('will-prevent-unload');
  }

  /** True when a listener prevented what Electron does by itself. */
  #emit(event: string): boolean {
    let prevented = false;
    this.#listeners.get(event)?.({ preventDefault: () => (prevented = true) });
    return prevented;
  }
}

const STAY = 0;
const LEAVE = 1;

function guarded(answers: number[], whilePaused: (window: Window) => void = () => undefined) {
  const log: string[] = [];
  const window = new Window(log);
  guardLeaving(window, {
    ask: async ({ buttons }) => {
      const answer = answers.shift() ?? STAY;
      log.push(`asked: ${buttons?.[answer]}`);
      return answer;
    },
    pause: async () => whilePaused(window),
    close: () => window.close(),
    stayed: () => log.push('stayed'),
  });
  return { window, log };
}
const settle = () => new Promise((done) => setTimeout(done, 0));

describe('closing the window', () => {
  it('goes through at once when all is stored', () => {
    const { window, log } = guarded([]);
    window.unsaved = false;
    window.close();
    expect(window.destroyed).toBe(true);
    expect(log).toEqual([]);
  });

  it('waits for what the page is just storing, and asks nothing', async () => {
    const { window, log } = guarded([], (page) => (page.unsaved = false));
    window.close();
    expect(window.destroyed).toBe(false);
    await settle();
    expect(window.destroyed).toBe(true);
    expect(log).toEqual(['held']);
  });

  it('asks when it cannot be stored, and stays when that is the answer', async () => {
    const { window, log } = guarded([STAY]);
    window.close();
    await settle();
    expect(window.destroyed).toBe(false);
    expect(log).toEqual(['held', 'held', 'asked: Stay', 'stayed']);
  });

  it('asks each time anew, once at a time, and leaves when that is the answer', async () => {
    const { window, log } = guarded([STAY, LEAVE]);
    window.close();
    await settle();
    window.close();
    window.close();
    await settle();
    expect(window.destroyed).toBe(true);
    expect(log.filter((line) => line.startsWith('asked'))).toEqual([
      'asked: Stay',
      'asked: Leave without saving',
    ]);
  });
});

describe('loading the page again', () => {
  it('asks too, and leaving once is no leave for the next time', async () => {
    const { window, log } = guarded([LEAVE, STAY]);
    window.webContents.reload();
    await settle();
    expect(window.loads).toBe(2);
    expect(window.destroyed).toBe(false);
    window.close();
    await settle();
    expect(window.destroyed).toBe(false);
    expect(log.at(-1)).toBe('stayed');
  });
});
