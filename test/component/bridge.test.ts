import { describe, expect, it } from 'vitest';
import { connect, readSessionToken } from '../../renderer/state/bridge.ts';

const store = () => {
  const kept = new Map<string, string>();
  return {
    getItem: (key: string) => kept.get(key) ?? null,
    setItem: (key: string, value: string) => void kept.set(key, value),
  } as unknown as Storage;
};

describe('the session token', () => {
  it('is taken out of the address and found again after a reload', () => {
    const kept = store();
    let shown = '';
    const past = { replaceState: (_state: unknown, _title: string, url: string) => (shown = url) };
    const place = { hash: '#token=abc-1', pathname: '/', search: '' } as Location;
    expect(readSessionToken(place, kept, past as unknown as History)).toBe('abc-1');
    expect(shown).toBe('/');
    expect(readSessionToken({ ...place, hash: '' }, kept, past as unknown as History)).toBe(
      'abc-1',
    );
  });
});

describe('a call', () => {
  const page = (fetch: unknown, backcure?: unknown) =>
    ({
      location: { hash: '#token=t', pathname: '/', search: '' },
      sessionStorage: store(),
      history: { replaceState: () => undefined },
      fetch,
      backcure,
    }) as unknown as Window;

  it('carries the token to the host', async () => {
    let asked: { url: string; init: RequestInit } | null = null;
    const call = connect(
      page(async (url: string, init: RequestInit) => {
        asked = { url, init };
        return new Response('{"ok":true,"value":[]}');
      }),
    );
    expect(await call('build-list', {})).toEqual({ ok: true, value: [] });
    expect(asked!.url).toBe('./api/build-list');
    expect(asked!.init.headers).toMatchObject({ authorization: 'Bearer t' });
  });

  it('that fails is an answer in words, never a throw', async () => {
    const gone = connect(page(() => Promise.reject(new TypeError('refused'))));
    expect(await gone('build-list', {})).toMatchObject({ ok: false, code: 'unreachable' });
    const closed = connect(page(async () => new Response('{}', { status: 401 })));
    expect(await closed('build-list', {})).toMatchObject({ ok: false, code: 'unreachable' });
    const shell = connect(page(null, {}));
    expect(await shell('build-list', {})).toMatchObject({ ok: false, code: 'not-here' });
  });
});

describe('a page that is open when the program is started again', () => {
  it('says how to go on, and goes on with the token of the page that was opened since', async () => {
    const channels: { onmessage: ((event: { data: unknown }) => void) | null }[] = [];
    class Channel {
      onmessage: ((event: { data: unknown }) => void) | null = null;
      constructor() {
        channels.push(this);
      }
      postMessage(data: unknown): void {
        for (const other of channels) if (other !== this) other.onmessage?.({ data });
      }
    }
    let good = 'old';
    const fetch = async (_url: string, init: RequestInit) => {
      const { authorization } = init.headers as Record<string, string>;
      return new Response('{"ok":true,"value":[]}', {
        status: authorization === `Bearer ${good}` ? 200 : 401,
      });
    };
    const page = (token: string) =>
      ({
        location: { hash: `#token=${token}`, pathname: '/', search: '' },
        sessionStorage: store(),
        history: { replaceState: () => undefined },
        fetch,
        BroadcastChannel: Channel,
      }) as unknown as Window;
    const open = connect(page('old'));
    expect(await open('build-list', {})).toMatchObject({ ok: true });
    good = 'new';
    const lost = await open('build-list', {});
    expect(lost).toMatchObject({ ok: false, code: 'unreachable' });
    expect(lost.ok ? '' : lost.detail).toContain('open the address that the program printed');
    connect(page('new'));
    expect(await open('build-list', {})).toMatchObject({ ok: true });
  });
});
