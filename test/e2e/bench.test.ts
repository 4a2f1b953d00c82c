/** The bench view in a browser: stamps by key and by press, clocks, alarms, sleep, the way back. */
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { plan } from '../../app/answer/plan.ts';
import type { Build } from '../../app/document/schema.ts';
import { FIRST_ANSWER } from '../../app/plan/outcome.ts';
import { isoToMinute } from '../../app/time/zone.ts';
import { openPlanner, type Planner } from '../browser/planner.ts';
import { onFloor, recordedBefore } from '../browser/floor.ts';
import { library, NOW, smallBuild } from '../support/builds.ts';
import { eventually, expectQuiet } from './hands.ts';

const document: Build = {
  ...smallBuild(),
  route: { joints: { 'skin-core': 'apart', 'core-inner': 'apart' } },
};
const before = plan(document, library(), NOW, FIRST_ANSWER);
const skin = before.result.stages.find(({ id }) => id === 'layup:skin')!;
const mixAt = isoToMinute(skin.start!)!;

let planner: Planner;
let page: Page;
let floor: Awaited<ReturnType<typeof onFloor>>;
beforeAll(async () => {
  planner = await openPlanner();
  page = planner.page;
  floor = await onFloor(planner, {
    build: { ...document, records: recordedBefore(before, mixAt) },
    minute: mixAt - 2,
  });
});
afterAll(() => planner.close());

let keyAtMixes = 0;
const step = () => page.locator('[data-step]').getAttribute('data-step');
const key = (name: string) => page.locator(`[data-key="${name}"]`);
const clockOf = (kind: string) => page.locator(`[data-clock="${kind}"]`).first();
const records = async () =>
  ((await planner.call('session-start', {})).open!.document as Build).records ?? [];
const recordCount = async () => (await records()).length;
/** Holds the space bar until the step has been stamped. */
const holdUntilStamped = async () => {
  const before = await step();
  await page.keyboard.down(' ');
  await eventually(step).not.toBe(before);
  await page.keyboard.up(' ');
};

