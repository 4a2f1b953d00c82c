/**
 * The headless command: plans a build file without window or database.
 * Exit status 0: it fits; 1: it does not; 2: malformed input; 3: an output could not be made;
 * 4: a fault of the program itself. Nothing is written unless it ends with 0 or 1.
 */
import type { Fault } from '../../app/document/faults.ts';
import type { Build } from '../../app/document/schema.ts';
import { FULL_ANSWER } from '../../app/plan/outcome.ts';
import { plan } from '../../app/answer/plan.ts';
import { LibraryFaults, shippedLibrary } from '../library/shipped.ts';
import { localToMinute } from '../../app/time/zone.ts';
import { readArguments, type CommandArguments, type Now } from './arguments.ts';
import { jointsOf, readInput } from './input.ts';
import { OutputFailed, writeOutputs } from './output.ts';
import { summaryOf } from './summary.ts';
import { complain, EXIT, malformed, oneLine } from './terminal.ts';

const MS_PER_MINUTE = 60_000;

async function run(argv: readonly string[]): Promise<number> {
  const read = readArguments(argv);
  if (!read.ok) {
    complain([`plan: ${read.fault}`]);
    return EXIT.malformed;
  }
  try {
    return await planFile(read.value);
  } catch (error) {
    complain(error instanceof LibraryFaults ? error.lines : [`plan: ${oneLine(error)}`]);
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
  const at = now === null ? Date.now() : msOf(now, document.zone);
  if (at === null) return malformed(file, [skipped(now, document.zone)]);
  const outcome = plan(document, library, Math.floor(at / MS_PER_MINUTE), FULL_ANSWER);
  await writeOutputs(outcome, outputs, at);
  const { result } = outcome;
  process.stdout.write(json ? `${JSON.stringify(result, null, 2)}\n` : summaryOf(result));
  return result.fits ? EXIT.fits : EXIT.late;
}

/** Unix ms of the moment; null where the clocks of the build's zone skip it. */
function msOf(now: Now, zone: string): number | null {
  if ('ms' in now) return now.ms;
  const found = localToMinute(now.local, zone);
  return found && found.minute * MS_PER_MINUTE;
}

const skipped = (now: Now | null, zone: string): Fault => ({
  path: '--now',
  found: now && 'local' in now ? now.local : '',
  expected: `a time that exists in ${zone} (the clocks skip this one)`,
});

// A reader that closed the pipe early has seen enough.
process.stdout.on('error', () => {});
process.exitCode = await run(process.argv.slice(2));
