/** What is shipped can be read: library tables and sample builds. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { readBuild } from '../../../app/document/read.ts';
import { librarySchema, type LibraryTable } from '../../../app/document/schema.ts';
import { LibraryFaults, shippedLibrary } from '../../../main/library/shipped.ts';
import { shippedSamples } from '../../../main/samples.ts';

function libraryOf(files: Record<string, string>): ReturnType<typeof shippedLibrary> {
  const folder = mkdtempSync(join(tmpdir(), 'backcure-library-'));
  try {
    for (const [name, text] of Object.entries(files)) writeFileSync(join(folder, name), text);
    return shippedLibrary(folder);
  } finally {
    rmSync(folder, { recursive: true });
  }
}

const linesOf = (files: Record<string, string>): readonly string[] => {
  try {
    libraryOf(files);
    return [];
  } catch (error) {
    if (error instanceof LibraryFaults) return error.lines;
    throw error;
  }
};

const practice = (id: string): string =>
  JSON.stringify({
    practice: [
      { id, name: 'A', value: 1, unit: 'h', provenance: { kind: 'demo', source: 'invented' } },
    ],
  });

describe('the shipped library', () => {
  it('fills every table', () => {
    const library = shippedLibrary();
    for (const table of Object.keys(librarySchema.shape) as LibraryTable[]) {
      expect(library[table].length, table).toBeGreaterThan(0);
    }
  });

  it('joins the tables of its files', () => {
    const library = libraryOf({ 'a.json': practice('one'), 'b.json': practice('two') });
    expect(library.practice.map((row) => row.id)).toEqual(['one', 'two']);
    expect(library.resins).toEqual([]);
  });

  it('names file and field of every fault', () => {
    const lines = linesOf({
      'a.json': practice('one'),
      'b.json': practice('one'),
      'c.json': '{',
      'd.json': '{ "cores": [{ "id": 7 }] }',
    });
    expect(lines[0]).toBe('b.json: practice: found one a second time, expected an id used once');
    expect(lines[1]).toBe('c.json: (file): found unreadable text, expected library tables in JSON');
    expect(lines[2]).toMatch(/^d\.json: cores\[0\]\.id: found 7, expected /);
  });
});

describe('the sample builds', () => {
  const samples = shippedSamples();
  const library = shippedLibrary();

  it('are these, by the names of their builds', () => {
    const names = samples.map(({ text }) => (JSON.parse(text()) as { name: string }).name);
    expect(names.toSorted()).toEqual([
      'Harbour gate sign',
      'Low Water canopy',
      'Marl Quay stage hatch',
      'Petrel shell, about 6 kg',
      'Wren sound shell',
    ]);
  });

  it.each(samples.map(({ name, text }) => [name, text] as const))('%s can be read', (_, text) => {
    const read = readBuild(text(), library);
    expect(read.ok ? [] : read.faults).toEqual([]);
  });
});
