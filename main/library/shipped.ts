/** The library that comes with the program: samples/library/*.json, every file some of its tables. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { faultsOf } from '../../app/document/faults.ts';
import { librarySchema, type Library } from '../../app/document/schema.ts';
import { projectRoot } from '../root.ts';

/** One line per fault: `file: path: found X, expected Y`. */
export class LibraryFaults extends Error {
  readonly lines: readonly string[];
  constructor(lines: readonly string[]) {
    super(lines.join('\n'));
    this.name = 'LibraryFaults';
    this.lines = lines;
  }
}

/**
 * Every file of the folder, in order of their names, joined table by table.
 * @throws LibraryFaults when a file is not JSON, does not follow the schema or repeats a row's id
 */
export function shippedLibrary(folder: string = join(projectRoot(), 'samples/library')): Library {
  const lines: string[] = [];
  const joined: Record<string, { id: string }[]> = {};
  for (const file of readdirSync(folder).sort()) {
    if (!file.endsWith('.json')) continue;
    const tables = readTables(join(folder, file), file, lines);
    for (const [table, rows] of Object.entries(tables)) {
      const known = (joined[table] ??= []);
      for (const row of rows) {
        if (known.some((other) => other.id === row.id)) {
          lines.push(`${file}: ${table}: found ${row.id} a second time, expected an id used once`);
        } else known.push(row);
      }
    }
  }
  if (lines.length > 0) throw new LibraryFaults(lines);
  return { ...librarySchema.parse({}), ...joined } as Library;
}

function readTables(path: string, file: string, lines: string[]): Record<string, { id: string }[]> {
  let raw: unknown;
  try {
    raw = JSON.parse(readFileSync(path, 'utf8'));
  } catch {
    lines.push(`${file}: (file): found unreadable text, expected library tables in JSON`);
    return {};
  }
  const parsed = librarySchema.safeParse(raw);
  if (parsed.success) return parsed.data;
  for (const { path: at, found, expected } of faultsOf(parsed.error.issues, raw)) {
    lines.push(`${file}: ${at}: found ${found}, expected ${expected}`);
  }
  return {};
}
