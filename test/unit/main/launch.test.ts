import { mkdirSync, rmSync, utimesSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { electronBinary } from '../../../main/launch/binary.ts';
import { freshness } from '../../../main/launch/freshness.ts';
import { scratchFolder } from './fixtures.ts';

/** A file with its time of change, in seconds. */
function put(root: string, path: string, seconds: number): void {
  mkdirSync(dirname(join(root, path)), { recursive: true });
  writeFileSync(join(root, path), '');
  utimesSync(join(root, path), seconds, seconds);
}
const age = (root: string, path: string, seconds: number) =>
  utimesSync(join(root, path), seconds, seconds);

function project(): string {
  const root = scratchFolder();
  put(root, 'app/part/part.ts', 100);
  put(root, 'main/index.ts', 100);
  put(root, 'renderer/index.html', 100);
  put(root, 'package-lock.json', 100);
  for (const folder of ['app/part', 'app', 'main', 'renderer']) age(root, folder, 100);
  put(root, 'out/main/index.js', 200);
  put(root, 'out/main/host.js', 200);
  put(root, 'out/preload/index.cjs', 200);
  put(root, 'out/renderer/index.html', 200);
  return root;
}

describe('the built program', () => {
  it('is fresh when every part of it is younger than every source', () => {
    expect(freshness(project())).toBe('fresh');
  });

  it('is missing when a part of it is', () => {
    const root = project();
    rmSync(join(root, 'out/renderer'), { recursive: true });
    expect(freshness(root)).toBe('missing');
  });

  it('is stale when a source or the lock file changed since', () => {
    for (const path of ['app/part/part.ts', 'package-lock.json']) {
      const root = project();
      age(root, path, 300);
      expect(freshness(root)).toBe('stale');
    }
  });

  it('is stale when a source went', () => {
    const root = project();
    rmSync(join(root, 'app/part/part.ts'));
    expect(freshness(root)).toBe('stale');
  });

  it('is stale when one part was built before a source changed', () => {
    const root = project();
    age(root, 'out/renderer/index.html', 50);
    expect(freshness(root)).toBe('stale');
  });
});

describe("Electron's program file", () => {
  it('is null where it was never fetched, or is gone', () => {
    const root = scratchFolder();
    expect(electronBinary(root)).toBeNull();
    put(root, 'node_modules/electron/path.txt', 1);
    expect(electronBinary(root)).toBeNull();
    writeFileSync(join(root, 'node_modules/electron/path.txt'), 'electron');
    expect(electronBinary(root)).toBeNull();
  });

  it('is found by the note that the package leaves', () => {
    const root = scratchFolder();
    put(root, 'node_modules/electron/dist/electron', 1);
    writeFileSync(join(root, 'node_modules/electron/path.txt'), 'electron');
    expect(electronBinary(root)).toBe(join(root, 'node_modules/electron/dist/electron'));
  });
});
