/** A phone pack from end to end: opened as a file without a network, ticked, its text pasted and taken. */
import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { plan } from '../../app/answer/plan.ts';
import type { Build } from '../../app/document/schema.ts';
import { FIRST_ANSWER } from '../../app/plan/outcome.ts';
import { openSteps } from '../../app/shop/floor/steps.ts';
import { phonePage } from '../../app/shop/phone/page.ts';
import { isoToMinute } from '../../app/time/zone.ts';
import { onFloor, recordedBefore } from '../browser/floor.ts';
import { openPlanner, type Planner } from '../browser/planner.ts';
import { library, NOW, smallBuild } from '../support/builds.ts';
import { eventually, expectQuiet } from './hands.ts';

const small: Build = {
  ...smallBuild(),
  route: { joints: { 'skin-core': 'apart', 'core-inner': 'apart' } },
};
const first = plan(small, library(), NOW, FIRST_ANSWER);
const layup = first.result.stages.find(({ id }) => id === 'layup:skin')!;
const mixAt = isoToMinute(layup.start!)!;
const build: Build = { ...small, records: recordedBefore(first, mixAt) };
const outcome = plan(build, library(), mixAt - 5, FIRST_ANSWER);
const keys = openSteps(outcome)
  .filter(({ stage }) => stage === 'layup:skin')
  .map(({ key }) => key);

let planner: Planner;
let phone: Page;
let folder: string;
const trouble: string[] = [];
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'backcure-phone-'));
  const file = join(folder, 'pack.html');
  planner = await openPlanner();
  await onFloor(planner, { build, minute: mixAt + 240 });
  // The store gives a build its id: the pack is of the stored one.
  const stored = (await planner.call('session-start', {})).open!.document as Build;
  await writeFile(file, phonePage(plan(stored, library(), mixAt - 5, FIRST_ANSWER)));
  const context = await planner.page
    .context()
    .browser()!
    .newContext({ offline: true, viewport: { width: 390, height: 800 } });
  phone = await context.newPage();
  phone.on('console', (message) => trouble.push(message.text()));
  phone.on('pageerror', (error) => trouble.push(error.message));
  phone.on('request', (request) => {
    if (!request.url().startsWith('file:')) trouble.push(request.url());
  });
  await phone.clock.setFixedTime(mixAt * 60_000);
  await phone.goto(pathToFileURL(file).href);
});
afterAll(async () => {
  await planner?.close();
  await rm(folder, { recursive: true, force: true });
});

const button = (key: string) => phone.locator(`button[data-key="${key}"]`);
const clocks = () => phone.locator('#clocks li').allInnerTexts();
const records = async () =>
  ((await planner.call('session-start', {})).open!.document as Build).records ?? [];

describe('a phone pack', () => {
  it('opens at its day, counts down to the mix, and wants a mix pressed twice', async () => {
    expect(
      await phone.locator(`details[data-day="${layup.start!.slice(0, 10)}"]`).getAttribute('open'),
    ).not.toBeNull();
    expect((await clocks())[0]).toMatch(/^now, \d\d:\d\d Mix by: .+, batch 1/);
    await button(keys[0]!).click();
    expect(await phone.locator('#text').inputValue()).toBe('');
    await button(keys[0]!).click();
    expect(await button(keys[0]!).getAttribute('aria-pressed')).toBe('true');
    expect(await button(keys[2]!).isDisabled()).toBe(true);
  });

  it('then counts down cup and bag from the tick, and keeps it when it is opened again', async () => {
    const shown = (await clocks()).join('\n');
    for (const name of ['Use this cup by', 'Bag down by', 'Gel at the earliest', 'Bag off from']) {
      expect(shown).toContain(name);
    }
    // The cards below are what is worked by: at most a quarter of the phone tells the time.
    const box = (await phone.locator('header').boundingBox())!;
    expect(box.height / phone.viewportSize()!.height).toBeLessThanOrEqual(0.25);
    await phone.reload();
    expect(await button(keys[0]!).getAttribute('aria-pressed')).toBe('true');
    for (const [i, key] of keys.slice(1).entries()) {
      await phone.clock.setFixedTime((mixAt + 10 * (i + 1)) * 60_000);
      await button(key).click();
      await button(key).click();
    }
    expect(await phone.locator('#count').innerText()).toBe(`${keys.length} ticks`);
    expect((await clocks()).join('\n')).not.toContain('Bag down by: Outer');
    expect(trouble).toEqual([]);
  });

  it('its text is shown tick by tick in the program, and taken only when somebody says so', async () => {
    const text = await phone.locator('#text').inputValue();
    const before = (await records()).length;
    const { page } = planner;
    await page.keyboard.press('k');
    const dialog = page.getByRole('dialog', { name: 'Ticks of a phone' });
    const pasted = dialog.getByLabel('Text of the phone');
    await pasted.fill(text.replace('layup', 'laiup'));
    await dialog.getByText('The check sum does not fit').waitFor();
    await pasted.fill(text);
    await eventually(() => dialog.locator('li[data-tick]').count()).toBe(keys.length);
    const row = dialog.locator(`li[data-tick="${keys[0]}"]`);
    expect(await row.innerText()).toMatch(/Lay up outer skin: mixed, Batch 1 of \d+, \d+ g/);
    expect(await row.innerText()).toContain(layup.start!.slice(11, 16));
    expect(await records()).toHaveLength(before);
    await dialog.getByRole('button', { name: 'Write one stage down' }).click();
    await eventually(async () => (await records()).length).toBe(before + 1);
    expect((await records()).at(-1)).toMatchObject({
      stage: 'layup:skin',
      start: layup.start!.slice(0, 16),
    });
    expect((await records()).at(-1)!.end).not.toBeNull();
    await pasted.fill(text);
    await dialog.getByText('Is written down already').first().waitFor();
    await dialog.getByText('Nothing of this can be written down').waitFor();
    expectQuiet(planner);
  });
});
