/**
 * The headless command: plans a build file without window or database.
 * Exit status 0: it fits; 1: it does not; 2: malformed input; 3: an output could not be made;
 * 4: a fault of the program itself. Nothing is written unless it ends with 0 or 1.
 */
import type { Build } from '../../app/document/schema.ts';
import { FULL_ANSWER } from '../../app/plan/outcome.ts';
import { plan } from '../../app/answer/plan.ts';
import { LibraryFaults, shippedLibrary } from '../library/shipped.ts';
import { readArguments, type CommandArguments } from './arguments.ts';
import { jointsOf, readInput } from './input.ts';
import { momentOf } from './now.ts';
import { OutputFailed, writeOutputs } from './output.ts';
import { summaryOf } from './summary.ts';
import { writeErrors, EXIT, malformed, oneLine } from './terminal.ts';

const MS_PER_MINUTE = 60_000;

async function run(argv: readonly string[]): Promise<number> {
  const read = readArguments(argv);
  if (!read.ok) {
    writeErrors([`plan: ${read.fault}`]);
    return EXIT.malformed;
  }
  try {
    return await planFile(read.value);
  } catch (error) {
    writeErrors(error instanceof LibraryFaults ? error.lines : [`plan: ${oneLine(error)}`]);
    return error instanceof OutputFailed ? EXIT.noOutput : EXIT.broken;
  }
}

async function planFile({ file, now, route, json, outputs }: CommandArguments): Promise<number> {
  const library = shippedLibrary();
  const input = await readInput(file, library);
  if (!input.ok) return malformed(file, input.faults);
  let document: Build = input.document;
  if (route !== null) {
    const chosen = jointsOf(route, input.build, library);
    if (!chosen.ok) return malformed(file, chosen.faults);
    document = { ...document, route: { joints: chosen.joints } };
  }
  const at = momentOf(now, document.zone);
  if (typeof at !== 'number') return malformed(file, [at]);
  const outcome = plan(document, library, Math.floor(at / MS_PER_MINUTE), FULL_ANSWER);
  await writeOutputs(outcome, outputs, at);
  const { result } = outcome;
  process.stdout.write(json ? `${JSON.stringify(result, null, 2)}\n` : summaryOf(result));
  return result.fits ? EXIT.fits : EXIT.late;
}

// A reader that closes the pipe early, as `| head` does, is no fault.
process.stdout.on('error', () => {});
process.exitCode = await run(process.argv.slice(2));
