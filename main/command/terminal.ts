/** How a command ends, and how it complains: plain lines on standard error, no stack trace. */
import type { Fault } from '../../app/document/faults.ts';
import { faultLine } from './input.ts';

export const EXIT = { fits: 0, late: 1, malformed: 2, noOutput: 3, broken: 4 } as const;

/** Where a command writes: the process's own streams, or what a test reads. */
export interface Terminal {
  out(text: string): void;
  err(text: string): void;
}

/** Runs a command with the arguments of this process, and sets its exit status. */
export async function runAsProgram(
  command: (argv: readonly string[], terminal: Terminal) => Promise<number> | number,
): Promise<void> {
  // A reader that closes the pipe early, as `| head` does, is no fault.
  process.stdout.on('error', () => {});
  process.exitCode = await command(process.argv.slice(2), {
    out: (text) => void process.stdout.write(text),
    err: (text) => void process.stderr.write(text),
  });
}

export function writeErrors(terminal: Terminal, lines: readonly string[]): void {
  terminal.err(lines.map((line) => `${line}\n`).join(''));
}

/** One line for each fault of an input; answers with the exit status. */
export function malformed(terminal: Terminal, file: string, faults: readonly Fault[]): number {
  writeErrors(
    terminal,
    faults.map((fault) => faultLine(file, fault)),
  );
  return EXIT.malformed;
}

export const oneLine = (error: unknown): string =>
  (error instanceof Error ? error.message : String(error)).split('\n')[0] ?? 'unknown fault';
