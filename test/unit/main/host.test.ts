import { mkdirSync, symlinkSync, writeFileSync } from 'node:fs';
import { request as rawRequest, type IncomingHttpHeaders } from 'node:http';
import { connect } from 'node:net';
import { join } from 'node:path';
import { beforeEach, describe, expect, it, onTestFinished } from 'vitest';
import { MAX_BODY_BYTES } from '../../../main/host/server.ts';
import { startHost, type Host } from '../../../main/host/start.ts';
import { buildOf, builtPage, LIBRARY, NOW, SAMPLES, scratchFolder } from './fixtures.ts';

interface Reply {
  readonly status: number;
  readonly headers: IncomingHttpHeaders;
  readonly text: string;
}

let host: Host;
let page: string;

async function start(more: Partial<Parameters<typeof startHost>[0]> = {}): Promise<Host> {
  const started = await startHost({
    dataDir: scratchFolder(),
    now: NOW,
    pageDir: page,
    shipped: LIBRARY,
    samples: SAMPLES,
    report: () => {},
    ...more,
  });
  onTestFinished(() => started.close());
  return started;
}

beforeEach(async () => {
  page = builtPage();
  host = await start();
});

const here = () => new URL(host.url);

/** A request with exactly these headers; paths go out as they are written. */
function send(
  method: string,
  path: string,
  headers: Record<string, string> = {},
  body?: string | Buffer,
): Promise<Reply> {
  return new Promise((resolve, reject) => {
    const { hostname, port } = here();
    const sent = rawRequest({ hostname, port, method, path, headers, agent: false }, (response) => {
      const chunks: Buffer[] = [];
      response.on('data', (chunk: Buffer) => chunks.push(chunk));
      response.on('error', reject);
      response.on('end', () =>
        resolve({
          status: response.statusCode!,
          headers: response.headers,
          text: Buffer.concat(chunks).toString(),
        }),
      );
    });
    sent.on('error', reject);
    sent.end(body);
  });
}

const withToken = (more: Record<string, string> = {}): Record<string, string> => ({
  authorization: `Bearer ${host.token}`,
  'content-type': 'application/json',
  ...more,
});
const post = (channel: string, input: unknown, headers = withToken()) =>
  send('POST', `/api/${channel}`, headers, JSON.stringify(input));
const without = (name: string) => {
  const headers: Record<string, string> = withToken();
  delete headers[name];
  return headers;
};

