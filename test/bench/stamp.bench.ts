/**
 * From a stamp at the bench to the plan of what is left: the printed plan, its stages done one after another,
 * once in the planner alone and once as a person sees it, from the key to the repainted screen.
 */
import { plan } from '../../app/answer/plan.ts';
import { recordStage } from '../../app/document/edit/change.ts';
import { readBuild } from '../../app/document/read.ts';
import type { Build } from '../../app/document/schema.ts';
import { FIRST_ANSWER } from '../../app/plan/outcome.ts';
import { printedRecord } from '../../app/plan/replanPrinted.ts';
import { openSteps } from '../../app/shop/floor/steps.ts';
import { shippedLibrary } from '../../main/library/shipped.ts';
import { shippedSamples } from '../../main/samples.ts';
import { DEFAULT_NOW, openPlanner } from '../browser/planner.ts';
import { onFloor } from '../browser/floor.ts';
import { stampsOnScreen } from './stampOnScreen.ts';
import type { Suite } from './suite.ts';

const SAMPLE = 'low-water-canopy';
/** Every stage is done so much later than it was printed, minutes. */
const LATE_MINUTES = 25;
/** Stamps that are counted on the screen, and those before them. */
const SCREEN_RUNS = 30;
const SCREEN_WARM_UP = 5;

export async function bench(suite: Suite): Promise<void> {
  const library = shippedLibrary();
  const now = Date.parse(DEFAULT_NOW) / 60_000;
  const sample = shippedSamples().find(({ name }) => name.startsWith(SAMPLE));
  if (!sample) throw new Error(`${SAMPLE} is gone`);
  const read = readBuild(sample.text(), library);
  if (!read.ok) throw new Error(`${SAMPLE} cannot be read`);
  const first = plan(read.document, library, now, FIRST_ANSWER);
  const printed: Build = { ...read.document, printed: printedRecord(first, now) };
  const done = first.result.stages.flatMap(({ id, name, start, end }) =>
    start !== null && end !== null ? [{ id, name, start: local(start), end: local(end) }] : [],
  );
  let document = printed;
  let at = 0;
  await suite.measure('stamp-to-plan', { runs: 40, warmUp: 5, targetMs: 100 }, () => {
    if (at === done.length) [document, at] = [printed, 0];
    const { id, name, start, end } = done[at++]!;
    const record = { stage: id, start, end, people: [] };
    document = recordStage(document, record, name, null).document as Build;
    plan(document, library, minuteOf(end), FIRST_ANSWER);
  });
  // Nothing was stamped, and all that was printed has passed.
  const passed = Math.max(...done.map(({ end }) => minuteOf(end))) + 1440;
  await suite.measure('stamp-none-passed', { runs: 40, warmUp: 5, targetMs: 100 }, () => {
    plan(printed, library, passed, FIRST_ANSWER);
  });
  if (!suite.wanted('stamp-to-screen') && !suite.wanted('stamp-to-shown')) return;
  const steps = openSteps(first).flatMap(({ key, at: planned }) =>
    planned === null ? [] : [[key, planned + LATE_MINUTES] as const],
  );
  await onScreen(suite, printed, now, Object.fromEntries(steps));
}

/** The same in the browser: the bench view is open, and the key is pressed. */
async function onScreen(
  suite: Suite,
  build: Build,
  minute: number,
  times: Readonly<Record<string, number>>,
): Promise<void> {
  const planner = await openPlanner();
  try {
    await onFloor(planner, { build, minute });
    const stamps = await stampsOnScreen(planner.page, times, SCREEN_RUNS + SCREEN_WARM_UP);
    const figures = { runs: SCREEN_RUNS, warmUp: SCREEN_WARM_UP };
    let [i, j] = [0, 0];
    await suite.measure(
      'stamp-to-shown',
      { ...figures, targetMs: 100 },
      () => stamps[i++]!.shownMs,
    );
    await suite.measure(
      'stamp-to-screen',
      { ...figures, targetMs: 100 },
      () => stamps[j++]!.planned,
    );
  } finally {
    await planner.close();
  }
}

/** The build's wall clock so much later, without its offset. */
function local(iso: string): string {
  const shifted = Date.parse(`${iso.slice(0, 16)}Z`) + LATE_MINUTES * 60_000;
  return new Date(shifted).toISOString().slice(0, 16);
}

/** Good enough for a moment of asking: the offset of the zone is left out. */
const minuteOf = (wall: string): number => Date.parse(`${wall}Z`) / 60_000;
