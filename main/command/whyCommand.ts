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
import { EXIT, malformed, oneLine, writeErrors, type Terminal } from './terminal.ts';

const MS_PER_MINUTE = 60_000;
const USAGE = 'npm run why -- BUILD.json [STAGE] [--now ISO]';

interface Asked {
  readonly file: string;
  readonly stage: string | null;
  readonly now: Now | null;
}

/**
 * @param argv the arguments behind the name of the command
 * @returns the exit status
 */
export async function whyCommand(argv: readonly string[], terminal: Terminal): Promise<number> {
  try {
    const { values, positionals } = parseArgs({
      args: [...argv],
      allowPositionals: true,
      options: { now: { type: 'string' } },
    });
    const [file, stage, ...more] = positionals;
    if (file === undefined || more.length > 0) return usageError(terminal, `expected ${USAGE}`);
    const now = readNow(values.now);
    if (now === undefined) return usageError(terminal, nowFault(values.now));
    return await print({ file, stage: stage ?? null, now }, terminal);
  } catch (error) {
    if (error instanceof TypeError && 'code' in error) {
      return usageError(terminal, `${oneLine(error).split('.')[0]}, expected ${USAGE}`);
    }
    writeErrors(
      terminal,
      error instanceof LibraryFaults ? error.lines : [`why: ${oneLine(error)}`],
    );
    return EXIT.broken;
  }
}

async function print(asked: Asked, terminal: Terminal): Promise<number> {
  const { file, stage, now } = asked;
  const library = shippedLibrary();
  const input = await readInput(file, library);
  if (!input.ok) return malformed(terminal, file, input.faults);
  const { document, build } = input;
  const at = momentOf(now, build.zone);
  if (typeof at !== 'number') return malformed(terminal, file, [at]);
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
    return malformed(terminal, file, [{ path: 'STAGE', found: JSON.stringify(stage), expected }]);
  }
  terminal.out(stage === null ? networkText(network) : startText(network, stage));
  return 0;
}

function usageError(terminal: Terminal, fault: string): number {
  writeErrors(terminal, [`why: ${fault}`]);
  return EXIT.malformed;
}
