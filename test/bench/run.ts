/**
 * `npm run bench [-- --json] [-- NAME...]`: medians of many runs of everything in test/bench/.
 * A NAME picks the figures that begin with it. `npm run bench -- psplib DIR ...` is a bench of its
 * own, see psplib.ts; so are `crash`, `fuzz`, `soak` and `extremes`, see ../trust/run.ts.
 *
 * A bench file is called `WHAT.bench.ts`, its figures' names begin with WHAT, and it exports:
 *
 *   import type { Suite } from './suite.ts';
 *
 *   export async function bench(suite: Suite): Promise<void> {
 *     const input = prepare();
 *     await suite.measure('what-plain', { runs: 200, targetMs: 20 }, () => compute(input));
 *     await suite.measure('what-other', { against: 'what-plain' }, () => computeOther(input));
 *   }
 */
import { readdirSync } from 'node:fs';
import { cpus } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { isAttack, main as attack } from '../trust/run.ts';
import { makeSuite, type Figure, type Suite } from './suite.ts';

const ENDING = '.bench.ts';

interface BenchFile {
  bench(suite: Suite): Promise<void>;
}

async function run(argv: readonly string[]): Promise<void> {
  const json = argv.includes('--json');
  const names = argv.filter((argument) => !argument.startsWith('-'));
  const wanted = (name: string): boolean =>
    names.length === 0 || names.some((asked) => name.startsWith(asked));
  const figures: Figure[] = [];
  const suite = makeSuite(wanted, (figure) => {
    figures.push(figure);
    if (!json) console.log(lineOf(figure));
  });
  const files = readdirSync(import.meta.dirname).filter((file) => file.endsWith(ENDING));
  for (const file of files.sort()) {
    const what = file.slice(0, -ENDING.length);
    const asked = wanted(what) || names.some((name) => name.startsWith(what));
    if (!asked) continue;
    const path = pathToFileURL(join(import.meta.dirname, file)).href;
    try {
      await ((await import(path)) as BenchFile).bench(suite);
    } catch (error) {
      // The other files' figures still count.
      console.error(`${file}: ${error instanceof Error ? error.message : String(error)}`);
      process.exitCode = 1;
    }
  }
  if (json) {
    const machine = { node: process.version, cpu: cpus()[0]?.model ?? '', cores: cpus().length };
    console.log(JSON.stringify({ machine, figures }, null, 2));
  }
}

function lineOf(figure: Figure): string {
  const { name, medianMs, p90Ms, cpuMs, runs, targetMs, ofTarget, against, ratio } = figure;
  const parts = [`${name}: median ${medianMs} ms, p90 ${p90Ms} ms, ${runs} runs`];
  if (targetMs !== null && ofTarget !== null) {
    parts.push(`target ${targetMs} ms ${ofTarget <= 1 ? 'met' : 'MISSED'} (x ${ofTarget})`);
  }
  if (cpuMs !== null) parts.push(`processor ${cpuMs} ms a run`);
  if (ratio !== null) parts.push(`x ${ratio} of ${against}`);
  return parts.join('; ');
}

const argv = process.argv.slice(2);
if (argv[0] === 'psplib') {
  const path = pathToFileURL(join(import.meta.dirname, 'psplib.ts')).href;
  ((await import(path)) as { main(argv: readonly string[]): void }).main(argv.slice(1));
} else if (argv[0] === 'exact') {
  const path = pathToFileURL(join(import.meta.dirname, 'exact.ts')).href;
  ((await import(path)) as { main(argv: readonly string[]): void }).main(argv.slice(1));
} else if (isAttack(argv[0])) {
  await attack(argv);
} else if (argv[0] === 'laws') {
  const path = pathToFileURL(join(import.meta.dirname, 'laws.ts')).href;
  ((await import(path)) as { main(argv: readonly string[]): void }).main(argv.slice(1));
} else {
  await run(argv);
}
