/** The face in a browser that draws without a graphics card: interaction to paint, and page to usable. */
import type { Page } from 'playwright-core';
import { openPlanner, PLANNER_READY, type Planner } from '../browser/planner.ts';
import { longBuild } from '../support/long-builds.ts';
import { quantile, type Suite } from './suite.ts';

const RUNS = { runs: 3, warmUp: 1 } as const;

export async function bench(suite: Suite): Promise<void> {
  const planner = await openPlanner({ sample: 'low-water-canopy' });
  try {
    await suite.measure('face-usable', { runs: 5, warmUp: 1, targetMs: 1000 }, () =>
      usableAgain(planner.page),
    );
    await settled(planner.page);
    await suite.measure('face-sample', { ...RUNS, targetMs: 50 }, () => slowest(planner.page));
    // The most stages that a document can make: 500 questions and 60 outside parties.
    await open(planner, longBuild(500, 60));
    await suite.measure('face-largest', { ...RUNS, targetMs: 100 }, () => slowest(planner.page));
  } finally {
    await planner.close();
  }
}

async function usableAgain(page: Page): Promise<number> {
  const began = performance.now();
  await page.reload();
  await page.waitForSelector(PLANNER_READY);
  return performance.now() - began;
}

async function open({ page, call }: Planner, document: Record<string, unknown>): Promise<void> {
  const { id: _, ...own } = document;
  await call('build-create', { document: own });
  await page.reload();
  await settled(page);
}

/** The plan is thought through: another one on the way would be counted as an interaction's. */
async function settled(page: Page): Promise<void> {
  await page.locator('.timeline [data-item]').first().waitFor({ timeout: 60_000 });
  const done = page.locator('[data-thinking="done"], [data-thinking="stopped"]');
  await done.first().waitFor({ state: 'attached', timeout: 180_000 });
}

/** Milliseconds from a click to the frame that shows it, the 95th of a hundred. */
async function slowest(page: Page): Promise<number> {
  const samples = await page.evaluate(async () => {
    const times: number[] = [];
    const buttons = (name: string) =>
      [...document.querySelectorAll<HTMLElement>('button')].filter(
        (one) => one.textContent.trim().startsWith(name) && one.checkVisibility(),
      );
    const act = async (target: Element | undefined): Promise<void> => {
      if (!target) return;
      const began = performance.now();
      target.dispatchEvent(new MouseEvent('click', { bubbles: true }));
      await new Promise<void>((shown) =>
        requestAnimationFrame(() => {
          const { port1, port2 } = new MessageChannel();
          port1.onmessage = () => shown();
          port2.postMessage(null);
        }),
      );
      times.push(performance.now() - began);
    };
    for (let round = 0; round < 5; round++) {
      for (const grain of ['Week', 'Day', 'Whole build']) await act(buttons(grain)[0]);
      const items = [...document.querySelectorAll('.timeline [data-item]')];
      for (let i = 0; i < 4; i++) await act(items[Math.floor((i / 4) * items.length)]);
      for (const name of ['Findings', 'Stage', 'Fold', 'Unfold', '+', '−'])
        await act(buttons(name)[0]);
      for (const name of ['Outside jobs', 'Job card', 'Job card']) await act(buttons(name)[0]);
    }
    return times;
  });
  return quantile(
    samples.toSorted((a, b) => a - b),
    0.95,
  );
}
