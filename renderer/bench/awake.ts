/** Keeps the machine awake: through the program in Electron, by the browser's own lock otherwise. */
import type { Call } from '../state/bridge.ts';

export class Awake {
  readonly #call: Call;
  readonly #electron: boolean;
  #lock: WakeLockSentinel | null = null;
  #wanted = false;
  #asking = false;

  constructor(call: Call, electron: boolean) {
    this.#call = call;
    this.#electron = electron;
  }

  /**
   * Asks for it or lets go. A browser lets go by itself when its page is hidden: it is asked again.
   * @returns whether the machine is kept awake now
   */
  async set(on: boolean): Promise<boolean> {
    const changed = on !== this.#wanted;
    this.#wanted = on;
    if (this.#electron) {
      if (changed) await this.#call('keep-awake', { on });
      return on;
    }
    if (!on) {
      await this.#lock?.release();
      this.#lock = null;
      return false;
    }
    if (this.#lock && !this.#lock.released) return true;
    if (this.#asking || document.visibilityState !== 'visible' || !('wakeLock' in navigator)) {
      return false;
    }
    this.#asking = true;
    try {
      this.#lock = await navigator.wakeLock.request('screen');
      return true;
    } catch {
      // A machine low on power refuses; the screen then says that it may sleep.
      return false;
    } finally {
      this.#asking = false;
    }
  }
}
