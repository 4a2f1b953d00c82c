/** `npm run restore` and `npm run export`: the data file without the planner. */
import { writeFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { dataFolder } from '../data-folder.ts';
import { openBuild } from '../store/builds.ts';
import { listCopies, restoreCopy } from '../store/copies.ts';
import { StoreRefusal, StoreUnavailable } from '../store/errors.ts';
import { exportShop } from '../store/everything.ts';
import { FILE_NAME, openStore, type Store } from '../store/open.ts';
import { plainName, reason } from './input.ts';
import { EXIT, oneLine, writeErrors, type Terminal } from './terminal.ts';

const RESTORE_USAGE = 'npm run restore -- [--data DIR] [COPY]';
const EXPORT_USAGE = 'npm run export -- [--data DIR] [--build ID] FILE';
const now = (): Date => new Date();

/** Without a name: the kept copies, a line each. With one: it takes the place of the data. */
export function restoreCommand(argv: readonly string[], terminal: Terminal): number {
  const read = readArguments(argv, false);
  if (typeof read === 'string') return refused(terminal, `${read}, expected ${RESTORE_USAGE}`);
  const dataDir = dataFolder(read.data);
  if (read.name === null) {
    const copies = listCopies(dataDir);
    if (copies.length === 0) terminal.out(`No copies are kept in ${plainName(dataDir)}.\n`);
    for (const { name, at, builds, fault } of copies) {
      const what = fault ?? `${builds} ${builds === 1 ? 'build' : 'builds'}`;
      terminal.out(`${name}  ${at.slice(0, 16).replace('T', ' ')} UTC  ${what}\n`);
    }
    return EXIT.fits;
  }
  try {
    restoreCopy(dataDir, FILE_NAME, read.name, now());
    const store = openStore({ dataDir, now });
    store.close();
  } catch (error) {
    return failed(terminal, error);
  }
  terminal.out(`${plainName(read.name)} was put back. What was there before is kept as a copy.\n`);
  return EXIT.fits;
}

/** Everything, or one build at its newest revision, into a file that is not there yet. */
export function exportCommand(argv: readonly string[], terminal: Terminal): number {
  const read = readArguments(argv, true);
  if (typeof read === 'string' || read.name === null) {
    const why = typeof read === 'string' ? read : 'found no file name';
    return refused(terminal, `${why}, expected ${EXPORT_USAGE}`);
  }
  let store: Store | null = null;
  try {
    store = openStore({ dataDir: dataFolder(read.data), now });
    const text =
      read.build === null
        ? exportShop(store.read)
        : `${JSON.stringify(openBuild(store.read, read.build).document, null, 2)}\n`;
    writeFileSync(read.name, text, { flag: 'wx', mode: 0o600 });
  } catch (error) {
    return failed(terminal, error);
  } finally {
    store?.close();
  }
  return EXIT.fits;
}

interface Read {
  readonly data: string | null;
  readonly build: string | null;
  readonly name: string | null;
}

/** What was asked for, or what is wrong with it. */
function readArguments(argv: readonly string[], withBuild: boolean): Read | string {
  const text = { type: 'string' } as const;
  try {
    const { values, positionals } = parseArgs({
      args: [...argv],
      allowPositionals: true,
      options: { data: text, ...(withBuild ? { build: text } : {}) },
    });
    if (positionals.length > 1) return `found ${positionals.length} names`;
    const { data = null, build = null } = values as { data?: string; build?: string };
    return { data, build, name: positionals[0] ?? null };
  } catch (error) {
    return oneLine(error);
  }
}

function refused(terminal: Terminal, line: string): number {
  writeErrors(terminal, [line]);
  return EXIT.malformed;
}

function failed(terminal: Terminal, error: unknown): number {
  const plain = error instanceof StoreRefusal || error instanceof StoreUnavailable;
  writeErrors(terminal, [plain ? oneLine(error) : `found ${reason(error)}`]);
  return EXIT.noOutput;
}
