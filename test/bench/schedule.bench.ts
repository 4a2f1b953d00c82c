/** The scheduler alone: first and best answers, many parts in one shop, schedules a second. */
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { FULL_ANSWER } from '../../app/plan/outcome.ts';
import type { Problem } from '../../app/schedule/problem.ts';
import { closingTime } from '../support/closing.ts';
import { solve } from '../../app/schedule/solve.ts';
import { enumerateBest } from '../exact/enumerate.ts';
import { tinyProblem } from '../exact/tiny.ts';
import { manyParts } from './shop-of-parts.ts';
import { problemOf } from './psplib.ts';
import { readSm } from './psplib-read.ts';
import type { Suite } from './suite.ts';

/** What the best answer of one 60-stage build may think over. */
const BEST_SCHEDULES = FULL_ANSWER.schedules;

export async function bench(suite: Suite): Promise<void> {
  const sixty = manyParts(3, 20);
  await suite.measure('schedule-first-60', { runs: 100, warmUp: 20, targetMs: 5 }, () => {
    solve(sixty, { schedules: 1, seed: 1 });
  });
  await suite.measure('schedule-best-60', { runs: 5, warmUp: 1, targetMs: 250 }, () => {
    solve(sixty, { schedules: BEST_SCHEDULES, seed: 1 });
  });
  await suite.measure('schedule-closing-60', { runs: 5, warmUp: 1 }, () => {
    closingTime(sixty);
  });
  const eightHundred = manyParts(20, 40);
  await suite.measure('schedule-first-800', { runs: 3, warmUp: 1, targetMs: 2000 }, () => {
    solve(eightHundred, { schedules: 1, seed: 1 });
  });
  const plain = plainInstance();
  await suite.measure('schedule-j120-5000', { runs: 9, warmUp: 1, targetMs: 150 }, () => {
    solve(plain, { schedules: 5000, seed: 1 });
  });
  await againstEnumeration(suite);
}

/** One tiny build, proven by the engine and by trying every placement, in one run. */
async function againstEnumeration(suite: Suite): Promise<void> {
  const tiny = tinyProblem(1003);
  await suite.measure('schedule-proof-enumerated', { runs: 3, warmUp: 1 }, () => {
    enumerateBest(tiny);
  });
  await suite.measure('schedule-proof', { runs: 20, against: 'schedule-proof-enumerated' }, () => {
    solve(tiny, { schedules: 2000, seed: 1 });
  });
}

/** An instance whose bound is not met at once, so that all schedules are generated. */
function plainInstance(): Problem {
  const path = fileURLToPath(new URL('../data/psplib/j120/j1206_1.sm', import.meta.url));
  return problemOf(readSm(readFileSync(path, 'utf8')));
}
