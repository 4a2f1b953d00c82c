/** `npm start` until the planner can be used, with out/ already built. */
import { spawn } from 'node:child_process';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Readable } from 'node:stream';
import type { Browser } from 'playwright-core';
import { launchChromium } from '../../main/pdf/print.ts';
import { projectRoot } from '../../main/root.ts';
import { DEFAULT_NOW, PLANNER_READY } from '../browser/planner.ts';
import type { Suite } from './suite.ts';

export async function bench(suite: Suite): Promise<void> {
  const browser = await launchChromium();
  const dataDir = await mkdtemp(join(tmpdir(), 'backcure-start-'));
  try {
    // The first, uncounted run builds where that is due and seeds the store.
    await suite.measure('start-to-usable', { runs: 7, warmUp: 1, targetMs: 3000 }, () =>
      startOnce(browser, dataDir),
    );
  } finally {
    await browser.close();
    await rm(dataDir, { recursive: true, force: true });
  }
}

/** Milliseconds from the command to a planner that takes input, in a browser that runs already. */
async function startOnce(browser: Browser, dataDir: string): Promise<number> {
  const env = { ...process.env };
  delete env['DISPLAY'];
  delete env['WAYLAND_DISPLAY'];
  const began = performance.now();
  const child = spawn(
    'npm',
    ['start', '--silent', '--', '--browser', '--data', dataDir, '--now', DEFAULT_NOW],
    { cwd: projectRoot(), env, detached: true, stdio: ['ignore', 'pipe', 'inherit'] },
  );
  const ended = new Promise((done) => child.once('exit', done));
  const page = await browser.newPage();
  try {
    await page.goto(await addressIn(child.stdout));
    await page.waitForSelector(PLANNER_READY);
    return performance.now() - began;
  } finally {
    await page.close();
    // npm, its shell and the host are one process group.
    if (child.exitCode === null) process.kill(-child.pid!, 'SIGTERM');
    await ended;
  }
}

/** The pipe stays open after the address: a host whose output nobody takes would end. */
function addressIn(stdout: Readable): Promise<string> {
  return new Promise((found, failed) => {
    let printed = '';
    stdout.on('data', (chunk: Buffer) => {
      printed += chunk.toString();
      const match = /http:\/\/127\.0\.0\.1:\d+\/\S+/.exec(printed);
      if (match) found(match[0]);
    });
    stdout.on('end', () => failed(new Error(`npm start ended without an address: ${printed}`)));
  });
}
