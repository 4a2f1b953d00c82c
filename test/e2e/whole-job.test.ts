/**
 * The whole job, from an empty job card to the printed sheets, by mouse alone, by keys alone, and by
 * mouse with text twice as large; and how many actions the three uses take once the card is filled.
 * With BACKCURE_PICTURES=DIR a picture of every step is left there.
 */
import { mkdir } from 'node:fs/promises';
import { join } from 'node:path';
import type { Locator, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openPlanner, type Planner } from '../browser/planner.ts';
import { keys, mouse, type Hand } from './hand.ts';
import { answer, eventually, expectQuiet, saved, thoughtThrough } from './hands.ts';

/** As stated for the planner, from a filled job card. */
const MOST = { backward: 12, together: 3, print: 2 } as const;

let planner: Planner;
let page: Page;
beforeAll(async () => {
  planner = await openPlanner();
  page = planner.page;
  await page.addInitScript(() => {
    window.print = () => document.body.setAttribute('data-printed', 'true');
  });
  await page.reload();
});
afterAll(() => planner.close());

const folder = process.env['BACKCURE_PICTURES'];
async function picture(name: string): Promise<void> {
  if (folder === undefined) return;
  await mkdir(folder, { recursive: true });
  await page.screenshot({ path: join(folder, `job-${name}.png`) });
}

const button = (name: string | RegExp): Locator => page.getByRole('button', { name });
const field = (label: string): Locator =>
  page.locator('section.sheet').getByLabel(label, { exact: true });
const tab = (name: string): Locator => page.getByRole('tab', { name: new RegExp(`^${name}`) });
const chosenRoute = async () =>
  (await planner.call('session-start', {})).open!.document['route'] ?? 'best';

async function fillCard(hand: Hand, name: string): Promise<void> {
  await hand.enter(field('Build'), name);
  await hand.enter(field('Unveiling'), 'fri 25 june 2027 17:00');
  await hand.enter(field('Area'), '1.4');
  await hand.enter(field('Outer plies'), '2x200g carbon twill');
  await hand.take(field('Core'), 'PVC foam 80');
  await hand.enter(field('Core thickness'), '10');
  await hand.enter(field('Inner plies'), '1 x GLASS 163');
  await hand.take(field('Resin'), 'Orrin 40');
  await hand.enter(field('Room by day'), '66 F');
  await hand.enter(field('Who works on it'), 'Ines, Bram');
  await hand.enter(field('Painter, working days'), '4');
}

const HANDS = [
  { name: 'mouse', hand: () => mouse(page), textPercent: 100 },
  { name: 'keys', hand: () => keys(page), textPercent: 100 },
  { name: 'large', hand: () => mouse(page), textPercent: 200 },
] as const;

describe.each(HANDS)('the whole job by $name', ({ name, hand: handOf, textPercent }) => {
  let hand: Hand;
  const build = `Kite stand roof ${name}`;
  const counted = async (act: () => Promise<void>): Promise<number> => {
    const before = hand.actions;
    await act();
    return hand.actions - before;
  };
  const expectInWidth = async (): Promise<void> => {
    const isIn = await page.evaluate(
      () => document.documentElement.scrollWidth <= window.innerWidth,
    );
    expect(isIn).toBe(true);
  };

  beforeAll(async () => {
    hand = handOf();
    await page.evaluate((percent) => {
      document.documentElement.style.fontSize = `${percent}%`;
      document.body.removeAttribute('data-printed');
    }, textPercent);
  });

  it('fills the job card, and a plan stands', async () => {
    if (name === 'keys') await page.keyboard.press('Control+o');
    else await hand.press(button(/^Open build/));
    await hand.press(button('New empty build'));
    await page.getByText('Still needed for a plan').waitFor();
    await picture(`${name}-1-empty`);
    await fillCard(hand, build);
    await answer(page, 'fit').waitFor();
    await thoughtThrough(page);
    await saved(page);
    expect(await answer(page, 'fit').innerText()).toContain('Fits');
    await picture(`${name}-2-card`);
    await expectInWidth();
  });

  it('plans backward from another date', async () => {
    const actions = await counted(async () => {
      await hand.enter(field('Unveiling'), 'fri 21 may 2027 16:00');
      await hand.press(answer(page, 'fit'));
    });
    await thoughtThrough(page);
    await eventually(() => answer(page, 'fit').innerText()).toContain('21 May');
    await picture(`${name}-3-backward`);
    expect(actions).toBeLessThanOrEqual(MOST.backward);
    await expectInWidth();
  });

  it('decides separate or together', async () => {
    const before = await chosenRoute();
    const actions = await counted(async () => {
      await hand.show(tab('Routes'));
      await page
        .getByText(/✓ (Best|Chosen)/)
        .first()
        .waitFor();
      await picture(`${name}-4-routes`);
      await hand.press(
        page
          .locator('#tray-body')
          .getByRole('button', { name: /^Choose / })
          .first(),
      );
    });
    await saved(page);
    await eventually(chosenRoute).not.toEqual(before);
    expect(actions).toBeLessThanOrEqual(MOST.together);
    await thoughtThrough(page);
    await picture(`${name}-5-chosen`);
    await expectInWidth();
  });

  it('prints', async () => {
    const actions = await counted(async () => {
      await hand.press(button('Print sheets'));
      const sheets = page.getByRole('region', { name: 'Sheets to print' });
      await sheets.getByText(build).first().waitFor();
      await picture(`${name}-6-sheets`);
      await hand.press(sheets.getByRole('button', { name: 'Print', exact: true }));
    });
    await page.locator('body[data-printed]').waitFor();
    expect(actions).toBeLessThanOrEqual(MOST.print);
    await expectInWidth();
    await page.emulateMedia({ media: 'print' });
    const paper = await page.locator('body').innerText();
    expect(paper).toContain(build);
    expect(paper).not.toContain('Job card');
    await page.emulateMedia({ media: 'screen' });
    if (name === 'keys') await page.keyboard.press('Escape');
    else await hand.press(button('Back to the plan'));
    await answer(page, 'fit').waitFor();
    expectQuiet(planner);
  });
});
