/**
 * Work in counts and not in time: how often each block of `app/` ran, whatever else the machine does.
 * A test imports this first, and has a process of its own (`OWN_PROCESS` in vitest.config.ts): blocks are
 * counted only in what is compiled after it.
 */
import { Session, type Profiler } from 'node:inspector';

const session = new Session();
session.connect();
session.post('Profiler.enable');
session.post('Profiler.startPreciseCoverage', { callCount: true, detailed: true });

/** Sum over all blocks of `app/` of how often they were entered while `run` went on. */
export function countedWork(run: () => void): number {
  takeCounts();
  run();
  return takeCounts();
}

/**
 * How work grows from `size` to twice and to four times that: 2 in a line, 4 by the square. What is done
 * once whatever the size does not count.
 */
export function growth(work: (size: number) => () => void, size: number): number {
  const [once, twice, fourTimes] = [size, 2 * size, 4 * size].map((of) => {
    const run = work(of);
    // What is worked out once and kept is no part of it.
    run();
    return countedWork(run);
  }) as [number, number, number];
  return (fourTimes - twice) / (twice - once);
}

/** What was counted since the last time; counting begins anew. */
function takeCounts(): number {
  let scripts: readonly Profiler.ScriptCoverage[] = [];
  session.post('Profiler.takePreciseCoverage', (error, { result }) => {
    if (error) throw error;
    scripts = result;
  });
  return scripts
    .filter(({ url }) => url.includes('/app/') && !url.includes('node_modules'))
    .flatMap(({ functions }) => functions.flatMap(({ ranges }) => ranges.map(({ count }) => count)))
    .reduce((sum, count) => sum + count, 0);
}
