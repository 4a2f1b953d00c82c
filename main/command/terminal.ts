/** How a command ends, and how it complains: plain lines on standard error, no stack trace. */
import type { Fault } from '../../app/document/faults.ts';
import { faultLine, reason } from './input.ts';

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
  let unwritten: string | null = null;
  // A reader that closes the pipe early, as `| head` does, is no fault; a full disk is one.
  process.stdout.on('error', (error: NodeJS.ErrnoException) => {
    if (error.code !== 'EPIPE') unwritten = reason(error);
  });
  const status = await command(process.argv.slice(2), {
    out: (text) => void process.stdout.write(text),
    err: (text) => void process.stderr.write(text),
  });
  await new Promise<void>((resolve) => process.stdout.write('', () => resolve()));
  if (unwritten !== null && (status === EXIT.fits || status === EXIT.late)) {
    process.stderr.write(`The answer cannot be written: found ${unwritten}\n`);
    process.exitCode = EXIT.noOutput;
  } else process.exitCode = status;
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

/** JSON in which no character can steer a terminal; what it says is the same. */
export const jsonText = (value: unknown): string =>
  `${JSON.stringify(value, null, 2).replace(
    /[\u007f-\u009f\u061c\u200b-\u200f\u2028-\u202e\u2060-\u2069\ufeff]/g,
    (mark) => `\\u${mark.charCodeAt(0).toString(16).padStart(4, '0')}`,
  )}\n`;

export const oneLine = (error: unknown): string =>
  (error instanceof Error ? error.message : String(error)).split('\n')[0] ?? 'unknown fault';
