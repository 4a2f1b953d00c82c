/** The guide names what there is: every folder is on the map, and every path in it leads somewhere. */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { projectRoot } from '../../../main/root.ts';

const root = projectRoot();
const GUIDES = ['docs/map.md', 'docs/recipes.md', 'DEVELOPERS.md', 'README.md'];
const MAPPED = ['app', 'main', 'renderer', 'test', 'samples', 'docs'];

/** Paths in backticks, as `app/plan/room.ts` or `app/plan/`; patterns with `*` and `…` are left out. */
function pathsIn(text: string): string[] {
  const quoted = [...text.matchAll(/`([^`\s]+)`/g)].map((found) => found[1]!);
  const inside = (path: string) => MAPPED.some((top) => path.startsWith(`${top}/`));
  return quoted.filter((path) => inside(path) && !/[*…]/.test(path));
}

const read = (file: string): string => readFileSync(join(root, file), 'utf8');

describe('the guide', () => {
  it('has every folder on the map', () => {
    const mapped = new Set(pathsIn(read('docs/map.md')));
    const folders = MAPPED.flatMap((top) => [
      ...readdirSync(join(root, top), { withFileTypes: true })
        .filter((entry) => entry.isDirectory())
        .map(({ name }) => `${top}/${name}/`),
    ]);
    expect(folders.length).toBeGreaterThan(30);
    expect(folders.filter((folder) => !mapped.has(folder))).toEqual([]);
  });

  it.each(GUIDES)('%s names no path that is not there', (guide) => {
    const paths = pathsIn(read(guide));
    expect(paths.length).toBeGreaterThan(3);
    expect(paths.filter((path) => !existsSync(join(root, path)))).toEqual([]);
  });
});
