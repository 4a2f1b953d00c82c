/** Stamps at the bench in a browser: from the key that stamps to the frame that shows it. */
import type { Page } from 'playwright-core';
import type { Took } from './suite.ts';

/** One stamp, from the moment at which the key had been pressed or held long enough. */
export interface StampOnScreen {
  readonly step: string;
  /** Milliseconds until the stamp is painted, and the next step stands there. */
  readonly shownMs: number;
  /** Until the plan with the stamp in it is painted. */
  readonly planned: Took;
}

/** When each step is stamped, minutes, by its key; one that is not named follows the last after five minutes. */
type Times = Readonly<Record<string, number>>;

/** The bench view of the open build is opened, and its key pressed so often, step by step. */
export async function stampsOnScreen(
  page: Page,
  times: Times,
  count: number,
): Promise<StampOnScreen[]> {
  await page.locator('[data-thinking="done"]').first().waitFor({ state: 'attached' });
  await page.keyboard.press('b');
  const now = page.locator('[data-step]');
  await now.waitFor();
  const processorMs = await processorOf(page);
  const stamps: StampOnScreen[] = [];
  while (stamps.length < count) {
    await wait(page, times[(await now.getAttribute('data-step'))!]);
    const step = (await now.getAttribute('data-step'))!;
    const before = await processorMs();
    const { shownMs, plannedMs } = await page.evaluate(pressOnce);
    const cpuMs = (await processorMs()) - before;
    stamps.push({ step, shownMs, planned: { ms: plannedMs, cpuMs } });
  }
  return stamps;
}

/** The clock goes on to a minute; what the bench does by itself then, and what it calls, comes before the stamp. */
async function wait(page: Page, minute: number | undefined): Promise<void> {
  await page.evaluate((at) => {
    const { heard } = window as unknown as { heard: { leapMs: number } };
    const leapMs = at === undefined ? 300_000 : at * 60_000 - Date.now();
    heard.leapMs += Math.max(0, leapMs);
  }, minute);
  // The bench looks at its clock every second.
  await page.waitForTimeout(1500);
  if (await page.locator('[data-key="answer"]').count()) await page.keyboard.press(' ');
  await page.locator('[data-step]').waitFor();
}

/** The processor time that the page's own thread has used, milliseconds: what a busy machine does not stretch. */
async function processorOf(page: Page): Promise<() => Promise<number>> {
  const session = await page.context().newCDPSession(page);
  await session.send('Performance.setTimeDomain', { timeDomain: 'threadTicks' });
  await session.send('Performance.enable');
  return async () => {
    const { metrics } = await session.send('Performance.getMetrics');
    return metrics.find(({ name }) => name === 'TaskDuration')!.value * 1000;
  };
}

/** Runs in the page. What a stamp asks is said yes to, and the time counted from that yes. */
async function pressOnce(): Promise<{ shownMs: number; plannedMs: number }> {
  const bench = document.querySelector<HTMLElement>('dialog[aria-busy]')!;
  const painted = () =>
    new Promise<number>((shown) =>
      requestAnimationFrame(() => {
        const { port1, port2 } = new MessageChannel();
        port1.onmessage = () => shown(performance.now());
        port2.postMessage(null);
      }),
    );
  const until = (holds: () => boolean): Promise<void> =>
    new Promise((met) => {
      if (holds()) return met();
      const watch = new MutationObserver(() => {
        if (!holds()) return;
        watch.disconnect();
        met();
      });
      watch.observe(bench, { attributes: true, childList: true, subtree: true });
    });
  const press = (type: 'keydown' | 'keyup') =>
    window.dispatchEvent(new KeyboardEvent(type, { key: ' ', bubbles: true, cancelable: true }));
  const busy = () => bench.getAttribute('aria-busy') === 'true';
  const asks = () => bench.querySelector('[data-key="yes"]') !== null;
  const key = bench.querySelector<HTMLElement>('.key.step')!;
  const held = () => key.classList.contains('holding');
  let began = performance.now();
  press('keydown');
  await until(() => busy() || asks() || held());
  if (held()) {
    began += parseFloat(key.style.getPropertyValue('--hold'));
    await until(() => busy() || asks());
  }
  press('keyup');
  if (!busy()) {
    began = performance.now();
    press('keydown');
    press('keyup');
    await until(busy);
  }
  const shownMs = (await painted()) - began;
  await until(() => !busy());
  return { shownMs, plannedMs: (await painted()) - began };
}
