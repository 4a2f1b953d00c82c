/** The planner opens on every sample, says nothing to the console and asks nobody outside. */
import { fullMoment } from '../../app/shop/words.ts';
import { afterEach, describe, expect, it } from 'vitest';
import { shippedSamples } from '../../main/samples.ts';
import { openPlanner, type Planner } from '../browser/planner.ts';
import { panel } from './hands.ts';

let planner: Planner | null = null;
afterEach(async () => {
  await planner?.close();
  planner = null;
});

describe('the planner', () => {
  it.each(shippedSamples().map(({ name, text }) => [name, text] as const))(
    'opens %s',
    async (sample, text) => {
      planner = await openPlanner({ sample });
      const { page } = planner;
      const { name, unveiling } = JSON.parse(text()) as { name: string; unveiling: string };
      await expect.poll(() => page.title()).toContain(name);
      await panel(page, 'Job card');
      expect(await page.getByLabel('Unveiling', { exact: true }).inputValue()).toBe(
        fullMoment(unveiling),
      );
      // Closing times come with the worker's full answer.
      const routes = page.getByRole('tab', { name: /^Routes/ });
      await routes.click();
      await expect.poll(() => page.getByRole('tabpanel').innerText()).toMatch(/Open until/);
      expect(planner.trouble).toEqual([]);
      expect(planner.strangers).toEqual([]);
    },
  );

  it('keeps the session token out of the address and of what it loads', async () => {
    planner = await openPlanner();
    expect(planner.page.url()).not.toContain('token');
    const loaded = await planner.page.evaluate(() =>
      performance.getEntriesByType('resource').map((entry) => entry.name),
    );
    expect(loaded.filter((name) => name.includes('token'))).toEqual([]);
  });
});
