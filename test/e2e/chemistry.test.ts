/** The chemistry on the screen: sheet, batch, cure, log and initiator, by hand and in both themes. */
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { projectRoot } from '../../main/root.ts';
import { openPlanner, type Planner } from '../browser/planner.ts';
import { faultsIn } from './axe.ts';
import { eventually, expectQuiet, panel, saved, tray } from './hands.ts';

let planner: Planner;
let page: Page;
beforeAll(async () => {
  planner = await openPlanner({ sample: 'shell-6kg' });
  page = planner.page;
  await tray(page, 'Chemistry');
});
afterAll(() => planner.close());

const chemistry = (tab: string) =>
  page.getByRole('tablist', { name: 'The chemistry in depth' }).getByRole('tab', { name: tab });
const field = (label: string) => page.locator('#chemistry-body').getByLabel(label, { exact: true });
const ours = async () =>
  (await planner.call('session-start', {})).open!.document as {
    library?: { resins?: { hardeners: { id: string; sheet: { minutes: number }[] }[] }[] };
  };
const firstRow = async (): Promise<number | undefined> =>
  (await ours()).library?.resins?.[0]?.hardeners.find(({ id }) => id === 'slow')?.sheet[0]?.minutes;

async function type(label: string, text: string): Promise<void> {
  await field(label).fill(text);
  await field(label).blur();
}

describe('the data sheet', () => {
  beforeAll(() => chemistry('Data sheet').click());

  it('typed over, is this build’s own; the row that is missed is named; undo brings it back', async () => {
    await page.locator('[data-review]').getByText('The rows agree').waitFor();
    const before = await field('Row 1, minutes').inputValue();
    await type('Row 1, minutes', '5 h');
    await saved(page);
    await page
      .locator('[data-review]')
      .getByText(/^▲ Pot life, 150 g in a cup at/)
      .first()
      .waitFor();
    expect(await firstRow()).toBe(300);
    await page.getByRole('button', { name: 'Undo' }).click();
    await eventually(() => field('Row 1, minutes').inputValue()).toBe(before);
    await page.locator('[data-review]').getByText('The rows agree').waitFor();
  });

  it('offers Celsius for a temperature typed in Fahrenheit', async () => {
    await type('Row 3, temperature, °C', '77');
    await page.getByRole('alert').getByText('77 °F would be 25 °C').waitFor();
    expect(await field('Row 3, temperature, °C').inputValue()).toBe('77');
    await page.getByRole('button', { name: 'Take 25 °C' }).click();
    await eventually(() => field('Row 3, temperature, °C').inputValue()).toBe('25');
    await saved(page);
    await page.getByRole('button', { name: 'Undo' }).click();
    await eventually(() => field('Row 3, temperature, °C').inputValue()).toBe('20');
  });

  it('takes rows more and rows fewer', async () => {
    const rows = page.locator('#chemistry-body tbody tr');
    const count = await rows.count();
    await page.getByRole('button', { name: 'Add a row' }).click();
    await eventually(() => rows.count()).toBe(count + 1);
    await page.getByRole('button', { name: new RegExp(`^Remove row ${count + 1},`) }).click();
    await eventually(() => rows.count()).toBe(count);
    await saved(page);
  });
});

describe('a batch', () => {
  beforeAll(() => chemistry('What if of a batch').click());

  it('answers for its mass and vessel, with cautions where it is hot', async () => {
    await type('Mixed mass', '900');
    const asked = page.locator('[data-batch="0"]');
    await eventually(() => asked.innerText()).toContain('900 g, cup');
    await eventually(() => page.locator('[data-verdict]').innerText()).toMatch(/Runs away/);
    await page.getByText('A hot cup goes outside on concrete').waitFor();
    const cup = await asked.innerText();
    await field('In a').selectOption('tray');
    await eventually(() => asked.innerText()).toContain('900 g, tray');
    expect(await asked.innerText()).not.toBe(cup);
    await type('Must stay workable', '3 h');
    await eventually(() => page.locator('[data-largest]').innerText()).toMatch(/3 h.*(none|g)/s);
  });
});