describe('the address', () => {
  it('is on the loopback, with the token in the fragment, which is never sent', () => {
    expect(host.url).toMatch(/^http:\/\/127\.0\.0\.1:\d+\/#token=[\w-]{43}$/);
  });

  it('has another port and token every time', async () => {
    const second = await start();
    expect(new URL(second.url).port).not.toBe(here().port);
    expect(second.token).not.toBe(host.token);
  });

  it('takes the port that was asked for, and fails when it is taken', async () => {
    await expect(start({ port: Number(here().port) })).rejects.toMatchObject({
      code: 'EADDRINUSE',
    });
  });
});

describe('the channels', () => {
  it('answer a page that holds the token', async () => {
    const reply = await post('session-start', {});
    expect(reply.status).toBe(200);
    expect(JSON.parse(reply.text)).toMatchObject({
      ok: true,
      value: { runtime: 'browser', now: '2027-04-19T06:00:00.000Z', open: { id: 'arch' } },
    });
  });

  it('give failures as values, with status 200', async () => {
    const reply = await post('build-open', { id: 'nothing' });
    expect(reply.status).toBe(200);
    expect(JSON.parse(reply.text)).toMatchObject({ ok: false, code: 'not-found' });
  });

  it("give a second window `stale` and keep the first one's edit", async () => {
    const save = (name: string) =>
      post('build-save', { id: 'arch', expects: 1, label: 'Name', document: buildOf(name) });
    const answers = (await Promise.all([save('One'), save('Two')])).map(({ text }) =>
      JSON.parse(text),
    );
    expect(answers.filter(({ ok }) => ok)).toHaveLength(1);
    expect(answers.find(({ ok }) => !ok)).toMatchObject({ code: 'stale' });
  });

  it('keep letters of every script', async () => {
    const document = buildOf('Größe Ω 翼 🛶');
    await post('build-save', { id: 'arch', expects: 1, label: 'Name', document });
    const reply = await post('build-open', { id: 'arch' });
    expect(JSON.parse(reply.text).value.document.name).toBe('Größe Ω 翼 🛶');
  });
});

describe('without the token', () => {
  it.each([
    ['none', undefined],
    ['an empty one', 'Bearer '],
    ['a wrong one', `Bearer ${'A'.repeat(43)}`],
    ['another scheme', 'Basic YTpi'],
  ])('%s: 401, for known and unknown channels alike', async (_what, authorization) => {
    const headers = { ...without('authorization'), ...(authorization && { authorization }) };
    for (const channel of ['session-start', 'no-such']) {
      const reply = await post(channel, {}, headers);
      expect(reply.status).toBe(401);
      expect(reply.text).not.toContain('Arch');
    }
  });

  it('the token as a query, a cookie or with a letter more is none', async () => {
    const cookie = { ...without('authorization'), cookie: `token=${host.token}` };
    expect((await post('session-start', {}, cookie)).status).toBe(401);
    expect((await post(`session-start?token=${host.token}`, {}, cookie)).status).toBe(401);
    const longer = withToken({ authorization: `Bearer ${host.token}x` });
    expect((await post('session-start', {}, longer)).status).toBe(401);
  });

  it('a plain GET of the page gives no data and no token', async () => {
    const reply = await send('GET', '/');
    expect(reply.status).toBe(200);
    expect(reply.text).toBe('<!doctype html><title>Planner</title>');
    expect(JSON.stringify(reply.headers)).not.toContain(host.token);
    expect(reply.headers['set-cookie']).toBeUndefined();
  });
});

describe('from elsewhere', () => {
  it.each([
    ['https://evil.example'],
    ['http://127.0.0.1'],
    ['http://127.0.0.1:1'],
    ['null'],
    ['http://localhost:PORT'],
    ['https://127.0.0.1:PORT'],
    ['http://127.0.0.1:PORT.evil.example'],
  ])('an Origin of %s is refused with 403, with the token and without', async (origin) => {
    const from = { origin: origin.replace('PORT', here().port) };
    expect((await post('session-start', {}, withToken(from))).status).toBe(403);
    expect((await post('session-start', {}, from)).status).toBe(403);
    expect((await send('GET', '/', from)).status).toBe(403);
  });

  it.each([['evil.example'], ['localhost'], ['127.0.0.1'], ['evil.example:PORT'], ['[::1]:PORT']])(
    'a Host of "%s" is refused with 403, with the token and without',
    async (name) => {
      const to = { host: name.replace('PORT', here().port) };
      expect((await post('session-start', {}, withToken(to))).status).toBe(403);
      expect((await post('session-start', {}, to)).status).toBe(403);
      expect((await send('GET', '/', to)).status).toBe(403);
    },
  );

  it('a call that the browser says is cross-site is refused with 403', async () => {
    for (const site of ['cross-site', 'same-site', 'none']) {
      const reply = await post('session-start', {}, withToken({ 'sec-fetch-site': site }));
      expect(reply.status).toBe(403);
    }
    const own = withToken({ 'sec-fetch-site': 'same-origin', origin: here().origin });
    expect((await post('session-start', {}, own)).status).toBe(200);
  });

  it('a preflight gets no leave', async () => {
    const reply = await send('OPTIONS', '/api/session-start', {
      origin: 'https://evil.example',
      'access-control-request-method': 'POST',
      'access-control-request-headers': 'authorization,content-type',
    });
    expect(reply.status).toBe(403);
    expect(Object.keys(reply.headers).join()).not.toContain('access-control');
  });
});

describe('a message that is none', () => {
  it.each([
    ['text/plain'],
    ['application/x-www-form-urlencoded'],
    ['multipart/form-data; boundary=x'],
    ['application/json; charset=utf-16'],
    ['application/jsonp'],
    [''],
  ])('of type "%s": 415', async (type) => {
    const reply = await post('build-list', {}, withToken({ 'content-type': type }));
    expect(reply.status).toBe(415);
  });

  it('packed: 415', async () => {
    const reply = await post('build-list', {}, withToken({ 'content-encoding': 'gzip' }));
    expect(reply.status).toBe(415);
  });

  it('of no JSON, or of bytes that are no UTF-8: 400', async () => {
    for (const body of ['{', '', Buffer.from([0x22, 0xff, 0x22])]) {
      const reply = await send('POST', '/api/build-list', withToken(), body);
      expect([reply.status, JSON.parse(reply.text).code]).toEqual([400, 'bad-message']);
    }
  });

  it('on an unknown channel: 404, names of the language included', async () => {
    for (const name of ['no-such', 'toString', '__proto__', 'constructor', '', 'build-list/']) {
      expect((await post(name, {})).status).toBe(404);
    }
  });

  it('by another method: 405', async () => {
    for (const method of ['GET', 'PUT', 'DELETE', 'HEAD']) {
      expect((await send(method, '/api/build-list', withToken())).status).toBe(405);
    }
  });

  it('longer than allowed by its header: 413 before a byte is read', async () => {
    const { hostname, port } = here();
    const reply = await new Promise<string>((resolve, reject) => {
      const socket = connect(Number(port), hostname, () =>
        socket.write(
          `POST /api/build-list HTTP/1.1\r\nHost: ${hostname}:${port}\r\n` +
            `Authorization: Bearer ${host.token}\r\nContent-Type: application/json\r\n` +
            `Content-Length: ${MAX_BODY_BYTES + 1}\r\n\r\n`,
        ),
      );
      socket.once('data', (chunk) => {
        resolve(chunk.toString());
        socket.destroy();
      });
      socket.on('error', reject);
    });
    expect(reply).toMatch(/^HTTP\/1\.1 413 /);
  });

  it('longer than allowed, told by nobody: cut off, and the next one is answered', async () => {
    const chunked = withToken({ 'transfer-encoding': 'chunked' });
    const body = Buffer.alloc(MAX_BODY_BYTES + 100_000, 0x20);
    const status = await send('POST', '/api/build-list', chunked, body).then(
      (reply) => reply.status,
      // The host may close before the last byte was taken.
      (error: NodeJS.ErrnoException) => error.code,
    );
    expect([413, 'EPIPE', 'ECONNRESET']).toContain(status);
    expect((await post('build-list', {})).status).toBe(200);
  });
});

describe('the page', () => {
  it.each([
    ['/', 'text/html; charset=utf-8'],
    ['/index.html', 'text/html; charset=utf-8'],
    ['/assets/index.js', 'text/javascript; charset=utf-8'],
    ['/assets/index.css?v=1', 'text/css; charset=utf-8'],
  ])('%s comes as %s under the content policy, kept by nobody', async (path, type) => {
    const { status, headers } = await send('GET', path);
    expect(status).toBe(200);
    expect(headers['content-type']).toBe(type);
    expect(headers['cache-control']).toBe('no-store');
    expect(headers['x-content-type-options']).toBe('nosniff');
    expect(headers['content-security-policy']).toBe(
      "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data: blob:; " +
        "font-src 'self'; connect-src 'self'; worker-src 'self'; base-uri 'none'; " +
        "form-action 'none'; frame-src 'none'; object-src 'none'; frame-ancestors 'none'",
    );
  });

  it('is asked for by GET and HEAD only', async () => {
    expect(await send('HEAD', '/')).toMatchObject({ status: 200, text: '' });
    for (const method of ['POST', 'PUT', 'DELETE']) {
      expect((await send(method, '/', withToken())).status).toBe(405);
    }
  });

  it.each([
    ['/../package.json'],
    ['/assets/../../secret.js'],
    ['/%2e%2e/secret.js'],
    ['/..%2fsecret.js'],
    ['/assets\\..\\..\\secret.js'],
    ['//secret.js'],
    ['/./index.html'],
    ['/index.html/'],
    ['/assets'],
    ['/assets/'],
    ['/assets/index.js%00.html'],
    ['http://evil.example/'],
    ['/backcure.sqlite'],
  ])('%s is on no list: 404', async (path) => {
    expect((await send('GET', path)).status).toBe(404);
  });

  it('leaves out links, hidden files and kinds that a page has no use for', async () => {
    const outside = scratchFolder();
    writeFileSync(join(outside, 'secret.js'), 'secret');
    symlinkSync(join(outside, 'secret.js'), join(page, 'assets', 'link.js'));
    symlinkSync(outside, join(page, 'linked'));
    writeFileSync(join(page, '.hidden.js'), 'secret');
    mkdirSync(join(page, '.git'));
    writeFileSync(join(page, '.git', 'config.js'), 'secret');
    writeFileSync(join(page, 'assets', 'index.js.map'), 'secret');
    await host.close();
    host = await start();
    for (const path of [
      '/assets/link.js',
      '/linked/secret.js',
      '/.hidden.js',
      '/.git/config.js',
      '/assets/index.js.map',
    ]) {
      expect((await send('GET', path)).status).toBe(404);
    }
  });

  it('swapped on disk while the host runs is not served', async () => {
    writeFileSync(join(page, 'index.html'), 'swapped');
    expect((await send('GET', '/')).text).not.toContain('swapped');
  });

  it('that was never built is said so', async () => {
    await expect(start({ pageDir: scratchFolder() })).rejects.toThrow('npm run build');
  });
});

it('closing ends open connections and lets the next host read what was written', async () => {
  const dataDir = scratchFolder();
  host = await start({ dataDir });
  await post('build-save', { id: 'arch', expects: 1, label: 'Name', document: buildOf('Kept') });
  const idle = connect(Number(here().port), '127.0.0.1');
  await new Promise((resolve) => idle.once('connect', resolve));
  await host.close();
  host = await start({ dataDir });
  const reply = await post('build-open', { id: 'arch' });
  expect(JSON.parse(reply.text).value).toMatchObject({ revision: 2, document: { name: 'Kept' } });
});

it('without a page answers the channels alone, for a development server before it', async () => {
  host = await start({ pageDir: null });
  expect((await send('GET', '/')).status).toBe(404);
  const reply = await send('POST', '/api/build-list', withToken(), '{}');
  expect(reply.status).toBe(200);
  expect(JSON.parse(reply.text)).toMatchObject({ ok: true });
});
