/** Whether two paths name one file, whatever links lead there. */
import { realpathSync, statSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';

/** By device and inode where both are there; by the folder that is really meant where one is not. */
export function isSameFile(a: string, b: string): boolean {
  const [one, other] = [a, b].map((path) =>
    statSync(path, { bigint: true, throwIfNoEntry: false }),
  );
  if (one && other) return one.dev === other.dev && one.ino === other.ino;
  return !one && !other && realName(a) === realName(b);
}

function realName(path: string): string {
  try {
    return join(realpathSync(dirname(path)), basename(path));
  } catch {
    return path;
  }
}
