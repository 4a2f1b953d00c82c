/** From nothing to the printed week, with one pot-life row and a room temperature as all the chemistry. */
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openPlanner, type Planner } from '../browser/planner.ts';
import { answer, expectQuiet, panel, pick, saved, type } from './hands.ts';

/** As stated for the planner: at most so many things typed or picked. */
const MOST_ENTRIES = 25;

let planner: Planner;
let page: Page;
beforeAll(async () => {
  planner = await openPlanner();
  page = planner.page;
});
afterAll(() => planner.close());

describe('a build of its own', () => {
  let entries = 0;
  const typed = async (label: string, text: string) => {
    entries += 1;
    await type(page, label, text);
  };
  const picked = async (label: string, option: string | RegExp) => {
    entries += 1;
    await pick(page, label, option);
  };

  it('gets from empty to a plan in at most 25 entries', async () => {
    await page.keyboard.press('Control+o');
    await page.getByRole('button', { name: 'New empty build' }).click();
    await page.getByText('Still needed for a plan').waitFor();

    await typed('Build', 'Kite stand roof');
    await typed('Unveiling', '2027-06-18T17:00');
    await typed('Area', '1.4');
    await typed('Outer plies', '2 x CARBON TWILL 200 @ 0/45');
    await picked('Core', 'PVC foam 80');
    await typed('Core thickness', '10');
    await typed('Inner plies', '1 x GLASS 163 @ 45');
    await picked('Resin', 'Own resin');
    await typed('Mixed mass in the cup', '200');
    await typed('Cup temperature', '20');
    await typed('Pot life', '1 h');
    await typed('Hardener for 100 g of resin', '30');
    await typed('Room by day', '66 F');
    await typed('Who works on it', 'Ines');
    await typed('Painter, working days', '4');

    await answer(page, 'fit').waitFor();
    await saved(page);
    expect(entries).toBeLessThanOrEqual(MOST_ENTRIES);
    expect(await answer(page, 'fit').innerText()).toContain('Fits');
  });

  it('says what it assumed, and lets it be typed over', async () => {
    await panel(page, 'Assumed');
    const assumed = page.locator('section.sheet');
    await assumed.getByText('Working hours', { exact: true }).waitFor();
    await assumed.getByText('Release', { exact: true }).first().click();
    await pick(page, 'Release', 'Semi-permanent');
    await saved(page);
  });

  it('stands in the store as typed', async () => {
    const list = await planner.call('build-list', {});
    const mine = list.find((build) => build.name === 'Kite stand roof');
    expect(mine?.sample).toBe(false);
    const open = await planner.call('build-open', { id: mine!.id });
    expect(open.document).toMatchObject({
      unveiling: '2027-06-18T17:00',
      mould: { release: 'semi-permanent' },
      crew: [{ name: 'Ines' }],
      outside: [{ kind: 'paint', workingDays: 4 }],
      part: { zones: [{ areaM2: 1.4, core: { material: 'pvc-80', thicknessMm: 10 } }] },
    });
    const room = open.document['room'] as { temperatureC: { day: number } };
    expect(room.temperatureC.day).toBeCloseTo(18.8889, 3);
  });

  it('prints the week, and nothing of the desk', async () => {
    await page.getByRole('button', { name: 'Print sheets' }).click();
    const sheets = page.getByRole('region', { name: 'Sheets to print' });
    await sheets.getByText('Kite stand roof').first().waitFor();
    await page.emulateMedia({ media: 'print' });
    const paper = await page.locator('body').innerText();
    expect(paper).toContain('Kite stand roof');
    expect(paper).toMatch(/Lay up outer skin|Outer skin/);
    expect(paper).toMatch(/\b(Mon|Tue|Wed|Thu|Fri)\w* \d+ (May|Jun)/);
    expect(paper).not.toContain('Back to the board');
    expect(paper).not.toContain('Job card');
    const pdf = await page.pdf();
    expect(pdf.length).toBeGreaterThan(20_000);
    await page.emulateMedia({ media: 'screen' });
    await page.keyboard.press('Escape');
    await answer(page, 'fit').waitFor();
    expectQuiet(planner);
  });
});
