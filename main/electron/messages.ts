/** Messages of the page to main: one handler per channel, which checks the sender first. */
import type { IpcMain, IpcMainInvokeEvent, WebContents } from 'electron';
import type { Answer } from '../../app/contract/channels.ts';
import { CHANNEL_NAMES } from '../../app/contract/names.ts';
import { answer } from '../handlers/answer.ts';
import type { Session } from '../session.ts';
import { isOurPage } from './address.ts';

/** True for the top frame of a window that we made, on a page of ours. Fails closed. */
export function isOurSender(
  event: Pick<IpcMainInvokeEvent, 'sender' | 'senderFrame'>,
  isOurWindow: (contents: WebContents) => boolean,
): boolean {
  // Null once the frame has gone or moved on.
  const frame = event.senderFrame;
  if (!frame || !isOurWindow(event.sender)) return false;
  return frame === event.sender.mainFrame && isOurPage(frame.url);
}

/** The longest text that a channel takes, with room for its wrapping; as over the loopback host. */
export const MOST_CHARACTERS = 16 * 1024 * 1024;

/** What is no JSON at all goes on to the channel's own schema, which refuses it. */
function isTooLong(input: unknown): boolean {
  try {
    return (JSON.stringify(input) ?? '').length > MOST_CHARACTERS;
  } catch {
    return false;
  }
}

export function registerChannels(
  ipcMain: Pick<IpcMain, 'handle'>,
  session: Session,
  isOurWindow: (contents: WebContents) => boolean,
): void {
  for (const name of CHANNEL_NAMES) {
    ipcMain.handle(name, async (event, input: unknown): Promise<Answer<unknown>> => {
      if (isOurSender(event, isOurWindow)) {
        if (!isTooLong(input)) return answer(session, name, input);
        return { ok: false, code: 'bad-message', detail: 'The message is too long.' };
      }
      session.report(`${name}: refused to ${event.senderFrame?.url ?? 'a frame that has gone'}`);
      return { ok: false, code: 'refused', detail: 'This page has no business here.' };
    });
  }
}
