/** What a person does in the planner, in the words of the specs. */
import type { Locator, Page } from 'playwright-core';
import { expect } from 'vitest';
import { PANEL_NAMES, TRAY_NAMES } from '../../renderer/words/window.ts';
import type { Planner } from '../browser/planner.ts';

/** The drawers and the trays, by the names on their buttons. */
export const PANELS: readonly string[] = Object.values(PANEL_NAMES);
export const TRAYS: readonly string[] = Object.values(TRAY_NAMES);

/** The headline of one of the header's three answers. */
export const answer = (page: Page, key: 'fit' | 'next' | 'force'): Locator =>
  page.locator(`[data-answer="${key}"]`);

/** Opens the page anew with text of so many hundredths of its usual size, as the machine's settings have it. */
export async function openWithText(page: Page, percent: number): Promise<void> {
  await page.evaluate((of) => sessionStorage.setItem('text', `${of}%`), percent);
  await page.reload();
}

/** Lets `openWithText` set the size before anything of the page is drawn. */
export const letTextGrow = (page: Page): Promise<unknown> =>
  page.addInitScript(() =>
    document.addEventListener('DOMContentLoaded', () => {
      document.documentElement.style.fontSize = sessionStorage.getItem('text') ?? '100%';
    }),
  );

/** Waits until every edit is in the store. */
export async function saved(page: Page): Promise<void> {
  await page.locator('[data-save="saved"]').waitFor();
}

/** Waits until the plan is thought through: until then a better one may still move its dates. */
export async function thoughtThrough(page: Page): Promise<void> {
  await page.locator('[data-thinking="done"]').waitFor({ state: 'attached', timeout: 60_000 });
}

/** Asks again until it holds; the machine may be busy with other tests. */
export const eventually = <T>(read: () => Promise<T>) => expect.poll(read, { interval: 100 });

/** Types into a field by its label, in the open panel, and leaves it. */
export async function type(page: Page, label: string, text: string): Promise<void> {
  const field = page.locator('section.sheet').getByLabel(label, { exact: true });
  await field.fill(text);
  await field.blur();
}

export async function pick(page: Page, label: string, option: string | RegExp): Promise<void> {
  const field = page.locator('section.sheet').getByLabel(label, { exact: true });
  const value = await field
    .locator('option')
    .filter({ hasText: option })
    .first()
    .getAttribute('value');
  await field.selectOption(value);
}

/** Opens a section of the build in the drawer; one that lies open stays. */
export async function panel(page: Page, name: string): Promise<void> {
  const button = page
    .getByRole('navigation', { name: 'Sections of the build' })
    .getByRole('button', { name: new RegExp(`^${name}`) });
  if ((await button.getAttribute('aria-expanded')) !== 'true') await button.click();
}

export async function tray(page: Page, name: string): Promise<void> {
  await page
    .getByRole('tab', { name: new RegExp(`^${name}`) })
    .first()
    .click();
}

/** Every stage with its times, as the table shows them. */
export async function stageTimes(page: Page): Promise<string[]> {
  await page.getByRole('button', { name: 'Table', exact: true }).click();
  const rows = page.getByRole('region', { name: 'Timeline of the build' }).locator('tbody tr');
  await rows.first().waitFor();
  return rows.allInnerTexts();
}

/** No word in the console, no failed answer, nothing asked of anyone else. */
export function expectQuiet(planner: Planner): void {
  expect(planner.trouble).toEqual([]);
  expect(planner.strangers).toEqual([]);
}
