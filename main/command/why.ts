/**
 * Prints the scheduling network of the route that a build takes, and why a stage stands where it
 * stands. Exit status 0: printed; 2: malformed input; 4: a fault of the program itself.
 */
import { parseArgs } from 'node:util';
import { judge } from '../../app/answer/judgement.ts';
import { contextOf } from '../../app/plan/context.ts';
import { FULL_ANSWER } from '../../app/plan/outcome.ts';
import { LibraryFaults, shippedLibrary } from '../library/shipped.ts';
import { readInput } from './input.ts';
import { networkText, startText, type PlannedNetwork } from './network.ts';
import { momentOf, nowFault, readNow, type Now } from './now.ts';
import { writeErrors, EXIT, malformed, oneLine } from './terminal.ts';

const MS_PER_MINUTE = 60_000;
const USAGE = 'npm run why -- BUILD.json [STAGE] [--now ISO]';

async function run(argv: readonly string[]): Promise<number> {
  try {
    const { values, positionals } = parseArgs({
      args: [...argv],
      allowPositionals: true,
      options: { now: { type: 'string' } },
    });
    const [file, stage, ...more] = positionals;
    if (file === undefined || more.length > 0) return usageError(`expected ${USAGE}`);
    const now = readNow(values.now);
    if (now === undefined) return usageError(nowFault(values.now));
    return await print(file, stage ?? null, now);
  } catch (error) {
    if (error instanceof TypeError && 'code' in error) {
      return usageError(`${oneLine(error).split('.')[0]}, expected ${USAGE}`);
    }
    writeErrors(error instanceof LibraryFaults ? error.lines : [`why: ${oneLine(error)}`]);
    return EXIT.broken;
  }
}

async function print(file: string, stage: string | null, now: Now | null): Promise<number> {
  const library = shippedLibrary();
  const input = await readInput(file, library);
  if (!input.ok) return malformed(file, input.faults);
  const { document, build } = input;
  const at = momentOf(now, build.zone);
  if (typeof at !== 'number') return malformed(file, [at]);
  const context = contextOf(document, library, Math.floor(at / MS_PER_MINUTE));
  const { taken } = judge(context, document, library, FULL_ANSWER);
  const network: PlannedNetwork = {
    name: build.name,
    zone: build.zone,
    route: taken.route.id,
    problem: taken.network.problem,
    placed: taken.schedule.placed,
  };
  const known = network.placed.map((one) => one.stage);
  if (stage !== null && !known.includes(stage)) {
    const expected =
      known.length > 0 ? `one of ${known.join(', ')}` : 'no stage: nothing is planned';
    return malformed(file, [{ path: 'STAGE', found: JSON.stringify(stage), expected }]);
  }
  process.stdout.write(stage === null ? networkText(network) : startText(network, stage));
  return 0;
}

function usageError(fault: string): number {
  writeErrors([`why: ${fault}`]);
  return EXIT.malformed;
}

// A reader that closes the pipe early, as `| head` does, is no fault.
process.stdout.on('error', () => {});
process.exitCode = await run(process.argv.slice(2));
