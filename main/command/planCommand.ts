/**
 * The command that plans a build file without window or database.
 * Exit status 0: it fits; 1: it does not; 2: malformed input; 3: an output could not be made;
 * 4: a fault of the program itself. Nothing is written unless it ends with 0 or 1.
 */
import type { Build } from '../../app/document/schema.ts';
import { FULL_ANSWER } from '../../app/plan/outcome.ts';
import { plan } from '../../app/answer/plan.ts';
import { formatsOf, wordedAs } from '../../app/units/formats.ts';
import { LibraryFaults, shippedLibrary } from '../library/shipped.ts';
import { readArguments, type CommandArguments } from './arguments.ts';
import { jointsOf, readInput } from './input.ts';
import { momentOf } from './now.ts';
import { OutputFailed, writeOutputs } from './output.ts';
import { summaryOf } from './summary.ts';
import { EXIT, jsonText, malformed, oneLine, writeErrors, type Terminal } from './terminal.ts';

const MS_PER_MINUTE = 60_000;

/**
 * @param argv the arguments behind the name of the command
 * @returns the exit status
 */
export async function planCommand(argv: readonly string[], terminal: Terminal): Promise<number> {
  const read = readArguments(argv);
  if (!read.ok) {
    writeErrors(terminal, [`plan: ${read.fault}`]);
    return EXIT.malformed;
  }
  try {
    return await planFile(read.value, terminal);
  } catch (error) {
    writeErrors(
      terminal,
      error instanceof LibraryFaults ? error.lines : [`plan: ${oneLine(error)}`],
    );
    return error instanceof OutputFailed ? EXIT.noOutput : EXIT.broken;
  }
}

async function planFile(asked: CommandArguments, terminal: Terminal): Promise<number> {
  const { file, now, route, json, outputs } = asked;
  const library = shippedLibrary();
  const input = await readInput(file, library);
  if (!input.ok) return malformed(terminal, file, input.faults);
  let document: Build = input.document;
  if (route !== null) {
    const chosen = jointsOf(route, input.build, library);
    if (!chosen.ok) return malformed(terminal, file, chosen.faults);
    document = { ...document, route: { joints: chosen.joints } };
  }
  const at = momentOf(now, document.zone);
  if (typeof at !== 'number') return malformed(terminal, file, [at]);
  const outcome = plan(document, library, Math.floor(at / MS_PER_MINUTE), FULL_ANSWER);
  await writeOutputs(outcome, outputs, at);
  const { result } = outcome;
  const own = formatsOf(outcome.detail.build);
  terminal.out(json ? jsonText(result) : wordedAs(own, () => summaryOf(result)));
  return result.fits ? EXIT.fits : EXIT.late;
}
