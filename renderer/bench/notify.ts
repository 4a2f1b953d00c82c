/** Calls out through the system: Electron's program does it itself, a browser shows a notification. */
import type { Alarm } from '../../app/shop/floor/clocks.ts';
import { ALARM_WORDS } from '../words/floor.ts';
import type { Call } from '../state/bridge.ts';

const AGAIN_MS = 60_000;
const MS_PER_MINUTE = 60_000;

export class Notifier {
  readonly #call: Call;
  readonly #electron: boolean;
  readonly #shownMs = new Map<string, number>();
  #sent = '';

  constructor(call: Call, electron: boolean) {
    this.#call = call;
    this.#electron = electron;
  }

  /** Called from a key or a press: a browser asks the person whether it may. */
  askLeave(): void {
    if (this.#electron || !('Notification' in window)) return;
    if (Notification.permission === 'default') void Notification.requestPermission();
  }

  /**
   * @param standing every alarm that is to go off, at the minute from which it does
   * @param sounding those that are due
   */
  tell(standing: readonly Alarm[], sounding: readonly Alarm[], nowMs: number): void {
    if (this.#electron) {
      const alarms = standing.map(({ id, at, kind, name }) => ({
        id,
        at: new Date(at * MS_PER_MINUTE).toISOString(),
        title: ALARM_WORDS[kind],
        body: name,
      }));
      const text = JSON.stringify(alarms);
      if (text === this.#sent) return;
      this.#sent = text;
      void this.#call('alarms-set', { alarms });
      return;
    }
    if (!('Notification' in window) || Notification.permission !== 'granted') return;
    for (const { id, kind, name } of sounding) {
      const shown = this.#shownMs.get(id);
      if (shown !== undefined && nowMs - shown < AGAIN_MS) continue;
      this.#shownMs.set(id, nowMs);
      new Notification(ALARM_WORDS[kind], { body: name, tag: id, requireInteraction: true });
    }
  }
}
