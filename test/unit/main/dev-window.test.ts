/** The window of `npm run dev` asks its dev server alone, and the built program knows nothing of it. */
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join, resolve } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { devOrigin, devPolicy, mayBeAskedInDev } from '../../../main/electron/devRules.ts';
import { bundleDevWindow } from '../../../main/launch/devWindow.ts';
import { CONTENT_POLICY } from '../../../main/page/policy.ts';
import { projectRoot } from '../../../main/root.ts';

const ORIGIN = 'http://127.0.0.1:5173';
const folder = mkdtempSync(join(tmpdir(), 'backcure-dev-test-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe('a dev server', () => {
  it('is one on this machine with a port of its own', () => {
    expect(devOrigin(`${ORIGIN}/#token`)).toBe(ORIGIN);
  });

  it.each([
    'https://127.0.0.1:5173/',
    'http://127.0.0.1/',
    'http://localhost:5173/',
    'http://evil.example:5173/',
    'http://127.0.0.1.evil.example:5173/',
    'http://me@127.0.0.1:5173/',
    'backcure://planner/index.html',
    '',
  ])('is not "%s"', (address) => {
    expect(devOrigin(address)).toBeNull();
  });

  it('is all that its window may ask, with its socket and what the page makes itself', () => {
    const allowed = ['/', '/api/plan', '/@vite/client'].map((path) => ORIGIN + path);
    for (const url of [...allowed, 'ws://127.0.0.1:5173/', 'blob:x', 'data:text/css,a']) {
      expect([url, mayBeAskedInDev(url, ORIGIN)]).toEqual([url, true]);
    }
    const elsewhere = ['http://127.0.0.1:5174/', 'ws://127.0.0.1:80/', 'https://127.0.0.1:5173/'];
    for (const url of [...elsewhere, 'file:///etc/passwd', 'ftp://127.0.0.1:5173/', 'none']) {
      expect([url, mayBeAskedInDev(url, ORIGIN)]).toEqual([url, false]);
    }
  });

  it('relaxes two lines of the policy and leaves the rest', () => {
    const [before, after] = [CONTENT_POLICY, devPolicy(ORIGIN)].map((text) => text.split('; '));
    expect(after!.filter((line) => !before!.includes(line))).toEqual([
      "style-src 'self' 'unsafe-inline'",
      "connect-src 'self' ws://127.0.0.1:5173",
    ]);
    expect(after).toHaveLength(before!.length);
  });
});

describe('the window', () => {
  it('is bundled into one file that imports Electron and nothing else', async () => {
    const text = readFileSync(await bundleDevWindow(projectRoot(), folder), 'utf8');
    const imports = [...text.matchAll(/from\s*["']([^"']+)["']/g)].map(([, name]) => name);
    expect(imports).toEqual(['electron']);
    expect(text).toContain('Backcure, in development');
  });

  it('is reached from no entry point of the built program', () => {
    const root = projectRoot();
    const config = readFileSync(join(root, 'electron.config.ts'), 'utf8');
    const entries = [...config.matchAll(/here\('(main\/[^']+\.ts)'\)/g)].map(([, file]) => file!);
    expect(entries).toEqual(['main/index.ts', 'main/host/main.ts', 'main/preload.ts']);
    const seen = new Set<string>();
    const visit = (file: string): void => {
      if (seen.has(file)) return;
      seen.add(file);
      for (const [, name] of readFileSync(file, 'utf8').matchAll(/from '(\.[^']+\.ts)'/g)) {
        visit(resolve(dirname(file), name!));
      }
    };
    for (const entry of entries) visit(join(root, entry));
    expect(seen.has(join(root, 'main', 'electron', 'deny.ts'))).toBe(true);
    expect([...seen].filter((file) => /dev(Rules|Window)?\.ts$/.test(file))).toEqual([]);
  });
});
