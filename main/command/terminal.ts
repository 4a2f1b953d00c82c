/** How a command ends, and how it complains: plain lines on standard error, no stack trace. */
import type { Fault } from '../../app/document/faults.ts';
import { faultLine } from './input.ts';

export const EXIT = { fits: 0, late: 1, malformed: 2, noOutput: 3, broken: 4 } as const;

export function writeErrors(lines: readonly string[]): void {
  process.stderr.write(lines.map((line) => `${line}\n`).join(''));
}

/** One line for each fault of an input; answers with the exit status. */
export function malformed(file: string, faults: readonly Fault[]): number {
  writeErrors(faults.map((fault) => faultLine(file, fault)));
  return EXIT.malformed;
}

export const oneLine = (error: unknown): string =>
  (error instanceof Error ? error.message : String(error)).split('\n')[0] ?? 'unknown fault';
