/** The part in depth: one ply changes everything at once; a mesh gives its area; rates and stock count. */
import { readFile } from 'node:fs/promises';
import type { Locator, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openPlanner, type Planner } from '../browser/planner.ts';
import { binaryStl, type Corner, type Triangle } from '../unit/part/mesh-files.ts';
import { faultsIn } from './axe.ts';
import {
  eventually,
  expectQuiet,
  panel,
  saved,
  stageTimes,
  thoughtThrough,
  tray,
} from './hands.ts';

let planner: Planner;
let page: Page;
beforeAll(async () => {
  planner = await openPlanner({ sample: 'shell-6kg' });
  page = planner.page;
  // What undo brings back is the whole answer, so the first reading is to be of that as well.
  await thoughtThrough(page);
  await tray(page, 'Laminate & kit');
});
afterAll(() => planner.close());

const figure = (name: string): Locator => page.locator(`[data-figure="${name}"] b`);
const section = (name: string): Promise<void> =>
  page.getByRole('tab', { name, exact: true }).click();
const headline = (label: string): Promise<string> =>
  page
    .getByRole('button', { name: new RegExp(`^${label}`) })
    .first()
    .innerText();

/** Cloth, hours, thickness and the stages: everything that depends on a ply. */
async function reading() {
  await tray(page, 'Laminate & kit');
  await section('Section & weight');
  const thickness = await figure('thickness').innerText();
  const shell = await figure('weight-shell').innerText();
  await section('Kit & orders');
  const kit = await page.locator('[data-kit]').allInnerTexts();
  await section('Hours');
  const layup = await page.locator('[data-labour="layup"] b').first().innerText();
  const hands = await headline('Hands on');
  await tray(page, 'Weight & cost');
  const stages = await stageTimes(page);
  await page.getByRole('button', { name: 'Picture', exact: true }).click();
  await tray(page, 'Laminate & kit');
  return { thickness, shell, kit: kit.join('\n'), layup, hands, stages: stages.join('\n') };
}

describe('one ply more', () => {
  it('changes thickness, weight, kit, hours and schedule at once, and undo brings all back', async () => {
    const before = await reading();
    await panel(page, 'Job card');
    const plies = page.locator('section.sheet').getByLabel('Outer plies', { exact: true });
    const typed = await plies.inputValue();
    await plies.fill(`${typed}, ${typed}, ${typed}`);
    await plies.blur();
    const after = await reading();
    for (const key of Object.keys(before) as (keyof typeof before)[]) {
      expect(after[key], key).not.toBe(before[key]);
    }
    await saved(page);
    await page.keyboard.press('Control+z');
    await eventually(reading).toEqual(before);
  });
});

describe('a figure', () => {
  it('opens to its formula, what went in and where that came from', async () => {
    await section('Section & weight');
    await page.locator('[data-figure="thickness"] button').first().click();
    const slip = page.getByRole('dialog', { name: /Cured thickness/ });
    await slip.waitFor();
    const said = await slip.innerText();
    expect(said).toMatch(/fibre density × fibre fraction/);
    expect(said).toMatch(/ASTM D3171/);
    await page.keyboard.press('Escape');
  });

  it('the drawing of the section says every layer in words', async () => {
    const said = await page
      .getByRole('img', { name: /^Cross-section of/ })
      .getAttribute('aria-label');
    expect(said).toMatch(/from the mould: .*0°.*mm/);
  });
});

