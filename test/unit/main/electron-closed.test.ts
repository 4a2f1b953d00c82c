import { describe, expect, it } from 'vitest';
import { isOurPage, PLANNER_URL } from '../../../main/electron/address.ts';
import { mayBeAsked, sealContents, sealSession } from '../../../main/electron/deny.ts';
import { isOurSender, registerChannels } from '../../../main/electron/messages.ts';
import { answerRequest, PRIVILEGES } from '../../../main/electron/scheme.ts';
import { readPage } from '../../../main/page/files.ts';
import { CONTENT_POLICY } from '../../../main/page/policy.ts';
import { builtPage, scratchSession } from './fixtures.ts';

/** Records what was set on a stand-in of one of Electron's objects, by method name. */
function standIn() {
  const set: Record<string, (...args: never[]) => unknown> = {};
  const take =
    (name: string) =>
    (...args: unknown[]) => {
      const [key, listener] = args.length > 1 ? args : [name, args[0]];
      set[key as string] = listener as never;
    };
  const target = new Proxy({} as Record<string, unknown>, {
    get: (_target, name) =>
      name === 'webRequest' ? { onBeforeRequest: take('onBeforeRequest') } : take(String(name)),
  });
  return { set, target };
}

const FOREIGN = [
  'https://evil.example/',
  'http://127.0.0.1/',
  'file:///etc/passwd',
  'data:text/html,<p>',
  'javascript:alert(1)',
  'about:blank',
  'blob:backcure://planner/1',
  'backcure://evil/index.html',
  'backcure://planner.evil/index.html',
  'backcure://planner@evil/index.html',
  'backcure://user@planner/index.html',
  'backcure://planner:99/index.html',
  'backcure://sheets/1',
  'backcured://planner/index.html',
  'not an address',
  '',
];

describe('a page of ours', () => {
  it('is on the scheme and host of the planner', () => {
    expect(isOurPage(PLANNER_URL)).toBe(true);
    expect(isOurPage('backcure://planner/index.html#cures')).toBe(true);
  });

  it.each(FOREIGN)('is not "%s"', (address) => {
    expect(isOurPage(address)).toBe(false);
  });
});

describe('a session', () => {
  const sealed = () => {
    const { set, target } = standIn();
    sealSession(target as never, true);
    return set as Record<string, (...args: unknown[]) => unknown>;
  };

  it('refuses every permission, device, shared screen and download', () => {
    const set = sealed();
    const given: unknown[] = [];
    set['setPermissionRequestHandler']!(null, 'clipboard-read', (leave: boolean) =>
      given.push(leave),
    );
    expect(given).toEqual([false]);
    expect(set['setPermissionCheckHandler']!(null, 'notifications')).toBe(false);
    expect(set['setDevicePermissionHandler']!({})).toBe(false);
    set['setDisplayMediaRequestHandler']!({}, (streams: unknown) => given.push(streams));
    expect(given[1]).toEqual({});
    let prevented = false;
    set['will-download']!({ preventDefault: () => (prevented = true) });
    expect(prevented).toBe(true);
  });

  it('lets nothing be asked for outside the scheme', () => {
    const ask = (url: string) => {
      let answer: unknown;
      sealed()['onBeforeRequest']!({ url }, (decision: unknown) => (answer = decision));
      return answer;
    };
    for (const scheme of ['http', 'https', 'ws', 'wss', 'ftp', 'file', 'chrome', 'devtools']) {
      expect(ask(`${scheme}://host/x`)).toEqual({ cancel: true });
    }
    expect(ask(PLANNER_URL)).toEqual({ cancel: false });
    expect(mayBeAsked('devtools://devtools/bundled/x.js', false)).toBe(true);
    expect(mayBeAsked('nonsense', false)).toBe(false);
  });
});

