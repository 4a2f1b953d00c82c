/** A stranger's first minutes: the sample says what it is, a tour runs on it, help is searched. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openPlanner, type Planner } from '../browser/planner.ts';
import { faultsIn } from './axe.ts';
import { expectQuiet } from './hands.ts';

let planner: Planner;
beforeAll(async () => {
  planner = await openPlanner({ sample: 'low-water-canopy' });
});
afterAll(() => planner?.close());

describe('a stranger', () => {
  it('is shown round on the open sample, each step beside what it tells of', async () => {
    const { page } = planner;
    await page.getByText('A sample, people invented').waitFor();
    await page.getByRole('button', { name: 'Show me round' }).click();
    const tour = page.getByRole('dialog', { name: 'Tour' });
    await tour.getByRole('heading', { name: 'Three answers' }).waitFor();
    const titles: string[] = [];
    for (let step = 1; step <= 5; step++) {
      await tour.getByText(`Step ${step} of 5`).waitFor();
      titles.push(await tour.getByRole('heading').innerText());
      expect(await faultsIn(page, '[role="dialog"]')).toEqual([]);
      const last = step === 5;
      await tour.getByRole('button', { name: last ? 'Done' : 'Next', exact: true }).click();
    }
    expect(new Set(titles).size).toBe(5);
    await tour.waitFor({ state: 'detached' });
    // The last step opened the job card, the one before it the routes.
    await page.getByLabel('Unveiling', { exact: true }).waitFor();
    await page.getByRole('rowheader', { name: 'Open until' }).first().waitFor();
  });

  it('finds a word, and the reason of a rule with its source', async () => {
    const { page } = planner;
    await page.locator('body').press('?');
    const help = page.getByRole('dialog', { name: 'Help' });
    await help.getByRole('tab', { name: 'Words' }).click();
    await help.getByLabel('Find a word').fill('peel');
    await expect
      .poll(() => help.getByRole('term').allInnerTexts())
      .toEqual(expect.arrayContaining(['peel ply', 'strip']));
    await help.getByLabel('Find a word').fill('zzz');
    await help.getByText('No entry has “zzz” in it.').waitFor();
    await help.getByRole('tab', { name: 'Rules and why' }).click();
    await help.getByText('Peel ply is stripped on the day of the bond').waitFor();
    expect(await help.getByText('common practice, no source').count()).toBeGreaterThan(5);
    expect(await faultsIn(page, 'dialog')).toEqual([]);
    await page.keyboard.press('Escape');
  });

  it('leaves the console quiet', () => expectQuiet(planner));
});
