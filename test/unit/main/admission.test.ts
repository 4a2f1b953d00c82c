/** How a page is admitted, how another process is refused, and when the host ends. */
import { chmodSync, existsSync, mkdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { connect, type Socket } from 'node:net';
import { join } from 'node:path';
import { describe, expect, it, onTestFinished, vi } from 'vitest';
import { createAdmission, MOST_WAITING } from '../../../main/host/admission.ts';
import { IDLE_MS, mayEnd } from '../../../main/host/idle.ts';
import { listen, MOST_SOCKETS } from '../../../main/host/server.ts';
import { startHost, type Host, type HostOptions } from '../../../main/host/start.ts';
import { builtPage, LIBRARY, NOW, scratchFolder, scratchSession, tell } from './fixtures.ts';

async function start(more: Partial<HostOptions> = {}): Promise<Host> {
  const host = await startHost({
    dataDir: scratchFolder(),
    now: NOW,
    pageDir: builtPage(),
    shipped: LIBRARY,
    samples: [],
    report: () => {},
    ...more,
  });
  onTestFinished(() => host.close());
  return host;
}

const originOf = (host: Host): string => new URL(host.url).origin;
const follow = (host: Host, path: string) =>
  fetch(`${originOf(host)}${path}`, { redirect: 'manual' });

describe('a link that the program hands out', () => {
  it('leads to the page with the token once, and is dead from then on', async () => {
    const host = await start();
    const path = host.linkPath();
    expect(path).not.toContain(host.token);
    const first = await follow(host, path);
    expect(first.status).toBe(303);
    expect(first.headers.get('location')).toBe(`/#token=${host.token}`);
    expect(first.headers.get('cache-control')).toBe('no-store');
    const second = await follow(host, path);
    expect(second.status).toBe(410);
    expect(await second.text()).toContain('used before');
  });

  it('is nothing to a page of another site, to a guess, or to another verb', async () => {
    const host = await start();
    const path = host.linkPath();
    const far = { 'sec-fetch-site': 'cross-site' };
    const foreign = await fetch(`${originOf(host)}${path}`, { headers: far, redirect: 'manual' });
    expect(foreign.status).toBe(403);
    expect((await follow(host, '/open?once=')).status).toBe(410);
    expect((await follow(host, '/open?once=guess')).status).toBe(410);
    expect((await fetch(`${originOf(host)}${path}`, { method: 'POST' })).status).toBe(405);
    expect((await follow(host, path)).status).toBe(303);
  });

  it.skipIf(process.platform !== 'linux')(
    'is all that the browser is given: the token is in no argument and no environment',
    async () => {
      const folder = scratchFolder();
      const [told, bin] = [join(folder, 'told'), join(folder, 'bin')];
      mkdirSync(bin);
      writeFileSync(
        join(bin, 'xdg-open'),
        `#!/bin/sh\n{ printf '%s\\n' "$@"; env; cat /proc/$PPID/cmdline /proc/$PPID/environ; } > ${told}.part\nmv ${told}.part ${told}\n`,
      );
      chmodSync(join(bin, 'xdg-open'), 0o755);
      vi.stubEnv('PATH', `${bin}:${process.env['PATH']}`);
      vi.stubEnv('DISPLAY', ':0');
      onTestFinished(() => void vi.unstubAllEnvs());
      const host = await start({ openBrowser: true });
      await vi.waitFor(() => expect(existsSync(told)).toBe(true), { timeout: 45_000 });
      const all = readFileSync(told, 'utf8');
      expect(all).not.toContain(host.token);
      const link = new URL(all.split('\n')[0]!);
      expect(link.origin).toBe(originOf(host));
      expect((await follow(host, link.pathname + link.search)).status).toBe(303);
    },
  );
});

describe('wrong guesses', () => {
  it('are answered later each time, up to two seconds, and forgotten after a minute', () => {
    let now = 0;
    const admission = createAdmission(() => now);
    const waits: (number | null)[] = [];
    for (let i = 0; i < 10; i += 1) {
      waits.push(admission.wrongGuess());
      admission.answered();
    }
    expect(waits).toEqual([10, 20, 40, 80, 160, 320, 640, 1280, 2000, 2000]);
    now = 61_000;
    expect(admission.wrongGuess()).toBe(10);
  });

  it('that wait in crowds get no answer at all', () => {
    const admission = createAdmission(() => 0);
    for (let i = 0; i < MOST_WAITING; i += 1) expect(admission.wrongGuess()).not.toBeNull();
    expect(admission.wrongGuess()).toBeNull();
    admission.answered();
    expect(admission.wrongGuess()).not.toBeNull();
  });

  it('hold nobody up who has the token', async () => {
    const host = await start();
    const call = (token: string) =>
      fetch(`${originOf(host)}/api/build-list`, {
        method: 'POST',
        headers: { authorization: `Bearer ${token}`, 'content-type': 'application/json' },
        body: '{}',
      });
    const order: string[] = [];
    const wrong = Array.from({ length: 8 }, () => call('wrong').then(() => order.push('wrong')));
    await call(host.token).then(({ status }) => order.push(`right ${status}`));
    const before = order.indexOf('right 200');
    await Promise.all(wrong);
    expect(before).toBeGreaterThanOrEqual(0);
    expect(before).toBeLessThan(8);
  });
});

describe('a refusal for want of the token', () => {
  /** A server on which a wrong guess waits for longer than any test. */
  async function slow(
    waitMs: number | null = 600_000,
  ): Promise<{ readonly here: string; readonly token: string }> {
    const admission = createAdmission();
    const { server, here } = await listen({
      session: scratchSession({ samples: [] }),
      page: new Map(),
      admission: { ...admission, wrongGuess: () => waitMs },
      port: 0,
    });
    onTestFinished(() => {
      server.closeAllConnections();
      server.close();
    });
    return { here, token: admission.token };
  }
  const call = (here: string, token: string) =>
    fetch(`http://${here}/api/build-list`, {
      method: 'POST',
      headers: { authorization: `Bearer ${token}`, 'content-type': 'application/json' },
      body: '{}',
    });

  it.each<[string, (here: string) => Promise<unknown>]>([
    ['with a wrong token', (here) => call(here, 'wrong')],
    ['by a link that is no good', (here) => fetch(`http://${here}/open?once=guess`)],
  ])('%s is held back while the page is answered', async (_what, guess) => {
    const { here, token } = await slow();
    const order: string[] = [];
    const wrong = guess(here).then(
      () => order.push('guess'),
      () => {},
    );
    for (let i = 0; i < 3; i += 1) order.push(String((await call(here, token)).status));
    expect(order).toEqual(['200', '200', '200']);
    void wrong;
  });

  it('in a crowd is cut off without a word', async () => {
    const { here, token } = await slow(null);
    await expect(call(here, 'wrong')).rejects.toThrow();
    expect((await call(here, token)).status).toBe(200);
  });
});

describe('connections', () => {
  const opened = (port: number): Promise<Socket> =>
    new Promise((resolve, reject) => {
      const socket = connect(port, '127.0.0.1', () => resolve(socket));
      socket.on('error', reject);
      onTestFinished(() => void socket.destroy());
    });
  const closed = (socket: Socket): Promise<void> =>
    new Promise((resolve) => void socket.on('close', () => resolve()).resume());

  it('beyond two hundred are closed, and the others go on', async () => {
    // Nobody is closed for being slow here: it is the number that counts.
    const { server, here } = await listen({
      session: scratchSession({ samples: [] }),
      page: new Map(),
      admission: createAdmission(),
      port: 0,
      headersMs: 60_000,
    });
    onTestFinished(() => void server.close());
    const port = Number(here.split(':')[1]);
    const sockets = await Promise.all(Array.from({ length: MOST_SOCKETS - 1 }, () => opened(port)));
    expect((await fetch(`http://${here}/`)).status).toBe(404);
    sockets.push(...(await Promise.all([opened(port), opened(port), opened(port)])));
    const over = Promise.race(sockets.slice(-3).map(closed)).then(() => 'closed');
    const late = new Promise((resolve) => setTimeout(() => resolve('late'), 20_000));
    expect(await Promise.race([over, late])).toBe('closed');
    expect(sockets[0]!.destroyed).toBe(false);
  });

  it.each([
    ['say nothing', ''],
    ['stop in the middle of a line', 'POST /api/build-li'],
    ['never end their headers', 'GET / HTTP/1.1\r\nHost: x\r\n'],
  ])('that %s are closed', async (_what, bytes) => {
    const { server, here } = await listen({
      session: scratchSession({ samples: [] }),
      page: new Map(),
      admission: createAdmission(),
      port: 0,
      headersMs: 250,
    });
    onTestFinished(() => void server.close());
    const socket = await opened(Number(here.split(':')[1]));
    socket.write(bytes);
    // Far longer than it is given, and shorter than Node by itself takes to look.
    const late = new Promise((resolve) => setTimeout(() => resolve('late'), 15_000));
    expect(await Promise.race([closed(socket).then(() => 'closed'), late])).toBe('closed');
  });
});

it('a connection has ten seconds to say what it wants', async () => {
  const { server } = await listen({
    session: scratchSession({ samples: [] }),
    page: new Map(),
    admission: createAdmission(),
    port: 0,
  });
  onTestFinished(() => void server.close());
  expect(server.headersTimeout).toBe(10_000);
});

describe('the end of a host', () => {
  /** A host whose hours can be leapt over; `ended` counts how often it was told to end. */
  async function leaping() {
    vi.useFakeTimers({ toFake: ['setInterval', 'clearInterval', 'Date'] });
    onTestFinished(() => void vi.useRealTimers());
    const ended = vi.fn();
    const host = await start({ ended });
    const call = (channel: string, input: unknown) =>
      fetch(`${originOf(host)}/api/${channel}`, {
        method: 'POST',
        headers: { authorization: `Bearer ${host.token}`, 'content-type': 'application/json' },
        body: JSON.stringify(input),
      });
    return { ended, call, wait: (ms: number) => void vi.advanceTimersByTime(ms) };
  }

  it('is told once nobody has called for twelve hours, and not while somebody does', async () => {
    const { ended, call, wait } = await leaping();
    wait(IDLE_MS - 60_000);
    await call('page-here', {});
    wait(IDLE_MS - 60_000);
    expect(ended).not.toHaveBeenCalled();
    wait(120_000);
    expect(ended).toHaveBeenCalled();
  });

  it('is not told while a page has said that a cure clock runs', async () => {
    const { ended, call, wait } = await leaping();
    await call('keep-awake', { on: true });
    wait(5 * IDLE_MS);
    expect(ended).not.toHaveBeenCalled();
    await call('keep-awake', { on: false });
    wait(IDLE_MS + 60_000);
    expect(ended).toHaveBeenCalled();
  });

  it('is not told while an alarm stands', async () => {
    const { ended, call, wait } = await leaping();
    const at = new Date(Date.now() + 3 * IDLE_MS).toISOString();
    await call('alarms-set', { alarms: [{ id: 'a', at, title: 'Gel', body: 'Look' }] });
    wait(2 * IDLE_MS);
    expect(ended).not.toHaveBeenCalled();
    wait(3 * IDLE_MS);
    expect(ended).toHaveBeenCalled();
  });

  const last = Date.parse('2027-04-19T08:00Z');
  it('comes twelve hours after the last call', () => {
    expect(mayEnd(last + IDLE_MS - 1, last, { awake: false, alarmsMs: [] })).toBe(false);
    expect(mayEnd(last + IDLE_MS, last, { awake: false, alarmsMs: [] })).toBe(true);
  });

  it('waits for an alarm that stands and for a cure whose clock runs', () => {
    const alarm = last + 40 * 3_600_000;
    const floor = { awake: false, alarmsMs: [alarm, last] };
    expect(mayEnd(last + IDLE_MS, last, floor)).toBe(false);
    expect(mayEnd(alarm + IDLE_MS, last, floor)).toBe(true);
    expect(mayEnd(last + 10 * IDLE_MS, last, { awake: true, alarmsMs: [] })).toBe(false);
  });

  it('knows both from the page, whoever calls them out', async () => {
    const floor = { awake: false, alarmsMs: [] as readonly number[] };
    const session = scratchSession({ samples: [], floor });
    const alarm = { id: 'a', at: '2027-04-20T10:00:00.000Z', title: 'Gel', body: 'Look' };
    await tell(session, 'alarms-set', { alarms: [alarm] }).catch(() => {});
    await tell(session, 'keep-awake', { on: true }).catch(() => {});
    expect(floor).toEqual({ awake: true, alarmsMs: [Date.parse(alarm.at)] });
  });
});

it('a host that is started again takes the port of last time, and any when that is taken', async () => {
  const dataDir = scratchFolder();
  const first = await startHost({
    dataDir,
    now: NOW,
    pageDir: null,
    shipped: LIBRARY,
    samples: [],
  });
  await first.close();
  const second = await start({ dataDir });
  expect(originOf(second)).toBe(originOf(first));
  const third = await start({ dataDir });
  expect(originOf(third)).not.toBe(originOf(first));
  expect(statSync(join(dataDir, 'backcure.port')).mode & 0o077).toBe(0);
});
