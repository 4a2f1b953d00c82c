/** One run of the program: store, clock and everything the handlers work with. */
import type { Library } from '../app/document/schema.ts';
import { joinLibraries } from '../app/document/library.ts';
import { readBuild } from '../app/document/read.ts';
import type { Clock } from './clock.ts';
import { accept } from './documents.ts';
import type { Floor } from './host/idle.ts';
import { isProcess } from './processes.ts';
import { createIds } from './ids.ts';
import { shippedLibrary } from './library/shipped.ts';
import { OPENED_FIRST, shippedSamples, type Sample } from './samples.ts';
import { createBuild, isTaken, seededSamples } from './store/builds.ts';
import { keepCopyOfDay, restoreCopy } from './store/copies.ts';
import { StoreRefusal, unavailable } from './store/errors.ts';
import { waitForNobody } from './store/handles.ts';
import { readLibrary, seedLibrary } from './store/library.ts';
import { NEWER } from './store/newer.ts';
import { FILE_NAME, openStore, type Store } from './store/open.ts';
import { lastOpenBuild, noteEnd, noteStart, rememberOpenBuild } from './store/state.ts';

/** A sheet to be printed or saved as PDF. */
export interface Sheets {
  readonly html: string;
  readonly to: 'dialog' | 'pdf';
  readonly name: string;
}

/** Something that the system calls out once it is due. */
export interface StandingAlarm {
  readonly id: string;
  /** UTC. */
  readonly at: string;
  readonly title: string;
  readonly body: string;
}

export interface Session {
  readonly runtime: 'electron' | 'browser';
  readonly clock: Clock;
  readonly store: Store;
  readonly samples: readonly Sample[];
  readonly newId: () => string;
  /** The library in force, the shipped one behind it. */
  readonly library: () => Library;
  /** True when it was printed or saved, false when the person cancelled. Null: not here. */
  readonly print: ((sheets: Sheets) => Promise<boolean>) | null;
  /** True when it was saved, false when the person cancelled. Null: not here. */
  readonly saveText: ((name: string, text: string) => Promise<boolean>) | null;
  /** Keeps the machine from sleeping, or lets it. Null: not here. */
  readonly keepAwake: ((on: boolean) => void) | null;
  /** The alarms that stand from now on. Null: not here. */
  readonly setAlarms: ((alarms: readonly StandingAlarm[]) => void) | null;
  /** What the pages have told of alarms and cures, wherever those are called out. */
  readonly floor: Floor;
  readonly report: (line: string) => void;
  /** Puts a kept copy in the place of the data. @throws StoreRefusal when it cannot be */
  readonly restore: (copy: string) => void;
  /** Makes the copy of the day where it is still due. Never throws: trouble is reported. */
  readonly keepCopy: () => void;
  readonly close: () => void;
}

export interface SessionOptions {
  readonly runtime: Session['runtime'];
  readonly dataDir: string;
  readonly clock: Clock;
  readonly print?: Session['print'];
  readonly saveText?: Session['saveText'];
  readonly keepAwake?: Session['keepAwake'];
  readonly setAlarms?: Session['setAlarms'];
  readonly report?: Session['report'];
  readonly floor?: Floor;
  readonly shipped?: Library;
  readonly samples?: readonly Sample[];
}

/** A process, and since when: a number alone is given out again. */
const THIS_RUN = `${process.pid} ${Math.round(performance.timeOrigin)}`;

function isRunning(run: string): boolean {
  const pid = Number(run.split(' ')[0]);
  return pid !== process.pid && isProcess(pid);
}

const toStandardError = (line: string): void => void process.stderr.write(`${line}\n`);

/**
 * Opens the store and puts shipped rows and samples in where they are missing.
 * @throws StoreUnavailable with a plain message
 */
export function openSession(options: SessionOptions): Session {
  const { runtime, clock, dataDir } = options;
  const shipped = options.shipped ?? shippedLibrary();
  let store = openStore({ dataDir, now: clock.now });
  let copied = '';
  const report = options.report ?? toStandardError;
  const session: Session = {
    runtime,
    clock,
    get store() {
      return store;
    },
    samples: options.samples ?? shippedSamples(),
    newId: createIds(() => clock.now().getTime()),
    library: () => joinLibraries(readLibrary(store.read), shipped),
    print: options.print ?? null,
    saveText: options.saveText ?? null,
    keepAwake: options.keepAwake ?? null,
    setAlarms: options.setAlarms ?? null,
    floor: options.floor ?? { awake: false, alarmsMs: [] },
    report,
    restore: (copy) => {
      if (store.readOnly) throw new StoreRefusal('refused', `${NEWER}.`);
      store.close();
      try {
        restoreCopy(dataDir, FILE_NAME, copy, clock.now());
      } finally {
        store = openStore({ dataDir, now: clock.now });
        // The copy may have been made by a run that is long over.
        noteStart(store.write, THIS_RUN, () => true);
        fill(session, shipped);
      }
    },
    keepCopy: () => {
      const day = clock.now().toISOString().slice(0, 10);
      if (day === copied || store.readOnly) return;
      copied = day;
      try {
        keepCopyOfDay(store.read, dataDir, clock.now());
      } catch (error) {
        report(`copy of the day: ${String(error)}`);
      }
    },
    close: () => {
      if (!store.readOnly) {
        try {
          noteEnd(store.write, THIS_RUN);
        } catch (error) {
          report(`end: ${String(error)}`);
        }
      }
      store.close();
    },
  };
  try {
    if (!store.readOnly) noteStart(store.write, THIS_RUN, isRunning);
    fill(session, shipped);
  } catch (error) {
    store.close();
    throw unavailable(error, dataDir);
  }
  session.keepCopy();
  return session;
}

/** Puts in what is missing, and from then on waits for no other process: requests are tried again. */
function fill(session: Session, shipped: Library): void {
  if (session.store.readOnly) return;
  seedLibrary(session.store.write, shipped, session.clock.now().getTime());
  seedSamples(session);
  waitForNobody(session.store.write);
}

/** A sample that was seeded once is not put in again, also when it was removed since. */
function seedSamples(session: Session): void {
  const { read, write } = session.store;
  const seeded = seededSamples(read);
  const missing = session.samples.filter((sample) => !seeded.has(sample.name));
  if (missing.length === 0) return;
  const library = session.library();
  const nowMs = session.clock.now().getTime();
  for (const sample of missing) {
    const id = seedSample(session, sample, library, nowMs);
    if (id !== null && sample.name === OPENED_FIRST && lastOpenBuild(read) === null) {
      rememberOpenBuild(write, id, nowMs);
    }
  }
}

/** The id it was stored under, or null when the file is no build. */
function seedSample(
  session: Session,
  sample: Sample,
  library: Library,
  nowMs: number,
): string | null {
  const read = readBuild(sample.text(), library);
  if (!read.ok) {
    for (const { path, found, expected } of read.faults) {
      session.report(`samples/${sample.name}: ${path}: found ${found}, expected ${expected}`);
    }
    return null;
  }
  const { name } = sample;
  const id = isTaken(session.store.read, read.build.id) ? session.newId() : read.build.id;
  const document = accept(read, library, id);
  createBuild(session.store.write, { id, document, label: 'Sample put in', sample: name, nowMs });
  return id;
}
