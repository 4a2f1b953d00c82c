/** Nothing is lost: reload, a killed process, a second window. */
import { existsSync } from 'node:fs';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, Locator, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { launchChromium } from '../../main/pdf/print.ts';
import { FILE_NAME } from '../../main/store/open.ts';
import { spawnHost, type HostProcess } from '../browser/host.ts';
import { PATIENCE_MS } from '../browser/planner.ts';
import { answer, eventually, panel, saved, thoughtThrough, type } from './hands.ts';

const NOW = '2027-04-12T06:00Z';
let dataDir: string;
let browser: Browser;
let host: HostProcess;
beforeAll(async () => {
  dataDir = await mkdtemp(join(tmpdir(), 'backcure-kept-'));
  browser = await launchChromium();
  host = await spawnHost({ dataDir, now: NOW });
});
afterAll(async () => {
  await browser.close();
  await host.stop();
  await rm(dataDir, { recursive: true, force: true });
});

const open = async (): Promise<Page> => {
  const page = await newPage();
  await openedByHand(page, answer(page, 'fit'));
  return page;
};
async function newPage(): Promise<Page> {
  const context = await browser.newContext();
  context.setDefaultTimeout(PATIENCE_MS);
  const page = await context.newPage();
  await page.goto(host.url);
  return page;
}
/** What lay open when the program died is opened by one press, and never by itself. */
async function openedByHand(page: Page, there: Locator): Promise<void> {
  const openIt = page.locator('[data-not-opened] + button');
  await there.or(openIt).first().waitFor();
  if (await openIt.isVisible()) await openIt.click();
  await there.waitFor();
}
const folder = process.env['BACKCURE_PICTURES'];
async function picture(page: Page, name: string): Promise<void> {
  if (folder !== undefined) await page.screenshot({ path: join(folder, `kept-${name}.png`) });
}
const field = (page: Page, label: string) =>
  page.locator('section.sheet').getByLabel(label, { exact: true });

describe('after an edit', () => {
  it('a reload, and a killed process, bring everything back, undo included', async () => {
    const page = await open();
    await panel(page, 'Resin & room');
    const before = await field(page, 'By night').inputValue();
    await type(page, 'By night', '12');
    await saved(page);
    await thoughtThrough(page);
    const fit = await answer(page, 'fit').innerText();
    await page.reload();
    await answer(page, 'fit').waitFor();
    expect(await field(page, 'By night').inputValue()).toBe('12');

    await host.kill();
    await page.context().close();
    host = await spawnHost({ dataDir, now: NOW });
    const again = await open();
    expect(await field(again, 'By night').inputValue()).toBe('12');
    await eventually(() => answer(again, 'fit').innerText()).toBe(fit);
    await again.getByRole('button', { name: 'Undo' }).click();
    await eventually(() => field(again, 'By night').inputValue()).toBe(before);
    await again.getByRole('button', { name: 'Redo' }).click();
    await eventually(() => field(again, 'By night').inputValue()).toBe('12');
    await again.context().close();
  });

  it('an unfinished build is there again too', async () => {
    const page = await open();
    await page.keyboard.press('Control+o');
    await page.getByRole('button', { name: 'New empty build' }).click();
    await page.getByText('Still needed for a plan').waitFor();
    await type(page, 'Build', 'Half a boat');
    await type(page, 'Area', '4');
    await page.locator('[data-save="draft"]').waitFor();
    await host.kill();
    host = await spawnHost({ dataDir, now: NOW });
    const again = await newPage();
    await openedByHand(again, again.getByText('Not a plan yet'));
    expect(await field(again, 'Build').inputValue()).toBe('Half a boat');
    expect(await field(again, 'Area').inputValue()).toBe('4');
    await again.keyboard.press('Control+o');
    const drop = again.getByRole('button', { name: 'Delete draft Half a boat' });
    await drop.click();
    await drop.click();
    await drop.waitFor({ state: 'hidden' });
    await again
      .getByRole('dialog')
      .getByRole('button', { name: /sample/ })
      .first()
      .click();
    await answer(again, 'fit').waitFor();
    await again.context().close();
    await page.context().close();
  });

  it('a second window that is behind takes nothing over the newer one, and shows it', async () => {
    const first = await open();
    const second = await open();
    await panel(first, 'Resin & room');
    await panel(second, 'Resin & room');
    await type(first, 'By night', '11');
    await saved(first);
    await type(second, 'By day', '23');
    await eventually(() => field(second, 'By night').inputValue()).toBe('11');
    expect(await field(second, 'By day').inputValue()).not.toBe('23');
    await second.getByText('Changed in another window').first().waitFor({ state: 'attached' });
    // What was made there is offered again, on top of what the other window made.
    const offer = second.locator('[data-stale-edit]');
    expect(await offer.innerText()).toMatch(/Not taken yet: By day.*The newest state is shown/s);
    await picture(second, 'stale-edit');
    await offer.getByRole('button', { name: 'Make it on the newest state' }).click();
    await offer.waitFor({ state: 'detached' });
    await saved(second);
    expect(await field(second, 'By night').inputValue()).toBe('11');
    await first.reload();
    await eventually(() => field(first, 'By day').inputValue()).toBe('23');
    expect(await field(first, 'By night').inputValue()).toBe('11');
    await first.context().close();
    await second.context().close();
  });
});

