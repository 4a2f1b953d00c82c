/** No fault of any grade by axe-core on any main view, in every theme; and the way by keyboard alone. */
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openPlanner, type Planner } from '../browser/planner.ts';
import { faultsIn } from './axe.ts';
import { answer, expectQuiet, panel, PANELS, thoughtThrough, tray, TRAYS } from './hands.ts';

let planner: Planner;
let page: Page;
beforeAll(async () => {
  planner = await openPlanner();
  page = planner.page;
});
afterAll(() => planner.close());

const faults = () => faultsIn(page);

describe.each(['light', 'dark', 'contrast'])('in the %s theme', (theme) => {
  it('every panel and tray is free of faults', async () => {
    await page.getByLabel('Light, dark or high contrast').selectOption(theme);
    await answer(page, 'next').click();
    const found: string[] = [];
    for (const [i, name] of PANELS.entries()) {
      await panel(page, name);
      const below = TRAYS[i % TRAYS.length]!;
      await tray(page, below);
      found.push(...(await faults()).map((fault) => `${name} / ${below}: ${fault}`));
    }
    // The deep trays take the timeline's place.
    await tray(page, 'Findings');
    expect(found).toEqual([]);
  });

  it('so are the table, the dialogs and the sheets', async () => {
    const found: string[] = [];
    await page.getByRole('button', { name: 'Table', exact: true }).click();
    found.push(...(await faults()).map((fault) => `table: ${fault}`));
    await page.getByRole('button', { name: 'Picture', exact: true }).click();
    for (const key of ['Control+o', '?']) {
      await page.locator('body').press(key);
      await page.getByRole('dialog').waitFor();
      found.push(...(await faults()).map((fault) => `${key}: ${fault}`));
      await page.keyboard.press('Escape');
      // Keys belong to the desk again once the dialog has gone.
      await page.getByRole('dialog').waitFor({ state: 'detached' });
    }
    await page.getByRole('button', { name: 'Print sheets' }).click();
    await page.getByRole('region', { name: 'Sheets to print' }).waitFor();
    found.push(...(await faults()).map((fault) => `sheets: ${fault}`));
    await page.keyboard.press('Escape');
    expect(found).toEqual([]);
  });
});

describe('by keyboard alone', () => {
  it('a stage is reached, opened, pinned and let go again', async () => {
    await thoughtThrough(page);
    // One tab stop for the whole timeline, then the arrows.
    const cells = page.locator('svg[role="grid"] [role="gridcell"]');
    await page.locator('svg[role="grid"] [tabindex="0"]').focus();
    const first = await page.evaluate(() => document.activeElement?.id);
    await page.keyboard.press('ArrowRight');
    await page.keyboard.press('ArrowDown');
    const third = await page.evaluate(() => document.activeElement?.id);
    expect(third).not.toBe(first);
    expect(await cells.count()).toBeGreaterThan(10);
    await page.keyboard.press('Enter');
    const stage = page.locator('[data-stage]');
    await stage.waitFor();
    const pin = page.getByRole('button', { name: 'Pin here' });
    await pin.focus();
    await page.keyboard.press('Enter');
    await page.getByRole('button', { name: /^Unpin/ }).waitFor();
    await page.keyboard.press('Control+z');
    await pin.waitFor();
  });

  it('nothing lies beside the page at 1280 x 720, nor is a target too small for gloves', async () => {
    expect(
      await page.evaluate(() => document.documentElement.scrollWidth <= window.innerWidth),
    ).toBe(true);
    const small = await page.evaluate(() =>
      [...document.querySelectorAll('button, select, input:not([type=checkbox]), summary')]
        .filter((element) => {
          const box = element.getBoundingClientRect();
          return box.height > 0 && box.height < 32;
        })
        .map((element) => element.outerHTML.slice(0, 120)),
    );
    expect(small).toEqual([]);
    expectQuiet(planner);
  });
});
