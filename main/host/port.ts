/** The port of last time is tried first, so that a page that is still open finds the host again. */
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';

const NAME = 'backcure.port';

/** 0 where none is known. */
export function lastPort(dataDir: string): number {
  try {
    const port = Number(readFileSync(join(dataDir, NAME), 'utf8'));
    return Number.isInteger(port) && port > 1023 && port < 65_536 ? port : 0;
  } catch {
    return 0;
  }
}

export function keepPort(dataDir: string, port: number): void {
  try {
    writeFileSync(join(dataDir, NAME), String(port), { mode: 0o600 });
  } catch {
    // The next start takes any free port then.
  }
}
