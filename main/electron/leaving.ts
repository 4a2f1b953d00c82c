/**
 * Closing or reloading the window while the page holds edits that are not stored: the page refuses to
 * go, and Electron says nothing about that. It is given a moment to save; then the person is asked.
 */
import type { MessageBoxOptions } from 'electron';

interface UnloadEvent {
  /** In Electron this lets the page go although it has refused. */
  preventDefault(): void;
}

/** The part of a BrowserWindow that is used here. */
export interface LeavingWindow {
  on(event: 'close', listener: () => void): unknown;
  close(): void;
  isDestroyed(): boolean;
  readonly webContents: {
    on(event: 'will-prevent-unload', listener: (event: UnloadEvent) => void): unknown;
    on(event: 'did-finish-load', listener: () => void): unknown;
    reload(): void;
  };
}

export interface Leaving {
  /** Shows a message and answers with the number of the pressed button. */
  readonly ask: (options: MessageBoxOptions) => Promise<number>;
  /** The moment that the page has for saving. */
  readonly pause: () => Promise<void>;
  /** Closes the window again, or ends the program where that was what was asked for. */
  readonly close: () => void;
  /** The person stays. */
  readonly stayed: () => void;
}

const LEAVE = 1;
const QUESTION: MessageBoxOptions = {
  type: 'warning',
  message: 'The last edits are not saved.',
  detail:
    'The planner could not store them. Stay and try again, or leave without them: ' +
    'what was saved before is safe.',
  buttons: ['Stay', 'Leave without saving'],
  defaultId: 0,
  cancelId: 0,
  noLink: true,
};

export function guardLeaving(window: LeavingWindow, { ask, pause, close, stayed }: Leaving): void {
  const { webContents } = window;
  let closing = false;
  let deciding = false;
  let heldAgain = false;
  let mayLeave = false;

  async function decide(again: () => void): Promise<void> {
    heldAgain = false;
    await pause();
    if (window.isDestroyed()) return;
    again();
    // The page says so at once, or later when it is busy: it has the same moment once more.
    await pause();
    if (window.isDestroyed() || !heldAgain) return;
    const answer = await ask(QUESTION);
    if (window.isDestroyed()) return;
    if (answer !== LEAVE) {
      stayed();
      return;
    }
    mayLeave = true;
    again();
  }

  window.on('close', () => (closing = true));
  webContents.on('did-finish-load', () => (mayLeave = false));
  webContents.on('will-prevent-unload', (event) => {
    if (mayLeave) {
      event.preventDefault();
      return;
    }
    const again = closing ? close : () => webContents.reload();
    closing = false;
    heldAgain = true;
    if (deciding) return;
    deciding = true;
    void decide(again).finally(() => (deciding = false));
  });
}
