/** The one way to main: the preload's methods in Electron, the loopback host's POST otherwise. */
import type {
  Answer,
  ChannelInput,
  ChannelName,
  ChannelOutput,
} from '../../app/contract/channels.ts';
import { CONNECTION } from '../words/news.ts';

export type Call = <N extends ChannelName>(
  name: N,
  input: ChannelInput<N>,
) => Promise<Answer<ChannelOutput<N>>>;

type Bridge = { readonly [N in ChannelName]?: (input: ChannelInput<N>) => Promise<unknown> };

declare global {
  interface Window {
    readonly backcure?: Bridge;
    /** What is picked in the shell's menu, by the name of the command. */
    readonly backcureMenu?: { onCommand(take: (command: string) => void): void };
  }
}

const TOKEN_KEY = 'session-token';
/** The token that this tab has told the others; a reload does not tell an old one again. */
const FRESH_KEY = 'session-token-told';
/** Browsers refuse to keep more than 64 KiB alive. */
const KEPT_ALIVE_CHARACTERS = 15_000;

/**
 * The session's token: it arrives in the address's fragment, which is removed at once so that it
 * stays out of the history and of bookmarks; a reload finds it in this tab's storage.
 */
export function readSessionToken(place: Location, store: Storage, past: History): string {
  const fragment = place.hash.slice(1);
  const token = new URLSearchParams(fragment).get('token') ?? (fragment || null);
  if (!token) return store.getItem(TOKEN_KEY) ?? '';
  store.setItem(TOKEN_KEY, token);
  past.replaceState(null, '', place.pathname + place.search);
  return token;
}

/**
 * Pages of one address tell each other the token: after the program was started again, a page that is
 * still open goes on with that of the page that was opened since.
 */
function shareToken(window: Window, token: string, heard: (newer: string) => void): void {
  if (!('BroadcastChannel' in window)) return;
  const channel = new (window as typeof globalThis & Window).BroadcastChannel(TOKEN_KEY);
  channel.onmessage = ({ data }: MessageEvent<unknown>) => {
    if (typeof data === 'string' && data !== '') heard(data);
  };
  if (window.sessionStorage.getItem(FRESH_KEY) !== token) channel.postMessage(token);
  window.sessionStorage.setItem(FRESH_KEY, token);
}

/** Calls through whichever of the two is there. Never throws: a failure is an answer. */
export function connect(window: Window): Call {
  const bridge = window.backcure;
  if (bridge) {
    return (async (name: ChannelName, input: unknown) => {
      const method = bridge[name] as ((input: unknown) => Promise<unknown>) | undefined;
      return method
        ? method(input)
        : { ok: false, code: 'not-here', detail: CONNECTION.noMethod(name) };
    }) as Call;
  }
  let token = readSessionToken(window.location, window.sessionStorage, window.history);
  shareToken(window, token, (newer) => {
    token = newer;
    window.sessionStorage.setItem(TOKEN_KEY, newer);
  });
  return (async (name: ChannelName, input: unknown) => {
    try {
      const body = JSON.stringify(input);
      const response = await window.fetch(`./api/${name}`, {
        method: 'POST',
        headers: { 'content-type': 'application/json', authorization: `Bearer ${token}` },
        body,
        // A page that closes may still say how it was left; browsers keep small bodies alive only.
        keepalive: body.length < KEPT_ALIVE_CHARACTERS,
      });
      if (response.status === 401) {
        return {
          ok: false,
          code: 'unreachable',
          detail: CONNECTION.lost,
        };
      }
      return (await response.json()) as unknown;
    } catch {
      return { ok: false, code: 'unreachable', detail: CONNECTION.gone };
    }
  }) as Call;
}
