/** Builds from files, good and bad, and builds removed. */
import { readFile } from 'node:fs/promises';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { shippedSamples } from '../../main/samples.ts';
import { openPlanner, type Planner } from '../browser/planner.ts';
import { answer, eventually, expectQuiet, thoughtThrough } from './hands.ts';

let planner: Planner;
let page: Page;
beforeAll(async () => {
  planner = await openPlanner();
  page = planner.page;
});
afterAll(() => planner.close());

const sample = JSON.parse(shippedSamples()[0]!.text()) as Record<string, unknown>;
const offer = async (name: string, text: string) => {
  // A dialog that is still closing takes the key.
  await page.getByRole('dialog').waitFor({ state: 'hidden' });
  await page.keyboard.press('Control+o');
  await page
    .getByLabel('From a file')
    .setInputFiles({ name, mimeType: 'application/json', buffer: Buffer.from(text) });
};

describe('a build file', () => {
  it.each([
    ['noise.json', 'not a build at all', '(file)'],
    ['newer.json', JSON.stringify({ ...sample, formatVersion: 99 }), 'formatVersion'],
    ['date.json', JSON.stringify({ ...sample, unveiling: '2027-02-30T10:00' }), 'unveiling'],
    [
      'resin.json',
      JSON.stringify({ ...sample, resin: { system: 'glue', hardener: 'x' } }),
      'resin.system',
    ],
  ])(
    '%s is refused with the field at fault; the open build is untouched',
    async (name, text, path) => {
      // The full answer words the same plan anew: it has to stand before it is compared.
      await thoughtThrough(page);
      const before = await answer(page, 'fit').innerText();
      const list = await planner.call('build-list', {});
      await offer(name, text);
      const alert = page.getByRole('alert');
      await alert.getByText(`${name} was not opened.`).waitFor();
      expect(await alert.innerText()).toContain(path);
      await page.keyboard.press('Escape');
      expect(await answer(page, 'fit').innerText()).toBe(before);
      expect(await planner.call('build-list', {})).toEqual(list);
    },
  );

  it('is saved from the list of builds, which says what goes with it, and opens again', async () => {
    await page.keyboard.press('Control+o');
    const list = page.getByRole('dialog', { name: 'Builds' });
    const open = (await planner.call('session-start', {})).open!;
    await list.getByText('Earlier states and their names stay here').waitFor();
    const [download] = await Promise.all([
      page.waitForEvent('download'),
      list.getByRole('button', { name: 'Save the open build as a file' }).click(),
    ]);
    const name = String(open.document['name']);
    expect(download.suggestedFilename()).toBe(`${name}.build.json`);
    const saved = JSON.parse(await readFile(await download.path(), 'utf8')) as object;
    expect(saved).toEqual(open.document);
    await page.keyboard.press('Escape');
  });

  it('that is sound opens as a build of its own, and can be removed again', async () => {
    const before = (await planner.call('build-list', {})).length;
    await offer('mine.json', JSON.stringify({ ...sample, name: 'Mine from a file' }));
    await page.getByRole('button', { name: 'Open build: Mine from a file' }).waitFor();
    await page.getByRole('dialog').waitFor({ state: 'hidden' });
    await answer(page, 'fit').waitFor();
    await page.keyboard.press('Control+o');
    await page.getByRole('button', { name: 'Remove Mine from a file' }).click();
    await page.getByRole('button', { name: 'Remove Mine from a file' }).click();
    await eventually(async () => (await planner.call('build-list', {})).length).toBe(before);
    await page.keyboard.press('Escape');
    await page.getByText('No build is open').waitFor();
    expectQuiet(planner);
  });
});
