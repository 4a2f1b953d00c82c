/** An edit that cannot be kept: it is taken back with its reason, and nothing else is held up. */
import type { Page } from 'playwright-core';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { openPlanner, type Planner } from '../browser/planner.ts';
import { answer, eventually, panel, saved, type } from './hands.ts';

let planner: Planner;
let page: Page;
beforeEach(async () => {
  planner = await openPlanner({ sample: 'harbour-gate-sign' });
  page = planner.page;
  await answer(page, 'fit').waitFor();
});
afterEach(() => planner.close());

/** A Sunday on which the clocks of Berlin go from 02:00 to 03:00. */
const SKIPPED_IN_BERLIN = '2027-03-28T02:30';

const field = (label: string) => page.locator('section.sheet').getByLabel(label, { exact: true });
const undo = () => page.getByRole('button', { name: 'Undo', exact: false }).click();

async function open(name: string, expectIt = true): Promise<void> {
  await page.keyboard.press('Control+o');
  const row = page.getByRole('dialog').getByRole('button', { name: new RegExp(`^${name}`) });
  await row.first().click();
  if (!expectIt) return;
  await page.getByRole('button', { name: `Open build: ${name}` }).waitFor();
  await page.getByRole('dialog').waitFor({ state: 'hidden' });
}

/** The document of a build as the store has it. */
async function stored(name: string): Promise<Record<string, unknown>> {
  const row = (await planner.call('build-list', {})).find((build) => build.name === name);
  return (await planner.call('build-open', { id: row!.id })).document;
}

describe('a time zone in which a stored local time does not exist', () => {
  it('is taken back with its reason; later edits, undo and other builds go on', async () => {
    const sign = 'Harbour gate sign';
    await panel(page, 'Dates & people');
    await type(page, 'Work may begin', SKIPPED_IN_BERLIN);
    await saved(page);
    const zone = await field('Time zone').inputValue();
    expect(zone).not.toBe('Europe/Berlin');

    await type(page, 'Time zone', 'Europe/Berlin');
    const refusal = page.locator('[data-refused]');
    await refusal.waitFor();
    const words = await refusal.innerText();
    expect(words).toContain('Time zone: Europe/Berlin');
    expect(words).toContain('Work may begin');
    expect(words).toContain(SKIPPED_IN_BERLIN);
    expect(words).toContain('a time that exists in Europe/Berlin');
    // The words stay in the field, to be corrected, with the reason beside them.
    expect(await field('Time zone').inputValue()).toBe('Europe/Berlin');
    expect(await page.locator('#people-zone-fault').innerText()).toContain('Europe/Berlin');
    // Board and answers are those of the build as it stands.
    await saved(page);
    expect(await answer(page, 'fit').isVisible()).toBe(true);

    await panel(page, 'Resin & room');
    const before = await field('By night').inputValue();
    await type(page, 'By night', '12');
    await saved(page);
    await type(page, 'By day', '23');
    await saved(page);
    expect(await stored(sign)).toMatchObject({
      zone,
      earliestStart: SKIPPED_IN_BERLIN,
      room: { temperatureC: { day: 23, night: 12 } },
    });

    await undo();
    await undo();
    await eventually(() => field('By night').inputValue()).toBe(before);
    await page.getByRole('button', { name: 'Redo' }).click();
    await eventually(() => field('By night').inputValue()).toBe('12');

    await open('Petrel shell');
    await saved(page);
    await open(sign);
    expect(await field('By night').inputValue()).toBe('12');
    await panel(page, 'Dates & people');
    expect(await field('Work may begin').inputValue()).toBe('Sun 28 Mar 2027 02:30');
    expect(await field('Time zone').inputValue()).toBe(zone);

    // Corrected: first the time that does not exist there, then the zone.
    await type(page, 'Work may begin', '2027-03-28T04:30');
    await type(page, 'Time zone', 'Europe/Berlin');
    await saved(page);
    expect(await refusal.count()).toBe(0);
    expect((await stored(sign))['zone']).toBe('Europe/Berlin');
    expect(planner.trouble).toEqual([]);
  });
});

