/** A shop's own resins, its figures, cup and smear, and an infusion, by hand. */
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openPlanner, type Planner } from '../browser/planner.ts';
import { eventually, expectQuiet, saved, tray } from './hands.ts';

let planner: Planner;
let page: Page;
beforeAll(async () => {
  planner = await openPlanner({ sample: 'shell-6kg' });
  page = planner.page;
  await tray(page, 'Chemistry');
});
afterAll(() => planner.close());

interface Row {
  readonly id: string;
  readonly name: string;
  readonly hardeners: readonly {
    readonly id: string;
    readonly bench?: { readonly filmTimes: number; readonly cupPace: number };
  }[];
}
const chemistry = (tab: string) =>
  page.getByRole('tablist', { name: 'The chemistry in depth' }).getByRole('tab', { name: tab });
const field = (label: string) => page.locator('#chemistry-body').getByLabel(label, { exact: true });
const resins = async () => {
  const { document } = (await planner.call('session-start', {})).open!;
  return (document as { library: { resins: Row[] } }).library.resins;
};

async function type(label: string, text: string): Promise<void> {
  await field(label).fill(text);
  await field(label).blur();
}

describe('a sheet’s figures', () => {
  beforeAll(() => chemistry('Data sheet').click());
  const undo = () => page.getByRole('button', { name: 'Undo' }).click();

  it('that contradict each other are said, in the units of either system', async () => {
    const faults = page.locator('[data-figure-faults]');
    expect(await faults.count()).toBe(0);
    await type('Hardener for 100 ml', '25');
    await faults.getByText('found 25 ml for 100 ml, but mass and densities give').waitFor();
    await undo();
    await eventually(() => faults.count()).toBe(0);
    await type('Resin density', '9.6 lb/gal');
    await eventually(() => field('Resin density').inputValue()).toMatch(/^1150\.3/);
    await undo();
  });

  it('typed in Fahrenheit are offered in Celsius', async () => {
    await type('Not used below', '59');
    await page.getByRole('alert').getByText('59 °F would be 15 °C').waitFor();
    await field('Not used below').press('Escape');
    await type('Highest Tg', '176');
    await page.getByRole('button', { name: 'Take 80 °C' }).click();
    await eventually(() => field('Highest Tg').inputValue()).toBe('80');
    await saved(page);
    await undo();
    await undo();
  });

  it('have hazards of resin and hardener, with their cautions', async () => {
    await page.locator('summary').filter({ hasText: 'Hazards' }).click();
    const cautions = page.getByRole('list', { name: 'Cautions of these hazards' });
    expect(await cautions.innerText()).not.toContain('Styrene vapour');
    const resin = page.getByRole('group', { name: 'Resin', exact: true });
    await resin.getByLabel('Styrene').check();
    await cautions.getByText('Styrene vapour burns and harms').waitFor();
    await saved(page);
    await undo();
    await eventually(() => resin.getByLabel('Styrene').isChecked()).toBe(false);
  });
});

describe('resins of the shop’s own', () => {
  beforeAll(() => chemistry('Data sheet').click());
  const inUse = async () =>
    (await planner.call('session-start', {})).open!.document['resin'] as {
      system: string;
      hardener: string;
    };
  const own = async () => (await resins()).filter(({ id }) => id.startsWith('own-'));

  it('are made by keyboard from one pot life', async () => {
    await page.getByRole('button', { name: 'New resin system' }).focus();
    await page.keyboard.press('Enter');
    const dialog = page.getByRole('dialog', { name: 'New resin system' });
    await dialog.getByLabel('Resin', { exact: true }).fill('Brack 12');
    await dialog.getByLabel('Hardener for 100 g of resin').fill('34');
    await dialog.getByLabel('Mixed mass').fill('7 oz');
    await dialog.getByLabel('At', { exact: true }).fill('72 F');
    await dialog.getByLabel('Pot life', { exact: true }).fill('45');
    await dialog.getByLabel('Pot life', { exact: true }).press('Enter');
    await dialog.waitFor({ state: 'hidden' });
    await saved(page);
    expect(await inUse()).toEqual({ system: 'own-resin', hardener: 'own-hardener' });
    await eventually(() => field('Row 1, mixed mass, g').inputValue()).toMatch(/^198\.4/);
  });

  it('take a second hardener and a copy, and stay while another is in use', async () => {
    await page.getByRole('button', { name: 'Add a hardener' }).click();
    await page.getByRole('button', { name: 'Copy this one' }).click();
    await field('Resin').selectOption({ label: 'Orrin 40 laminating epoxy' });
    await saved(page);
    expect((await inUse()).system).toBe('orrin-40');
    const rows = await own();
    expect(rows.map(({ id, hardeners }) => [id, hardeners.length])).toEqual([
      ['own-resin', 2],
      ['own-resin-2', 2],
    ]);
  });

  it('are named and taken out; one in use is refused with the reason', async () => {
    await page.locator('summary').filter({ hasText: 'The shop’s own' }).click();
    await type('Name of Copy of Brack 12', 'Quay mix');
    await field('Resin').selectOption({ label: 'Quay mix' });
    await page.getByRole('button', { name: 'Remove Quay mix', exact: true }).click();
    await page.getByRole('alert').getByText('Quay mix is in use: pick another resin').waitFor();
    await page.getByRole('button', { name: 'Remove Brack 12', exact: true }).click();
    await saved(page);
    expect((await own()).map(({ name }) => name)).toEqual(['Quay mix']);
    await field('Resin').selectOption({ label: 'Orrin 40 laminating epoxy' });
    await field('Hardener').selectOption({ label: 'Orrin 40 hardener, slow' });
    await page.getByRole('button', { name: 'Remove Quay mix', exact: true }).click();
    await saved(page);
    expect(await own()).toEqual([]);
    expect(await inUse()).toEqual({ system: 'orrin-40', hardener: 'slow' });
  });
});

