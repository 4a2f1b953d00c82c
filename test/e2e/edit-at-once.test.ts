/** Samples open; each of the five changes shows at once in schedule, findings and next deadline. */
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openPlanner, type Planner } from '../browser/planner.ts';
import {
  answer,
  eventually,
  expectQuiet,
  panel,
  pick,
  saved,
  stageTimes,
  thoughtThrough,
  tray,
  type,
} from './hands.ts';

let planner: Planner;
let page: Page;
beforeAll(async () => {
  planner = await openPlanner();
  page = planner.page;
});
afterAll(() => planner.close());

const open = async (name: string) => {
  await page.keyboard.press('Control+o');
  await page
    .getByRole('dialog')
    .getByRole('button', { name: new RegExp(`^${name}`) })
    .click();
  await page.getByRole('dialog').waitFor({ state: 'hidden' });
  await page.getByRole('button', { name: `Open build: ${name}` }).waitFor();
};
const headline = (key: 'fit' | 'next' | 'force') => answer(page, key).locator('b').innerText();

describe('a sample', () => {
  it('opens, whichever it is, with an answer to all three questions', async () => {
    const samples = (await planner.call('build-list', {})).filter((build) => build.sample);
    expect(samples.length).toBeGreaterThanOrEqual(3);
    for (const sample of samples) {
      await open(sample.name);
      for (const key of ['fit', 'next', 'force'] as const) {
        expect((await headline(key)).length).toBeGreaterThan(3);
      }
      expect((await stageTimes(page)).length).toBeGreaterThan(10);
    }
  });
});

describe('one edit, without a save button', () => {
  it('a nearer unveiling takes the float and raises a finding', async () => {
    await open('Low Water canopy');
    await panel(page, 'Job card');
    await thoughtThrough(page);
    const before = await headline('fit');
    expect(before).toMatch(/^Fits/);
    const nextBefore = await headline('next');
    await type(page, 'Unveiling', '2027-05-14T18:00');
    await eventually(() => headline('fit')).toMatch(/^(Late by|Does not fit|In time, but not)/);
    await eventually(() => headline('next')).not.toBe(nextBefore);
    await tray(page, 'Findings');
    await page.locator('[data-finding="date-missed"]').waitFor();
    await saved(page);
    await page.keyboard.press('Control+z');
    await eventually(() => headline('fit')).toBe(before);
  });

  it('a colder room moves what follows the cures', async () => {
    await thoughtThrough(page);
    const before = await stageTimes(page);
    await type(page, 'Room by day', '15');
    await eventually(() => stageTimes(page)).not.toEqual(before);
    await saved(page);
  });

  it('one pair of hands less moves the work', async () => {
    await thoughtThrough(page);
    const before = await stageTimes(page);
    await panel(page, 'Dates & people');
    const take = { name: /^Remove .* from this build$/, includeHidden: true };
    const person = page.locator('section.sheet details').filter({
      has: page.getByRole('button', take),
    });
    await person.last().locator('summary').first().click();
    await person.last().getByRole('button', take).click();
    await eventually(() => stageTimes(page)).not.toEqual(before);
    await saved(page);
  });

  it('another hardener moves the cures', async () => {
    await thoughtThrough(page);
    const before = await stageTimes(page);
    await panel(page, 'Resin & room');
    await pick(page, 'Hardener', 'fast');
    await eventually(() => stageTimes(page)).not.toEqual(before);
    await saved(page);
  });

  it('another route divides the cures otherwise, and the choice can be undone', async () => {
    await open('Petrel shell');
    await tray(page, 'Routes');
    const chosen = page.locator('th.chosen');
    await page
      .getByRole('button', { name: /^Choose / })
      .first()
      .waitFor();
    const before = await chosen.getAttribute('data-route');
    await page
      .getByRole('button', { name: /^Choose / })
      .first()
      .click();
    await eventually(() => chosen.getAttribute('data-route')).not.toBe(before);
    await saved(page);
    await page.keyboard.press('Control+z');
    await eventually(() => chosen.getAttribute('data-route')).toBe(before);
  });

  it('a lever pulled does what it says, and is noted', async () => {
    await open('Harbour gate sign');
    await tray(page, 'Findings');
    const lever = page
      .locator('[data-finding="merge-forced"] li')
      .filter({ hasText: 'through the night' });
    await lever.getByRole('button', { name: 'Apply' }).click();
    await saved(page);
    await eventually(() => page.locator('[data-finding="merge-forced"]').count()).toBe(0);
    const { document } = (await planner.call('session-start', {})).open!;
    expect(document['levers']).toMatchObject([{ id: 'warm-nights' }]);
    await page.keyboard.press('Control+z');
    await page.locator('[data-finding="merge-forced"]').waitFor();
  });

  it('nobody left to work is a finding, not an end', async () => {
    await thoughtThrough(page);
    const before = await headline('fit');
    await panel(page, 'Dates & people');
    for (const name of ['Kaja Sepp', 'Otto Ravn']) {
      const card = page.locator('section.sheet summary').filter({ hasText: name });
      const take = page.getByRole('button', { name: `Remove ${name} from this build` });
      if (!(await take.isVisible())) await card.click();
      await take.click();
    }
    await page.locator('[data-finding="crew-empty"]').waitFor();
    await saved(page);
    await page.keyboard.press('Control+z');
    await page.keyboard.press('Control+z');
    await page.locator('[data-finding="crew-empty"]').waitFor({ state: 'detached' });
    await eventually(() => headline('fit')).toBe(before);
  });

  it('a stepper held down is one gesture to undo', async () => {
    await panel(page, 'Resin & room');
    const field = page.locator('section.sheet').getByLabel('By day', { exact: true });
    const before = await field.inputValue();
    const more = page.getByRole('button', { name: 'By day: more' });
    // As a key held down repeats it: four presses within a moment, however busy the machine is.
    await more.evaluate((button) => {
      for (let i = 0; i < 4; i += 1) (button as HTMLElement).click();
    });
    expect(await field.inputValue()).toBe(String(Number(before) + 4));
    await saved(page);
    await page.keyboard.press('Control+z');
    await eventually(() => field.inputValue()).toBe(before);
  });

  it('left no word in the console and asked nobody else', () => {
    expectQuiet(planner);
  });
});