describe('a zone', () => {
  it('hidden in a painted part saves its paint; the finish of the part comes back', async () => {
    const painted = async () => {
      await tray(page, 'Laminate & kit');
      await section('Section & weight');
      return parseFloat(await figure('weight-painted').innerText());
    };
    const before = await painted();
    await panel(page, 'Part');
    const card = page.locator('section.sheet details.card').first();
    if (!(await card.getByLabel('Area', { exact: true }).isVisible())) {
      await card.locator('summary').first().click();
    }
    const finish = card.getByLabel('Finish of this zone', { exact: true });
    await finish.selectOption({ label: 'Hidden' });
    await eventually(async () => (await painted()) < before - 0.3).toBe(true);
    await finish.selectOption({ label: 'As the part' });
    await eventually(painted).toBe(before);
  });

  it('gives half under half the load of one’s own, and a test panel tells the fibre it reaches', async () => {
    const gives = async () =>
      parseFloat(await page.locator('[data-figure="own-load"]').innerText());
    const load = page.getByLabel(/^Load, kg/);
    await load.fill('20');
    await load.blur();
    // Beyond its own thickness the panel gets no figure, so the loads are light ones.
    await eventually(gives).toBeGreaterThan(0);
    const before = await gives();
    await load.fill('10');
    await load.blur();
    await eventually(async () => Math.abs((await gives()) / before - 0.5) < 0.05).toBe(true);
    await load.fill('80');
    await load.blur();
    await page.getByText('A test panel off the bench').click();
    const type = async (label: RegExp, text: string) => {
      await page.getByLabel(label).fill(text);
      await page.getByLabel(label).blur();
    };
    // Four plies of 200 g/m2 carbon at 1.8 g/cm3 in 0.9 mm: 0.8 / (1.8 x 0.9) = 49 % (ASTM D3171, II).
    await type(/^Thickness by caliper/, '0.9');
    await type(/^Weight by area/, '1340');
    await eventually(() => page.locator('[data-figure="panel-fibre"]').innerText()).toMatch(
      /Fibre 49 %/,
    );
  });
});

/** A rectangle of 3000 x 1000 bent into a gutter: area and edge are known. */
function gutter(scale: number): Uint8Array {
  const steps = 60;
  const at = (i: number, end: number): Corner => {
    const angle = (Math.PI * i) / steps;
    const radius = (1000 * scale) / Math.PI;
    return [end * 3000 * scale, radius * Math.cos(angle), radius * Math.sin(angle)];
  };
  const faces = Array.from({ length: steps }, (_, i): Triangle[] => [
    [at(i, 0), at(i, 1), at(i + 1, 1)],
    [at(i, 0), at(i + 1, 1), at(i + 1, 0)],
  ]);
  return binaryStl(faces.flat());
}

describe('a mesh file', () => {
  const card = () => page.locator('section.sheet details.card').first();
  const field = (label: string) => card().getByLabel(label, { exact: true });
  const pick = (name: string, bytes: Uint8Array): Promise<void> =>
    card()
      .getByLabel('Mesh of the surface, STL or OBJ')
      .setInputFiles({ name, mimeType: 'model/stl', buffer: Buffer.from(bytes) });

  it('is measured off the screen’s thread; its unit is asked and what it holds taken on confirmation', async () => {
    await panel(page, 'Part');
    if (!(await field('Area').isVisible())) await card().locator('summary').first().click();
    const area = field('Area');
    const before = await area.inputValue();
    await card().getByText('Area from a shape or a mesh file').click();
    await pick('gutter.stl', gutter(1));
    await page.getByRole('group', { name: 'What the mesh holds' }).waitFor();
    expect(await page.getByLabel('Drawn in, with its longest side').inputValue()).toBe('mm');
    expect(await area.inputValue()).toBe(before);
    await page.getByRole('button', { name: 'These are right: use them' }).click();
    await eventually(async () => Math.abs(Number(await area.inputValue()) - 3) < 0.003).toBe(true);
    expect(Math.abs(Number(await field('Free edge').inputValue()) - 8)).toBeLessThan(0.01);
    // An edit leaves the card as it was opened.
    expect(await field('Area').isVisible()).toBe(true);
    const shape = field('Shape').last().locator('option:checked');
    expect((await shape.textContent())?.trim()).toBe('Curved one way');
    await saved(page);
    await page.keyboard.press('Control+z');
    await eventually(() => area.inputValue()).toBe(before);
  });

  it('that is cut short or no mesh is refused in one line, and the zone keeps its area', async () => {
    const area = field('Area');
    const before = await area.inputValue();
    await pick('cut.stl', gutter(1).slice(0, 900));
    const alert = card().getByRole('alert');
    await alert.waitFor();
    const short = await alert.innerText();
    expect(short.trim().split('\n')).toHaveLength(1);
    await pick('letter.stl', new TextEncoder().encode('Dear painter, the shell is ready.'));
    await eventually(() => alert.innerText()).toMatch(/neither STL nor OBJ/);
    expect(await area.inputValue()).toBe(before);
  });
});

