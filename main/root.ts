/** Where the program's own files lie: the folder that holds package.json. */
import { existsSync } from 'node:fs';
import { dirname, join } from 'node:path';

/**
 * The same folder for the sources (`main/`) and for the bundle (`out/main/`).
 * @throws Error when no folder above holds a package.json
 */
export function projectRoot(from: string = import.meta.dirname): string {
  let folder = from;
  while (!existsSync(join(folder, 'package.json'))) {
    const parent = dirname(folder);
    if (parent === folder) throw new Error(`No package.json above ${from}`);
    folder = parent;
  }
  return folder;
}
