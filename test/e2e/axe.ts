/** axe-core in the page under test. */
import { readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import type { Page } from 'playwright-core';

interface AxeWindow {
  axe: {
    run: (
      within: string,
      options: object,
    ) => Promise<{
      violations: {
        id: string;
        nodes: { html: string; failureSummary: string }[];
      }[];
    }>;
  };
}

const source = readFile(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

/**
 * Faults of every grade with the element, in words.
 * @param within selector of the part of the page that is looked at
 */
export async function faultsIn(page: Page, within = 'html'): Promise<string[]> {
  await page.evaluate(await source);
  return page.evaluate(async (selector) => {
    const { violations } = await (window as unknown as AxeWindow).axe.run(selector, {
      resultTypes: ['violations'],
    });
    return violations.flatMap(({ id, nodes }) =>
      nodes.map(({ html, failureSummary }) => `${id}: ${html} ${failureSummary}`),
    );
  }, within);
}
