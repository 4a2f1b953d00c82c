/** How far a fetch has come, in words, on a terminal or in a log. */
import type { FetchProgress } from './fetch.ts';

const MEGABYTE = 1_000_000;
/** Lines of a log, which cannot be written over, come once in this many percent or megabytes. */
const STEP = 10;

const megabytes = (bytes: number): string => (bytes / MEGABYTE).toFixed(1);

/** `12.4 MB of 118.0 MB (10 %)`, or `12.4 MB so far` where the server does not say how much comes. */
export function progressText({ bytes, totalBytes }: FetchProgress): string {
  if (totalBytes === null) return `${megabytes(bytes)} MB so far`;
  const percent = Math.floor((bytes / totalBytes) * 100);
  return `${megabytes(bytes)} MB of ${megabytes(totalBytes)} MB (${percent} %)`;
}

export interface Terminal {
  readonly isTTY?: boolean;
  write(text: string): unknown;
}

/**
 * A line that is written over on a terminal; in a log, a line now and then.
 * @returns what to call with each progress, and at the end
 */
export function progressLine(
  label: string,
  out: Terminal,
): { readonly show: (progress: FetchProgress) => void; readonly end: () => void } {
  let shown = false;
  let step = -1;
  return {
    show: (progress) => {
      const line = `${label}: ${progressText(progress)}`;
      const { bytes, totalBytes } = progress;
      const now = Math.floor((totalBytes ? (bytes / totalBytes) * 100 : bytes / MEGABYTE) / STEP);
      // Erased to the end, since the line before may have been longer.
      if (out.isTTY) out.write(`\r${line}\u001b[K`);
      else if (now > step) out.write(`${line}\n`);
      step = Math.max(step, now);
      shown = true;
    },
    end: () => {
      if (shown && out.isTTY) out.write('\n');
    },
  };
}
