/** The one way to main: the preload's methods in Electron, the loopback host's POST otherwise. */
import type { Answer, ChannelInput, ChannelName, ChannelOutput } from '../app/contract/channels.ts';

export type Call = <N extends ChannelName>(
  name: N,
  input: ChannelInput<N>,
) => Promise<Answer<ChannelOutput<N>>>;

type Bridge = { readonly [N in ChannelName]?: (input: ChannelInput<N>) => Promise<unknown> };

declare global {
  interface Window {
    readonly backcure?: Bridge;
  }
}

const TOKEN_KEY = 'session-token';
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

const HOST_GONE = 'The program behind this page does not answer. Start it again.';

/** Calls through whichever of the two is there. Never throws: a failure is an answer. */
export function connect(window: Window): Call {
  const bridge = window.backcure;
  if (bridge) {
    return (async (name: ChannelName, input: unknown) => {
      const method = bridge[name] as ((input: unknown) => Promise<unknown>) | undefined;
      return method
        ? method(input)
        : { ok: false, code: 'not-here', detail: `There is no ${name} here.` };
    }) as Call;
  }
  const token = readSessionToken(window.location, window.sessionStorage, window.history);
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
          detail: 'This page has lost its session. Open the address that the program printed.',
        };
      }
      return (await response.json()) as unknown;
    } catch {
      return { ok: false, code: 'unreachable', detail: HOST_GONE };
    }
  }) as Call;
}
