/** Every drawer and every section of the tray, where room is short: nothing covers, is cut or out of reach. */
import type { Locator, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openPlanner, type Planner } from '../browser/planner.ts';
import { pageFaults } from './boxes.ts';
import {
  expectQuiet,
  letTextGrow,
  openWithText,
  panel,
  PANELS,
  thoughtThrough,
  tray,
  TRAYS,
} from './hands.ts';

let planner: Planner;
let page: Page;
beforeAll(async () => {
  planner = await openPlanner({ sample: 'harbour-gate-sign' });
  page = planner.page;
  await letTextGrow(page);
});
afterAll(() => planner.close());

/** What is wrong and stays so: a room that has just been opened is laid out within a few frames. */
async function named(what: string): Promise<string[]> {
  let faults = await pageFaults(page);
  for (let again = 0; faults.length > 0 && again < 3; again += 1) {
    await page.evaluate(
      () => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))),
    );
    faults = await pageFaults(page);
  }
  return faults.map((fault) => `${what}: ${fault}`);
}

/** Faults with each tray open in turn, and with each of a tray's own sections. */
async function faultsOfTrays(): Promise<string[]> {
  const found: string[] = [];
  for (const name of TRAYS) {
    await tray(page, name);
    const sections = page.locator('#tray-body [role="tab"]');
    // A tray that is loaded when shown has its sections a moment later.
    if (SECTIONED.includes(name)) await sections.first().waitFor();
    const count = await sections.count();
    if (count === 0) found.push(...(await named(name)));
    for (let i = 0; i < count; i += 1) {
      await sections.nth(i).click();
      found.push(...(await named(`${name}, ${await sections.nth(i).innerText()}`)));
    }
  }
  return found;
}
const SECTIONED = ['Choices & odds', 'Laminate & kit', 'Chemistry'];

async function faultsOfDrawers(): Promise<string[]> {
  const found: string[] = [];
  await tray(page, 'Findings');
  for (const name of PANELS) {
    await panel(page, name);
    found.push(...(await named(name)));
  }
  return found;
}

describe.each([
  { width: 1280, height: 720, text: 100 },
  { width: 480, height: 900, text: 100 },
  { width: 1280, height: 720, text: 200 },
  { width: 480, height: 900, text: 200 },
])('at $width x $height with text at $text %', ({ width, height, text }) => {
  beforeAll(async () => {
    await page.setViewportSize({ width, height });
    await openWithText(page, text);
    await thoughtThrough(page);
  });

  it('every tray and each of its sections', async () => {
    expect(await faultsOfTrays()).toEqual([]);
  });

  it('every drawer', async () => {
    expect(await faultsOfDrawers()).toEqual([]);
    expectQuiet(planner);
  });
});

it('six routes stand side by side at 1280, each with its section', async () => {
  await page.setViewportSize({ width: 1280, height: 720 });
  await openWithText(page, 100);
  await thoughtThrough(page);
  await page.getByRole('button', { name: /^Close / }).click();
  await tray(page, 'Routes');
  const table = page.locator('#tray-body table').first();
  expect(await table.locator('[data-route]').count()).toBe(6);
  const [needed, given] = await table.evaluate((one) => [
    one.scrollWidth,
    one.parentElement!.clientWidth,
  ]);
  expect(needed).toBeLessThanOrEqual(given!);
});

it('every figure of routes, weight and cost opens to where it comes from', async () => {
  const found: string[] = [];
  for (const name of ['Routes', 'Weight & cost']) {
    await tray(page, name);
    const closed = page.locator('#tray-body td').filter({ hasNot: page.locator('button') });
    for (const text of await closed.allInnerTexts()) {
      // Moments and sentences are no figures; a chance inside a sentence is told by its own row.
      if (/^[=–]?\s*(nothing|[\d,.]+ (h|kg|m²|g|min|working day)|[£€$]|about)/.test(text)) {
        if (!text.startsWith('=')) found.push(`${name}: ${text}`);
      }
    }
    const first = page.locator('#tray-body .figure-button').first();
    await first.click();
    const slip = page.locator('.slip:popover-open');
    await slip.waitFor();
    expect(await slip.locator('.formula').innerText()).not.toBe('');
    expect(await slip.locator('tr').count()).toBeGreaterThan(1);
    await page.keyboard.press('Escape');
    await slip.waitFor({ state: 'detached' });
  }
  expect(found).toEqual([]);
});

it('every figure of a finding, a stage and the cure curves opens by a click and by a key', async () => {
  const opened = async (figure: Locator): Promise<string> => {
    const slip = page.locator('.slip:popover-open');
    await slip.waitFor();
    expect(await slip.locator('.formula').innerText()).not.toBe('');
    expect(await slip.locator('p').last().innerText()).not.toBe('');
    const rows = await slip.locator('tr').allInnerTexts();
    await page.keyboard.press('Escape');
    await slip.waitFor({ state: 'hidden' });
    expect(await figure.evaluate((one) => one === document.activeElement)).toBe(true);
    return rows.join('\n');
  };
  const figures = page.locator('#tray-body .figure-button');
  await tray(page, 'Findings');
  expect(await figures.count()).toBe(await page.locator('[data-finding]').count());
  await figures.first().click();
  expect(await opened(figures.first())).toMatch(/Tg needed\s+72 °C/);

  await page.locator('[data-item="cure:skin"]').click();
  await page.locator('[data-stage="cure:skin"]').waitFor();
  const stage = page.locator('[data-stage]');
  // Each figure behind a dotted line of the list, and no figure that is none.
  const closed = stage.locator('dd').filter({ hasNot: page.locator('button') });
  for (const text of await closed.allInnerTexts()) expect(text).not.toMatch(/\d/);
  await stage.getByRole('button', { name: /^Tg at the end/ }).focus();
  await page.keyboard.press('Enter');
  expect(await opened(stage.getByRole('button', { name: /^Tg at the end/ }))).toContain('λ');

  await tray(page, 'Cure curves');
  await figures.first().waitFor();
  // Of the picked cure: part, first mix, gel, bag off, demould, Tg.
  expect(await figures.count()).toBe(6);
  await figures.nth(2).click();
  expect(await opened(figures.nth(2))).toMatch(/Sheet: /);
  expectQuiet(planner);
});