describe('the kit', () => {
  it('takes stock in either unit system off the order, refuses less than nothing', async () => {
    await thoughtThrough(page);
    await section('Kit & orders');
    const resin = page
      .locator('[data-kit^="orrin"], [data-kit]')
      .filter({ hasText: 'epoxy' })
      .first();
    const order = () => resin.locator('> td').nth(2).innerText();
    const before = await order();
    const stock = resin.getByRole('textbox');
    await stock.fill('2 lb');
    await stock.blur();
    await eventually(() => stock.inputValue()).toBe('0.907');
    expect(await order()).not.toBe(before);
    await stock.fill('-1');
    await stock.blur();
    await resin.getByText('0 kg').first().waitFor();
    await stock.press('Escape');
    await saved(page);
    await page.keyboard.press('Control+z');
    await eventually(order).toBe(before);
  });

  it('is kept as CSV with every line, and printed as a list alone', async () => {
    const lines = await page.locator('[data-kit]').count();
    const [download] = await Promise.all([
      page.waitForEvent('download'),
      page.getByRole('button', { name: 'Save CSV' }).click(),
    ]);
    const text = await readFile(await download.path(), 'utf8');
    expect(download.suggestedFilename()).toMatch(/shopping list\.csv$/);
    expect(text.trimEnd().split('\r\n')).toHaveLength(lines + 1);
    await page.getByRole('button', { name: 'Print list' }).click();
    const sheets = page.getByRole('region', { name: 'Sheets to print' }).getByRole('article');
    await eventually(() => sheets.count()).toBe(1);
    expect(await sheets.first().getAttribute('aria-label')).toBe('Shopping list');
    await page.keyboard.press('Escape');
  });
});

describe('a rate of the shop', () => {
  it('counts at once, is marked as the shop’s, and can be undone and taken back', async () => {
    await thoughtThrough(page);
    await section('Hours');
    const row = page.locator('[data-labour="trim"]');
    const hours = () => row.locator('b').first().innerText();
    const before = await hours();
    const rate = row.getByRole('textbox', { name: /per m of edge/ });
    await rate.fill('120');
    await rate.press('Enter');
    await eventually(hours).not.toBe(before);
    expect(await row.locator('> td').last().innerText()).toContain('set by the shop in this build');
    await saved(page);
    await page.keyboard.press('Control+z');
    await eventually(hours).toBe(before);
    await page.keyboard.press('Control+y');
    await eventually(hours).not.toBe(before);
    await row.getByRole('button', { name: /^Back to the library’s/ }).click();
    await eventually(hours).toBe(before);
    await saved(page);
  });
});

describe.each(['light', 'dark'])('in the %s theme', (theme) => {
  it('every section is free of faults and nothing lies beside it', async () => {
    await page.getByLabel('Light, dark or high contrast').selectOption(theme);
    const found: string[] = [];
    for (const name of ['Section & weight', 'Kit & orders', 'Hours', 'Ply book', 'Bag stacks']) {
      await section(name);
      const faults = await faultsIn(page);
      const beside = await page
        .locator('#part-body')
        .evaluate((body) => body.scrollWidth - body.clientWidth);
      found.push(...faults.map((fault) => `${name}: ${fault}`));
      if (beside > 4) found.push(`${name}: ${beside} px beside`);
    }
    expect(found).toEqual([]);
  });

  it('left no word in the console and asked nobody else', () => {
    expectQuiet(planner);
  });
});
