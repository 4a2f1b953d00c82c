/** What a field does with what it cannot take, and with the other system of units. */
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openPlanner, type Planner } from '../browser/planner.ts';
import { answer, eventually, expectQuiet, panel, saved, thoughtThrough, type } from './hands.ts';

let planner: Planner;
let page: Page;
beforeAll(async () => {
  planner = await openPlanner();
  page = planner.page;
  await panel(page, 'Job card');
});
afterAll(() => planner.close());

const field = (label: string) => page.locator('section.sheet').getByLabel(label, { exact: true });

describe('a field', () => {
  it.each([
    ['Room by day', '200', /−10 °C \(14 °F\) to 45 °C \(113 °F\)/],
    ['Room by day', 'warm', /not a number/],
    ['Area, first zone', '-2', /more than 0/],
    ['Area, first zone', '', /more than 0/],
    ['Area, first zone', '3 kg', /m², ft²/],
    ['Outer plies', '2 x wallpaper', /no cloth of the library/],
  ])('%s keeps "%s" and says what it takes', async (label, text, why) => {
    await thoughtThrough(page);
    const plan = await answer(page, 'fit').innerText();
    await type(page, label, text);
    expect(await field(label).inputValue()).toBe(text);
    expect(await field(label).getAttribute('aria-invalid')).toBe('true');
    const message = await field(label).getAttribute('aria-describedby');
    await eventually(() => page.locator(`[id="${message}"]`).innerText()).toMatch(why);
    expect(await answer(page, 'fit').innerText()).toBe(plan);
    await field(label).press('Escape');
    expect(await field(label).getAttribute('aria-invalid')).toBe('false');
  });

  it('takes either system of units, goes on in the one typed and shows the other', async () => {
    const areaM2 = async () => {
      const { document } = (await planner.call('session-start', {})).open!;
      return (document['part'] as { zones: { areaM2: number }[] }).zones[0]!.areaM2;
    };
    await type(page, 'Area, first zone', '20 ft2');
    await saved(page);
    expect(await field('Area, first zone').inputValue()).toBe('20');
    expect(await areaM2()).toBeCloseTo(1.858, 3);
    await page.locator('section.sheet').getByText('1.86 m²').waitFor();
    // A figure alone is read in the unit that stands beside it.
    await type(page, 'Area, first zone', '30');
    await eventually(areaM2).toBeCloseTo(2.787, 3);
    await page.reload();
    await panel(page, 'Job card');
    expect(await field('Area, first zone').inputValue()).toBe('30');
    await type(page, 'Area, first zone', '2.4 m2');
    await eventually(() => field('Area, first zone').inputValue()).toBe('2.4');
    await type(page, 'Room by day', '70 F');
    await eventually(() => field('Room by day').inputValue()).toBe('70');
  });

  it('emptied, is as assumed again: empty is not zero', async () => {
    await panel(page, 'Resin & room');
    await type(page, 'Humidity', '61');
    await saved(page);
    await type(page, 'Humidity', '');
    await eventually(() => field('Humidity').inputValue()).toBe('55');
    const { document } = (await planner.call('session-start', {})).open!;
    expect((document['room'] as Record<string, unknown>)['humidityPct']).toBeUndefined();
    expectQuiet(planner);
  });
});
