/** The decision on the screen: what it costs later, closing a build, questions, routes side by side. */
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openPlanner, type Planner } from '../browser/planner.ts';
import { faultsIn } from './axe.ts';
import { eventually, expectQuiet, panel, saved, tray } from './hands.ts';

let planner: Planner;
let page: Page;
beforeAll(async () => {
  planner = await openPlanner({ sample: 'shell-6kg' });
  page = planner.page;
  await tray(page, 'Choices & odds');
});
afterAll(() => planner.close());

const tab = (name: string) =>
  page.getByRole('tablist', { name: 'The decision in depth' }).getByRole('tab', { name });
const document = async () =>
  (await planner.call('session-start', {})).open!.document as {
    library?: { consequences?: { id: string; extraHours: number }[] };
    part: { questions?: { id: string; answer: string | null }[] };
  };
const hoursOf = async () =>
  (await document()).library?.consequences?.find(({ id }) => id === 'hard-demould')?.extraHours;

const faults = () => faultsIn(page, '#tray-body');

describe('what it costs later', () => {
  beforeAll(() => tab('What it costs later').click());
  const row = () => page.locator('[data-consequence="hard-demould"]');

  it('is common practice, set by the shop, taken back and put back', async () => {
    await row().getByText('common practice').waitFor();
    const cell = row().getByLabel('Hard demould, work, h');
    await cell.fill('6');
    await cell.blur();
    await saved(page);
    expect(await hoursOf()).toBe(6);
    await row().getByRole('combobox', { name: 'Hard demould, where' }).selectOption('measured');
    await saved(page);
    await row().getByRole('button', { name: 'Back to the library’s' }).click();
    await saved(page);
    expect(await hoursOf()).toBe(4);
    await row().getByText('common practice').waitFor();
    await page.getByRole('button', { name: 'Undo' }).click();
    await eventually(hoursOf).toBe(6);
  });

  it('refuses what is no figure and says why', async () => {
    const cell = row().getByLabel('Hard demould, filler');
    await cell.fill('much');
    await cell.blur();
    await row().locator('.fault').waitFor();
    expect(await faults()).toEqual([]);
    await cell.press('Escape');
  });
});

describe('the usual questions', () => {
  beforeAll(() => panel(page, 'Questions'));

  it('are added in one gesture and answered with a name', async () => {
    const before = (await document()).part.questions?.length ?? 0;
    await page.getByRole('button', { name: /^Add all \d/ }).click();
    await saved(page);
    const questions = (await document()).part.questions!;
    expect(questions.length).toBeGreaterThan(before + 1);
    await page.getByText('Not released until then').first().waitFor();
    const card = page.locator('section.sheet li', { hasText: 'Who carries the part' });
    const field = card.getByRole('textbox').first();
    await field.fill('Van of two metres');
    await field.blur();
    await card.getByLabel('By whom').fill('M. Ferris');
    await card.getByLabel('By whom').blur();
    await saved(page);
    const answer = async () =>
      (await document()).part.questions!.find(({ id }) => id === 'who-carries')!.answer;
    await eventually(answer).toBe('Van of two metres — by M. Ferris');
  });
});

describe('routes', () => {
  it('stand side by side, each with what it is chosen by', async () => {
    await tray(page, 'Routes');
    const table = page.locator('#tray-body table').first();
    for (const head of ['Open until', 'Ready', 'To spare', 'Hands on', 'Weight']) {
      await table.getByRole('rowheader', { name: head, exact: true }).waitFor();
    }
    const section = table.getByRole('columnheader').first().getByRole('img');
    await expect.poll(() => section.getAttribute('aria-label')).toContain('Outer skin');
    await table.getByText(/✓ (Best|Chosen)/).waitFor();
    expect(await faults()).toEqual([]);
  });
});

describe('closing a build of the shop’s own', () => {
  it('is counted, a sample is not', async () => {
    await tray(page, 'Choices & odds');
    await tab('Close the build').click();
    await page.getByText('This is a sample').waitFor();
    await page.getByRole('button', { name: 'Add what went wrong' }).click();
    await page.locator('[data-taught]').first().waitFor();
    expect(await faults()).toEqual([]);
    const sample = (await planner.call('session-start', {})).open!;
    const own = await planner.call('build-create', {
      document: { ...sample.document, name: 'Own shell' },
    });
    await page.reload();
    await page.getByRole('heading', { name: 'Own shell' }).waitFor({ state: 'attached' });
    await page.getByLabel('This build is closed').check();
    await saved(page);
    await page.getByText('1 closed build of the shop').waitFor();
    const lessons = await planner.call('lessons-read', {});
    expect(lessons.map((one) => one.id)).toEqual([own.id]);
  });

  it('leaves the console quiet', () => expectQuiet(planner));
});