describe('cup and smear', () => {
  beforeAll(() => chemistry('Cup & smear').click());
  const bench = async () => (await resins())[0]!.hardeners.find(({ id }) => id === 'slow')!.bench;

  it('the smear sets the laminate’s clock, one edit that undo takes back', async () => {
    await page.getByLabel('It counts for').selectOption('lot');
    await type('First contact', '2027-05-03T08:00');
    await type('Smear gelled', '2027-05-03T07:00');
    await page.getByRole('alert').getByText('gelled before it was mixed').waitFor();
    await type('Smear gelled', '2027-05-03T18:10');
    await type('Flange, mean', '66 F');
    await page.locator('[data-smear]').getByText('slower than expected').waitFor();
    const gel = page.locator('#chemistry-body tr').filter({ hasText: 'Gel' });
    expect(await gel.innerText()).toContain('18:10');
    await page.getByRole('button', { name: 'Correct the times of the film by it' }).click();
    await page
      .locator('[data-foreseen]')
      .getByRole('button', { name: 'Take it', exact: true })
      .click();
    await page.locator('[data-taken="film"]').waitFor();
    await saved(page);
    expect((await bench())!.filmTimes).toBeGreaterThan(1.05);
    expect((await bench())!.cupPace).toBe(1);
    await page.getByRole('button', { name: 'Undo' }).click();
    await eventually(() => page.locator('[data-taken="film"]').count()).toBe(0);
  });

  it('the cup sets the pot alone, and says so', async () => {
    await page.getByText('No time of the laminate moves by it').waitFor();
    await type('Stayed workable', '1 h');
    await page.getByRole('button', { name: 'Correct the pot life by it' }).click();
    await page
      .locator('[data-foreseen]')
      .getByRole('button', { name: 'Take it', exact: true })
      .click();
    await page.locator('[data-taken="cup"]').waitFor();
    await saved(page);
    expect((await bench())!.filmTimes).toBe(1);
    await page.getByRole('button', { name: 'Remove the cup' }).click();
    await page
      .locator('[data-foreseen]')
      .getByRole('button', { name: 'Take it', exact: true })
      .click();
    await saved(page);
    expect(await bench()).toBeUndefined();
  });
});

describe('an infusion', () => {
  beforeAll(() => chemistry('Infusion').click());
  const verdict = () => page.locator('[data-infusion]').innerText();

  it('says whether the front is home before gel, in either system, and stays out of the plan', async () => {
    await eventually(verdict).toContain('Full before gel');
    await type('Way to fill', '30 ft');
    await eventually(verdict).toContain('Gels before it is full');
    await type('Way to fill', '1.5');
    await type('Driven by a vacuum of', '27 inHg');
    await eventually(() => field('Driven by a vacuum of').inputValue()).toMatch(/^91\.4/);
    expect(await page.getByRole('button', { name: 'Undo' }).getAttribute('title')).not.toMatch(
      /fill|pressure/i,
    );
    await page
      .locator('#chemistry-body')
      .getByRole('button', { name: /^Full after/ })
      .click();
    const slip = page.getByRole('dialog', { name: 'Where Full after comes from' });
    await slip.getByText('Castro & Macosko').waitFor();
    expect(await slip.getByRole('row', { name: /^Permeability/ }).innerText()).toContain('memory');
    await page.keyboard.press('Escape');
    await page.getByRole('button', { name: 'As assumed' }).click();
    await eventually(() => field('Way to fill').inputValue()).toBe('1');
    expectQuiet(planner);
  });
});