describe('while the program does not answer', () => {
  it('leaving a build asks, staying loses nothing, and everything is kept in the end', async () => {
    await page.route('**/api/build-save', (route) => route.abort());
    await panel(page, 'Resin & room');
    await type(page, 'By night', '12');
    await page.locator('[data-save="failed"]').waitFor();

    await open('Petrel shell', false);
    const question = page.getByRole('dialog', { name: /not saved/ });
    await question.waitFor();
    await question.getByRole('button', { name: 'Stay' }).click();
    await question.waitFor({ state: 'hidden' });
    await page.keyboard.press('Escape');
    await page.getByRole('button', { name: 'Open build: Harbour gate sign' }).waitFor();
    expect(await field('By night').inputValue()).toBe('12');
    expect(await page.locator('[data-save]').getAttribute('data-save')).not.toBe('saved');

    // A reload asks as well, and is given up here.
    const asked = page.waitForEvent('dialog');
    void page.reload().catch(() => undefined);
    const leaving = await asked;
    expect(leaving.type()).toBe('beforeunload');
    await leaving.dismiss();
    expect(await field('By night').inputValue()).toBe('12');

    await page.unroute('**/api/build-save');
    await page.getByRole('button', { name: 'Try again' }).click();
    await saved(page);
    await open('Petrel shell');
    await open('Harbour gate sign');
    expect(await field('By night').inputValue()).toBe('12');
  });

  it('a build can be left without what is not saved, if that is what is wanted', async () => {
    await panel(page, 'Resin & room');
    const before = await field('By night').inputValue();
    await page.route('**/api/build-save', (route) => route.abort());
    await type(page, 'By night', '12');
    await page.locator('[data-save="failed"]').waitFor();
    await open('Petrel shell', false);
    const question = page.getByRole('dialog', { name: /not saved/ });
    await question.getByRole('button', { name: /without/ }).click();
    await page.getByRole('button', { name: 'Open build: Petrel shell' }).waitFor();
    await page.unroute('**/api/build-save');
    await page.locator('[data-save="saved"]').waitFor();
    await open('Harbour gate sign');
    expect(await field('By night').inputValue()).toBe(before);
  });
});

describe('a build that is not complete yet', () => {
  /** The empty build is on screen, and no longer the one before it. */
  const nameless = (window: Page) => {
    const name = window.locator('section.sheet').getByLabel('Build', { exact: true });
    return eventually(() => name.inputValue()).toBe('');
  };

  it('is in two windows at once, and neither loses what was typed in the other', async () => {
    await page.keyboard.press('Control+o');
    await page.getByRole('button', { name: 'New empty build' }).click();
    await nameless(page);
    await type(page, 'Build', 'Half a boat');
    await page.locator('[data-save="draft"]').waitFor();
    const second = await page.context().newPage();
    await second.goto(planner.url);
    await second.getByText('Not a plan yet').waitFor();
    await type(page, 'Area', '4');
    await page.locator('[data-save="draft"]').waitFor();
    // The second window has not seen the area.
    await type(second, 'Unveiling', '2027-06-18T17:00');
    const area = second.locator('section.sheet').getByLabel('Area', { exact: true });
    await eventually(() => area.inputValue()).toBe('4');
    const stored = () => planner.call('session-start', {});
    await eventually(async () => (await stored()).draft?.document).toMatchObject({
      name: 'Half a boat',
      unveiling: '2027-06-18T17:00',
      part: { zones: [{ areaM2: 4 }] },
    });
    // A second new build takes nothing from the first.
    await second.keyboard.press('Control+o');
    await second.getByRole('button', { name: 'New empty build' }).click();
    await nameless(second);
    await type(second, 'Build', 'Half a plane');
    const names = async () => (await stored()).drafts.map(({ name }) => name).sort();
    await eventually(names).toEqual(['Half a boat', 'Half a plane']);
  });
});
