/** Finds Electron's program file without asking Electron, which would try to fetch it. */
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

/** Absolute path, or null where it was never fetched. */
export function electronBinary(root: string): string | null {
  const folder = join(root, 'node_modules', 'electron');
  try {
    const name = readFileSync(join(folder, 'path.txt'), 'utf8').trim();
    const file = join(folder, 'dist', name);
    return name !== '' && existsSync(file) ? file : null;
  } catch {
    return null;
  }
}