describe('a cure', () => {
  beforeAll(() => chemistry('Cure & surface').click());

  it('says its moments, its witnesses, its Tg and the face it leaves', async () => {
    await eventually(() => page.locator('[data-moment]').count()).toBe(8);
    expect(await page.locator('[data-moment="debag"]').innerText()).toContain('Shore D 70');
    expect(await page.locator('[data-moment="bondUntil"]').innerText()).toContain('abrade after');
    await eventually(() => page.locator('[data-tg]').innerText()).toMatch(/needs \d+ °C/);
    expect(await page.locator('.surfaces tbody tr').count()).toBe(4);
    await eventually(() => page.locator('[data-lifts]').innerText()).toMatch(/potting .*\d+ mm/);
  });

  it('opens every moment to its formula', async () => {
    await page.locator('[data-moment="gel"] button').first().click();
    await page
      .getByRole('dialog')
      .getByText(/^dose = /)
      .waitFor();
    await page.keyboard.press('Escape');
  });
});

describe('heat and hardener of one cure', () => {
  const moment = (key: string) => page.locator(`[data-moment="${key}"] button`).first().innerText();

  it('a tent over the bag brings bag-off forward; a shop without one is told; undo takes it off', async () => {
    await field('Cure').selectOption({ index: 0 });
    const before = await moment('debag');
    await field('Heat under the bag').selectOption('on');
    await page
      .locator('[data-heat-span]')
      .getByText(/40 °C \(104 °F\) at most/)
      .waitFor();
    await eventually(() => moment('debag')).not.toBe(before);
    const warm = await moment('debag');
    await type('Ramp', '9 °F/h');
    // The field goes on in the unit that was typed in it.
    await eventually(() => field('Ramp').inputValue()).toBe('9');
    await eventually(() => moment('debag')).not.toBe(warm);
    await page.getByRole('button', { name: 'Add a step' }).click();
    await type('To, step 2', '300');
    await page.getByRole('alert').or(page.locator('#cure-heat-to-1-fault')).first().waitFor();
    await field('To, step 2').press('Escape');
    await page.getByRole('button', { name: 'Remove step 2' }).click();
    await saved(page);
    await field('Heat under the bag').selectOption('none');
    await eventually(() => moment('debag')).toBe(before);
    await saved(page);
    const { document } = (await planner.call('session-start', {})).open!;
    expect(document['heat']).toBeUndefined();
  });

  it('another hardener for one cure leaves the others as they were', async () => {
    const before = await moment('gel');
    await field('Hardener of this cure').selectOption('fast');
    await eventually(() => moment('gel')).not.toBe(before);
    await saved(page);
    const { document } = (await planner.call('session-start', {})).open!;
    const resin = document['resin'] as { hardener: string; hardenerFor: Record<string, string> };
    expect(resin).toMatchObject({ hardener: 'slow', hardenerFor: { skin: 'fast' } });
    await page.getByRole('button', { name: 'Undo' }).click();
    await eventually(() => moment('gel')).toBe(before);
    await saved(page);
  });
});

