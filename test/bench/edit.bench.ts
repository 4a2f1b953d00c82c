/** From a changed field to the repainted board, in the end-to-end browser. */
import { addDays } from '../support/builds.ts';
import { openPlanner } from '../browser/planner.ts';
import { panel } from '../e2e/hands.ts';
import type { Suite } from './suite.ts';

const SAMPLE = 'low-water-canopy';

export async function bench(suite: Suite): Promise<void> {
  const planner = await openPlanner({ sample: SAMPLE });
  try {
    await panel(planner.page, 'Job card');
    const field = planner.page.getByLabel('Unveiling', { exact: true });
    const board = await planner.page.waitForSelector('.board .timeline');
    const { document } = (await planner.call('session-start', {})).open!;
    const shipped = document['unveiling'] as string;
    const earlier = `${addDays(shipped.slice(0, 10), -1)}${shipped.slice(10)}`;
    let turn = 0;
    await suite.measure('edit-to-repaint', { runs: 40, warmUp: 5, targetMs: 60 }, async () => {
      turn += 1;
      const value = turn % 2 === 1 ? earlier : shipped;
      const took = await field.evaluate(changeAndPaint, { value, board });
      // The worker's answer and the write must not fall into the next run.
      await planner.page.waitForTimeout(1500);
      return took;
    });
  } finally {
    await planner.close();
  }
}

/** Runs in the page. Milliseconds from the change to the frame after the board's first mutation. */
function changeAndPaint(
  field: Element,
  { value, board }: { value: string; board: Node },
): Promise<number> {
  return new Promise((resolve, reject) => {
    const tooLate = setTimeout(() => reject(new Error('the board never changed')), 10_000);
    const began = performance.now();
    const observer = new MutationObserver(() => {
      observer.disconnect();
      clearTimeout(tooLate);
      // A message sent from a frame's callback is delivered after that frame is painted.
      requestAnimationFrame(() => {
        const channel = new MessageChannel();
        channel.port1.onmessage = () => resolve(performance.now() - began);
        channel.port2.postMessage(null);
      });
    });
    observer.observe(board, {
      subtree: true,
      childList: true,
      attributes: true,
      characterData: true,
    });
    (field as HTMLInputElement).value = value;
    field.dispatchEvent(new Event('input', { bubbles: true }));
    field.dispatchEvent(new Event('change', { bubbles: true }));
  });
}
