import { existsSync, mkdirSync, readdirSync, readFileSync } from 'node:fs';
import type { ServerResponse } from 'node:http';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { describe, expect, it, onTestFinished, vi } from 'vitest';
import { electronBinary } from '../../../main/launch/binary.ts';
import { fetchElectron, type FetchProgress } from '../../../main/launch/fetch.ts';
import { progressLine, progressText } from '../../../main/launch/progress.ts';
import { scratchFolder } from './fixtures.ts';
import { ARCHIVE, expectArchive, mirror, projectWithoutElectron } from './mirror.ts';

const STALL_MS = 4_000;

const { version } = JSON.parse(readFileSync('node_modules/electron/package.json', 'utf8')) as {
  version: string;
};
const NAME = `electron-v${version}-linux-x64.zip`;

/** Fetches from a mirror into a project of its own. */
async function fetchFrom(address: string) {
  const root = projectWithoutElectron();
  expectArchive(root, NAME);
  const seen: FetchProgress[] = [];
  const env = {
    ...process.env,
    ELECTRON_SKIP_BINARY_DOWNLOAD: '',
    ELECTRON_INSTALL_PLATFORM: 'linux',
    ELECTRON_INSTALL_ARCH: 'x64',
    ELECTRON_MIRROR: address,
    npm_config_electron_mirror: address,
    electron_config_cache: scratchFolder(),
  };
  // A folder for what is half made that no other process has.
  const half = scratchFolder();
  vi.stubEnv('TMPDIR', half);
  onTestFinished(() => void vi.unstubAllEnvs());
  const outcome = await fetchElectron({
    root,
    env,
    stallMs: STALL_MS,
    lookEveryMs: 50,
    onProgress: (progress) => seen.push(progress),
  });
  const left = readdirSync(half);
  return { root, outcome, seen, left, electron: join(root, 'node_modules', 'electron') };
}

describe("the fetch of Electron's program file", () => {
  it('ends at once where the server refuses', async () => {
    const address = await mirror((response) => response.writeHead(404).end('no'));
    const { outcome, root, left } = await fetchFrom(address);
    expect(outcome).toBe('refused');
    expect(electronBinary(root)).toBeNull();
    expect(left).toEqual([]);
  });

  it('ends at once where nobody answers', async () => {
    const { outcome } = await fetchFrom('http://127.0.0.1:9/');
    expect(outcome).toBe('refused');
  });

  it('goes on for as long as bytes come, however slowly, and tells how many', async () => {
    const parts = 12;
    const address = await mirror((response) => void send(response));
    async function send(response: ServerResponse): Promise<void> {
      response.writeHead(200, { 'content-length': ARCHIVE.length });
      const size = Math.ceil(ARCHIVE.length / parts);
      for (let i = 0; i < parts; i += 1) {
        response.write(ARCHIVE.subarray(i * size, (i + 1) * size));
        // All parts together take longer than a fetch may stand still.
        await pause(STALL_MS / 9);
      }
      response.end();
    }
    const { outcome, root, seen, left } = await fetchFrom(address);
    expect(outcome).toBe('fetched');
    expect(readFileSync(electronBinary(root)!, 'utf8')).toBe('a program file that is none');
    const bytes = seen.map((progress) => progress.bytes);
    expect(bytes).toEqual([...bytes].sort((a, b) => a - b));
    expect(new Set(bytes).size).toBeGreaterThan(parts / 2);
    expect(seen.at(-1)).toEqual({ bytes: ARCHIVE.length, totalBytes: ARCHIVE.length });
    expect(left).toEqual([]);
  });

  it('tells the bytes alone where the server announces no length', async () => {
    const address = await mirror((response) => {
      response.writeHead(200);
      response.write(ARCHIVE.subarray(0, 200_000));
      setTimeout(() => response.end(ARCHIVE.subarray(200_000)), 500);
    });
    const { outcome, seen } = await fetchFrom(address);
    expect(outcome).toBe('fetched');
    expect(seen.length).toBeGreaterThan(1);
    expect(seen.every((progress) => progress.totalBytes === null)).toBe(true);
  });

  it('that stalls is ended, and nothing of it is left', async () => {
    let closed = false;
    const address = await mirror((response) => {
      response.writeHead(200, { 'content-length': ARCHIVE.length });
      response.write(ARCHIVE.subarray(0, 100_000));
      response.on('close', () => (closed = true));
    });
    const { outcome, root, seen, left, electron } = await fetchFrom(address);
    expect(outcome).toBe('stalled');
    expect(seen.at(-1)!.bytes).toBe(100_000);
    expect(electronBinary(root)).toBeNull();
    expect(existsSync(join(electron, 'dist'))).toBe(false);
    expect(left).toEqual([]);
    await expect.poll(() => closed).toBe(true);
  });

  it('of another file than the package expects is refused, and nothing of it is left', async () => {
    const address = await mirror((response) => response.end(Buffer.alloc(50_000, 'another')));
    const { outcome, electron, left } = await fetchFrom(address);
    expect(outcome).toBe('refused');
    expect(existsSync(join(electron, 'dist'))).toBe(false);
    expect(left).toEqual([]);
  });

  it('removes the half of an earlier one, unpacked without its end', async () => {
    const root = projectWithoutElectron();
    const dist = join(root, 'node_modules', 'electron', 'dist');
    mkdirSync(dist);
    const env = { ...process.env, ELECTRON_MIRROR: 'http://127.0.0.1:9/' };
    await fetchElectron({ root, env: { ...env, ELECTRON_SKIP_BINARY_DOWNLOAD: '' } });
    expect(existsSync(dist)).toBe(false);
  });

  it('is not tried where the machine asks for none', async () => {
    const root = projectWithoutElectron();
    const env = { ...process.env, ELECTRON_SKIP_BINARY_DOWNLOAD: '1' };
    expect(await fetchElectron({ root, env, onProgress: () => expect.unreachable() })).toBe(
      'refused',
    );
  });
});

describe('the words of the progress', () => {
  it('give bytes, and the share where it is known', () => {
    expect(progressText({ bytes: 12_440_000, totalBytes: 118_000_000 })).toBe(
      '12.4 MB of 118.0 MB (10 %)',
    );
    expect(progressText({ bytes: 12_440_000, totalBytes: null })).toBe('12.4 MB so far');
  });

  const shown = (isTTY: boolean): string => {
    let text = '';
    const line = progressLine('Fetching', { isTTY, write: (more: string) => (text += more) });
    for (let mb = 0; mb <= 100; mb += 1) line.show({ bytes: mb * 1e6, totalBytes: 100e6 });
    line.end();
    return text;
  };

  it('stay on one line of a terminal', () => {
    expect(shown(true).split('\n')).toHaveLength(2);
    expect(shown(true)).toContain('\rFetching: 37.0 MB of 100.0 MB (37 %)');
  });

  it('take a line for every tenth in a log', () => {
    const lines = shown(false).trimEnd().split('\n');
    expect(lines).toHaveLength(11);
    expect(lines.every((line) => !line.includes('\r'))).toBe(true);
  });
});
