/** A host killed outright: after a new start everything is as it was left, undo included. */
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { launchChromium } from '../../main/pdf/print.ts';
import { spawnHost, type HostProcess } from '../browser/host.ts';
import { DEFAULT_NOW, PLANNER_READY } from '../browser/planner.ts';

const NEW_NAME = 'Renamed before the power went';
let browser: Browser;
let dataDir: string;
let host: HostProcess | null = null;

beforeAll(async () => {
  browser = await launchChromium();
  dataDir = await mkdtemp(join(tmpdir(), 'backcure-killed-'));
});
afterAll(async () => {
  await browser.close();
  await host?.stop();
  await rm(dataDir, { recursive: true, force: true });
});

async function open() {
  host = await spawnHost({ dataDir, now: DEFAULT_NOW });
  const page = await browser.newPage();
  await page.goto(host.url);
  await page.waitForSelector(PLANNER_READY);
  return page;
}

it('loses nothing', async () => {
  const before = await open();
  const field = before.getByLabel('Build', { exact: true });
  const oldName = await field.inputValue();
  await field.fill(NEW_NAME);
  await field.blur();
  await before.getByText('Saved', { exact: false }).first().waitFor();
  await expect
    .poll(() => before.getByRole('button', { name: /Undo/ }).isEnabled(), { timeout: 10_000 })
    .toBe(true);
  await host!.kill();
  await before.close();

  const after = await open();
  const again = after.getByLabel('Build', { exact: true });
  expect(await again.inputValue()).toBe(NEW_NAME);
  await after.getByRole('button', { name: /Undo/ }).click();
  await expect.poll(() => again.inputValue()).toBe(oldName);
});