describe('a window', () => {
  const sealed = () => {
    const { set, target } = standIn();
    sealContents(target as never);
    return set as Record<string, (...args: unknown[]) => unknown>;
  };

  it.each(['will-navigate', 'will-frame-navigate', 'will-redirect'])(
    'stops %s to everywhere else',
    (name) => {
      const stopped = (url: string) => {
        let prevented = false;
        sealed()[name]!({ url, preventDefault: () => (prevented = true) });
        return prevented;
      };
      expect(FOREIGN.filter((url) => !stopped(url))).toEqual([]);
      expect(stopped(PLANNER_URL)).toBe(false);
    },
  );

  it('opens no other window and takes in no web view', () => {
    expect(sealed()['setWindowOpenHandler']!({ url: PLANNER_URL })).toEqual({ action: 'deny' });
    let prevented = false;
    sealed()['will-attach-webview']!({ preventDefault: () => (prevented = true) });
    expect(prevented).toBe(true);
  });
});

describe('a message', () => {
  const frame = { url: PLANNER_URL };
  const sender = { mainFrame: frame };
  const ours = (contents: unknown) => contents === sender;
  const event = (more: object) => ({ sender, senderFrame: frame, ...more }) as never;

  it('is heard from the top frame of our window on our page', () => {
    expect(isOurSender(event({}), ours)).toBe(true);
  });

  it.each([
    ['a frame that has gone', { senderFrame: null }],
    ['a frame within the page', { senderFrame: { url: PLANNER_URL } }],
    ['another window', { sender: { mainFrame: frame } }],
  ])('is not heard from %s', (_what, more) => {
    expect(isOurSender(event(more), ours)).toBe(false);
  });

  it('is not heard from a page of elsewhere in our window', () => {
    const strange = { url: 'https://evil.example/' };
    const moved = { mainFrame: strange };
    expect(isOurSender({ sender: moved, senderFrame: strange } as never, () => true)).toBe(false);
  });

  it('of a stranger is refused before the handler sees it', async () => {
    const session = scratchSession();
    const heard: Record<string, (event: never, input: unknown) => Promise<unknown>> = {};
    const ipcMain = { handle: (name: string, listener: never) => void (heard[name] = listener) };
    registerChannels(ipcMain, session, ours);
    const remove = heard['build-remove']!;
    expect(await remove(event({ senderFrame: null }), { id: 'arch' })).toMatchObject({
      ok: false,
      code: 'refused',
    });
    expect(await remove(event({}), { id: 'arch', more: 1 })).toMatchObject({ code: 'bad-message' });
    const given = await remove(event({}), { id: 'arch' });
    expect(given).toMatchObject({ ok: true, value: [{ id: 'buoy' }] });
    expect(session.lines).toHaveLength(1);
  });
});

describe('the scheme', () => {
  const sheets = new Map([['/1', '<style>p{}</style><p>Week</p>']]);
  const get = (url: string, method = 'GET') =>
    answerRequest(readPage(builtPage()), sheets, { url, method });

  it('has no leave to step round the content policy', () => {
    expect(PRIVILEGES).toEqual({ standard: true, secure: true, supportFetchAPI: true });
  });

  it('serves the built page under the content policy', async () => {
    const response = get(PLANNER_URL);
    expect(response.status).toBe(200);
    expect(response.headers.get('content-security-policy')).toBe(CONTENT_POLICY);
    expect(response.headers.get('content-type')).toBe('text/html; charset=utf-8');
    expect(await response.text()).toContain('<title>Planner</title>');
  });

  it('serves a waiting sheet without script, file or network', async () => {
    const response = get('backcure://sheets/1');
    const policy = response.headers.get('content-security-policy');
    expect(policy).toContain("default-src 'none'");
    expect(policy).not.toContain('script-src');
    expect(policy).not.toContain("'self'");
    expect(await response.text()).toContain('Week');
  });

  it.each([
    'backcure://planner/../package.json',
    'backcure://planner/%2e%2e/package.json',
    'backcure://planner/..%2fpackage.json',
    'backcure://planner/missing.js',
    'backcure://sheets/2',
    'backcure://sheets/index.html',
    'backcure://other/index.html',
    'https://planner/index.html',
  ])('answers %s with 404', (url) => {
    expect(get(url).status).toBe(404);
  });

  it('answers nothing but GET', () => {
    for (const method of ['POST', 'PUT', 'HEAD']) expect(get(PLANNER_URL, method).status).toBe(404);
  });
});