describe('kept copies', () => {
  /** Opens the list of what is kept, in the list of builds. */
  const kept = async (page: Page): Promise<Locator> => {
    await page.getByRole('dialog').waitFor({ state: 'hidden' });
    await page.keyboard.press('Control+o');
    const list = page.getByRole('dialog').locator('details', { hasText: 'kept copies' });
    await list.locator('summary').click();
    await list.getByRole('listitem').first().waitFor();
    return list;
  };
  const putBack = async (page: Page, kind: string): Promise<void> => {
    const list = await kept(page);
    const copy = list.getByRole('listitem').filter({ hasText: kind }).first();
    await copy.getByRole('button', { name: /^Put back/ }).click();
    await copy.getByText('What is there now is kept as a copy itself').waitFor();
    await picture(page, 'put-back');
    await copy.getByRole('button', { name: /^Put back the copy of/ }).click();
    await page.getByRole('dialog').waitFor({ state: 'hidden' });
  };

  it('are put back from the screen, and what stood there before is had back the same way', async () => {
    const page = await open();
    await panel(page, 'Resin & room');
    await type(page, 'By night', '8');
    await saved(page);
    await putBack(page, 'copy of the day');
    await openedByHand(page, answer(page, 'fit'));
    await panel(page, 'Resin & room');
    await picture(page, 'was-put-back');
    expect(await field(page, 'By night').inputValue()).not.toBe('8');
    await putBack(page, 'before a copy was put back');
    await openedByHand(page, answer(page, 'fit'));
    await panel(page, 'Resin & room');
    expect(await field(page, 'By night').inputValue()).toBe('8');
    await page.context().close();
  });
});

describe('versions, duplicates and the way to them', () => {
  it('names a version, shows what changed since, goes back, duplicates and finds', async () => {
    const page = await open();
    const name = await page.locator('.tape b').innerText();
    await page.keyboard.press('h');
    await page.getByLabel('Name for the build as it is now').fill('As agreed');
    await page.getByRole('button', { name: 'Name this version' }).click();
    await page.getByRole('button', { name: 'What changed since: As agreed' }).waitFor();
    await page.keyboard.press('Escape');

    await panel(page, 'Resin & room');
    const before = await field(page, 'By night').inputValue();
    await type(page, 'By night', '9');
    await saved(page);
    await page.getByRole('button', { name: 'Undo' }).focus();
    await page.keyboard.press('h');
    await page.getByRole('button', { name: 'What changed since: As agreed' }).click();
    await page.getByText('Changed since then (1):').waitFor();
    await page.getByRole('button', { name: 'Go back to this' }).click();
    await eventually(() => field(page, 'By night').inputValue()).toBe(before);

    await page.keyboard.press('Control+o');
    await page.getByRole('button', { name: 'Duplicate the open build' }).click();
    await eventually(() => page.locator('.tape b').innerText()).toBe(`${name}, copy`);
    await page.getByRole('dialog').waitFor({ state: 'hidden' });

    await page.keyboard.press('Control+f');
    await page.getByLabel('Find a build, a stage, a field or a finding').fill('outer skin');
    await page.keyboard.press('Enter');
    await page.getByRole('tab', { name: /^Stage/, selected: true }).waitFor();
    await page.context().close();
  });
});

it('a host whose terminal is closed ends in order: its journal is taken into the file', async () => {
  const data = await mkdtemp(join(tmpdir(), 'backcure-hang-up-'));
  const started = await spawnHost({ dataDir: data, now: NOW });
  expect(existsSync(join(data, `${FILE_NAME}-wal`))).toBe(true);
  await started.hangUp();
  expect(existsSync(join(data, FILE_NAME))).toBe(true);
  expect(existsSync(join(data, `${FILE_NAME}-wal`))).toBe(false);
  await rm(data, { recursive: true });
});
