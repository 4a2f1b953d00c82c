/** The sample builds that come with the program. */
import { readdirSync, readFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { projectRoot } from './root.ts';

const ENDING = '.build.json';

/** The sample that a first start opens: the one with time to spare. */
export const OPENED_FIRST = 'low-water-canopy';

export interface Sample {
  /** File name without its ending; kept beside the build so that it can be put back. */
  readonly name: string;
  readonly text: () => string;
}

/** Samples in order of their names; empty when the folder is not there. */
export function shippedSamples(folder: string = join(projectRoot(), 'samples')): Sample[] {
  let files: string[];
  try {
    files = readdirSync(folder).filter((file) => file.endsWith(ENDING));
  } catch {
    return [];
  }
  return files.sort().map((file) => ({
    name: basename(file, ENDING),
    text: () => readFileSync(join(folder, file), 'utf8'),
  }));
}