describe('at the bench', () => {
  it('shows what is now, how much, and what comes next, over the whole window', async () => {
    await page.keyboard.press('b');
    await eventually(step).toBe('layup:skin/mixed/1');
    const box = (await page.getByRole('dialog', { name: 'At the bench' }).boundingBox())!;
    expect([box.width, box.height]).toEqual([1280, 720]);
    expect(await page.getByRole('heading', { level: 2 }).innerText()).toBe('Lay up outer skin');
    expect(await page.locator('.about').innerText()).toMatch(/Batch 1 of \d+, \d+ g/);
    expect(await page.locator('.next').innerText()).toContain('Lay up outer skin: batch 2 mixed');
  });

  it('says its cautions large enough for three metres, whole, with all of them by one press', async () => {
    const first = page.locator('.caution .first');
    expect(await first.innerText()).toBe('Gloves, sleeves, eyes covered');
    const pxOf = (selector: string) =>
      page
        .locator(selector)
        .first()
        .evaluate((element) => parseFloat(getComputedStyle(element).fontSize));
    expect(await pxOf('.caution .first')).toBeGreaterThanOrEqual(40);
    expect(await pxOf('.caution')).toBeGreaterThanOrEqual(24);
    expect(await pxOf('.next')).toBeGreaterThanOrEqual(36);
    const caution = (await page.locator('.caution').boundingBox())!;
    expect(caution.y + caution.height).toBeLessThanOrEqual((await key('mixed').boundingBox())!.y);
    await page.getByRole('button', { name: 'All cautions' }).click();
    const all = page.getByRole('region', { name: 'All cautions' });
    expect(await all.innerText()).toContain('soap and water on skin, never solvent');
    expect(await all.innerText()).toContain('Data sheets, local rules');
    expect(await pxOf('.cautions')).toBeGreaterThanOrEqual(24);
    await page.getByRole('button', { name: 'Back to the clocks' }).click();
    await all.waitFor({ state: 'hidden' });
  });

  it('calls for the mix at its minute, with sound and notification, until somebody answers', async () => {
    const silent = await floor.counts();
    expect(silent).toMatchObject({ notes: [] });
    await page.keyboard.press('Shift');
    await floor.leap(3 * 60);
    await page.getByRole('alert').getByText('Mix now').waitFor();
    await eventually(async () => (await floor.counts()).notes).toContain('Mix now');
    await eventually(async () => (await floor.counts()).tones).toBeGreaterThan(0);
    const { tones } = await floor.counts();
    await eventually(async () => (await floor.counts()).tones).toBeGreaterThan(tones);
    await page.keyboard.press(' ');
    await key('mixed').waitFor();
  });

  it('stamps a mix only when the key is held', async () => {
    const count = await recordCount();
    await page.keyboard.press(' ');
    expect(await step()).toBe('layup:skin/mixed/1');
    await holdUntilStamped();
    await eventually(recordCount).toBe(count + 1);
    const last = (await records()).at(-1)!;
    expect(last.stage).toBe('layup:skin');
    expect(last.mixes).toHaveLength(1);
    expect(last.end).toBeNull();
    expect(await clockOf('use-by').innerText()).toContain('Use this cup by');
    expect(await clockOf('bag-by').innerText()).toContain('Bag down by');
    await page.getByText('Kept awake').waitFor();
  });

  it('takes a wrong stamp back with one key, by a record of its own', async () => {
    const count = await recordCount();
    await page.keyboard.press('Backspace');
    await eventually(step).toBe('layup:skin/mixed/1');
    await eventually(recordCount).toBe(count + 1);
    expect((await records()).at(-1)).toMatchObject({ stage: 'layup:skin', takenBack: true });
    await holdUntilStamped();
  });

  it('goes through the batches to the bag by pressing on the screen, and on to the gel', async () => {
    keyAtMixes = (await key('mixed').boundingBox())!.y;
    for (let i = 0; i < 12 && (await step()) !== 'layup:skin/bag-down'; i++) {
      const now = await step();
      const box = (await key('mixed').boundingBox())!;
      await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2);
      await page.mouse.down();
      await eventually(step).not.toBe(now);
      await page.mouse.up();
    }
    await floor.leap(40 * 60);
    await holdUntilStamped();
    await eventually(async () => (await records()).at(-1)?.stage).toBe('layup:skin');
    await eventually(async () => (await records()).at(-1)?.end ?? null).not.toBeNull();
    await eventually(() => page.locator('[data-clock]').allInnerTexts()).toEqual(
      expect.arrayContaining([expect.stringContaining('Gel at the latest')]),
    );
  });

  it('calls at the gel and at the bag-off after a sleep over both, with the page hidden too', async () => {
    await floor.hide(true);
    const { tones } = await floor.counts();
    await floor.leap(30 * 3600);
    const alert = page.getByRole('alert');
    await alert.getByText('Look at the smear: has it gelled?').waitFor();
    await alert.getByText('The bag may come off').waitFor();
    await eventually(async () => (await floor.counts()).tones).toBeGreaterThan(tones);
    await eventually(async () => (await floor.counts()).notes).toEqual(
      expect.arrayContaining(['Look at the smear: has it gelled?', 'The bag may come off']),
    );
    await floor.hide(false);
    await key('answer').dispatchEvent('pointerdown', { button: 0 });
    await alert.waitFor({ state: 'hidden' });
    await eventually(step).toBe('cure:skin/gel');
    // The key stands where it stood at the mixes, though no caution is over it.
    expect((await page.locator('.now > button').boundingBox())!.y).toBeCloseTo(keyAtMixes, 0);
    await holdUntilStamped();
    await eventually(async () => (await records()).map(({ stage }) => stage)).toContain(
      'cure:skin',
    );
  });

  it('leaves by Escape and says in the plan what is done', async () => {
    await page.keyboard.press('Escape');
    await page.getByRole('dialog').waitFor({ state: 'hidden' });
    expectQuiet(planner);
  });
});