describe('a temperature log', () => {
  beforeAll(() => chemistry('Temperature log').click());
  const open = (file: string) =>
    page.locator('#log-file').setInputFiles(join(projectRoot(), 'samples/logs', file));

  it('is read with every repair said, and set beside the room', async () => {
    await open('mould-two-probes.csv');
    const mended = page.locator('[data-mended]');
    await mended.getByText('Decimal commas were read as decimals.').waitFor();
    await mended.getByText('A byte-order mark at the start was left out.').waitFor();
    await page.getByText('The coldest of mould top').waitFor();
  });

  it('that is none is refused in words', async () => {
    await page.locator('#log-file').setInputFiles({
      name: 'poem.txt',
      mimeType: 'text/plain',
      buffer: Buffer.from('The wind\nthe rain\n'),
    });
    await page.getByRole('alert').getByText('no table of times and temperatures').waitFor();
  });

  it('gives the room its day and night on request', async () => {
    await open('shop-week.csv');
    await page.getByLabel('It is of other days').check();
    await page.getByRole('button', { name: 'Use its day and night for the room' }).click();
    await saved(page);
    const { document } = (await planner.call('session-start', {})).open!;
    const { temperatureC } = document['room'] as { temperatureC: { day: number; night: number } };
    expect(temperatureC.night).toBeLessThan(temperatureC.day);
    await page.getByRole('button', { name: 'Undo' }).click();
    await saved(page);
  });

  it('stands for the room as far as it goes, with its repairs in view, until it is taken off', async () => {
    await open('mould-two-probes.csv');
    await page.getByText('The coldest of mould top').waitFor();
    // No cure of the build lies in it: it is asked about before it counts.
    const use = page.getByRole('button', { name: 'Use as the room’s temperature' });
    expect(await use.isDisabled()).toBe(true);
    await page.getByLabel('It is of other days').check();
    await field('Where the logger was').selectOption('part');
    await use.click();
    await page
      .locator('[data-kept]')
      .getByText(/readings in \d+ means of 60 min/)
      .waitFor();
    await page.locator('[data-mended]').getByText('Decimal commas').waitFor();
    await saved(page);
    const room = async () =>
      (await planner.call('session-start', {})).open!.document['room'] as {
        measured?: { place: string; temperaturesC: number[] };
      };
    expect((await room()).measured!.place).toBe('part');
    expect((await room()).measured!.temperaturesC.length).toBeGreaterThan(20);
    await panel(page, 'Resin & room');
    await page.locator('[data-measured]').getByText('on the coldest spot').waitFor();
    await page.getByRole('button', { name: 'Remove the log' }).click();
    await saved(page);
    await eventually(async () => (await room()).measured).toBeUndefined();
  });
});

describe('a polyester', () => {
  it('has its dose as the lever, inside the maker’s range', async () => {
    await panel(page, 'Resin & room');
    await page.locator('section.sheet').getByLabel('Resin', { exact: true }).selectOption('marl-7');
    await chemistry('Initiator').click();
    await type('Initiator for 100 g of resin', '3');
    await page
      .getByRole('alert')
      .getByText(/1 g to 2 g/)
      .waitFor();
    await field('Initiator for 100 g of resin').press('Escape');
    await type('Initiator for 100 g of resin', '1.25');
    await eventually(() => page.locator('[data-dose]').innerText()).toMatch(
      /1\.25 g gels a film in/,
    );
    await page.getByRole('button', { name: 'Take this dose' }).click();
    await saved(page);
    const { document } = (await planner.call('session-start', {})).open!;
    expect(document['resin']).toEqual({ system: 'marl-7', hardener: 'dose-between-1.25' });
    await page.getByText('Air inhibits the cure').waitFor();
    await page.getByText('Styrene dissolves EPS and XPS').waitFor();
  });
});

describe.each(['light', 'dark'])('in the %s theme', (theme) => {
  it('every tab is free of faults and nothing is too small for gloves', async () => {
    await page.getByLabel('Light, dark or high contrast').selectOption(theme);
    const found: string[] = [];
    const tabs = [
      'Cure & surface',
      'What if of a batch',
      'Cup & smear',
      'Infusion',
      'Data sheet',
      'Temperature log',
      'Initiator',
    ];
    for (const tab of tabs) {
      await chemistry(tab).click();
      const faults = await faultsIn(page);
      const small = await page.evaluate(() =>
        [...document.querySelectorAll('#chemistry-body :is(button, select, input, summary)')]
          .filter((element) => !element.matches('[type=checkbox], [type=range]'))
          .filter((element) => {
            const { height } = element.getBoundingClientRect();
            return height > 0 && height < 32;
          })
          .map((element) => `too small: ${element.outerHTML.slice(0, 120)}`),
      );
      found.push(...[...faults, ...small].map((fault) => `${tab}: ${fault}`));
      const wide = await page.evaluate(() => {
        const body = document.querySelector('#chemistry-body')!;
        return body.scrollWidth > body.clientWidth ? 'lies beside the page' : '';
      });
      if (wide) found.push(`${tab}: ${wide}`);
    }
    expect(found).toEqual([]);
    expectQuiet(planner);
  });
});
