/** Stores edit after edit in one session, and looks at memory and file. */
import { statSync } from 'node:fs';
import { join } from 'node:path';
import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';
import { listBuilds, openBuild, saveEdit, undo } from '../../main/store/builds.ts';
import { FILE_NAME } from '../../main/store/open.ts';
import { openSession } from '../../main/session.ts';
import { fixedClock } from '../../main/clock.ts';

export interface SoakCount {
  readonly edits: number;
  /** Memory in use after a tenth of the edits and at the end, MB. */
  readonly heapMB: readonly [number, number];
  /** All memory of the process at the same moments, what lies outside the heap included, MB. */
  readonly processMB: readonly [number, number];
  readonly fileMB: number;
  /** Mean time of an edit in the first and last tenth, ms. */
  readonly editMs: readonly [number, number];
}

const MB = 1e6;
/** Every so many edits one is taken back. */
const UNDO_EVERY = 10;

export async function soak(dataDir: string, edits: number): Promise<SoakCount> {
  const clock = fixedClock(new Date('2027-04-12T06:00Z'));
  const session = openSession({ runtime: 'browser', dataDir, clock });
  const heap: number[] = [];
  const whole: number[] = [];
  const took: number[] = [];
  try {
    const { id } = listBuilds(session.store.read)[0]!;
    let open = openBuild(session.store.read, id);
    const tenth = Math.max(1, Math.floor(edits / 10));
    let began = performance.now();
    for (let i = 1; i <= edits; i += 1) {
      const expects = open.revision;
      if (i % UNDO_EVERY === 0) open = undo(session.store.write, { id, expects, nowMs: i });
      else {
        const document = { ...structuredClone(open.document), name: `Soak ${i}` };
        const { zones } = document['part' as keyof typeof document] as unknown as {
          zones: { areaM2: number }[];
        };
        zones[i % zones.length]!.areaM2 = Math.round(500 + ((i * 37) % 4000)) / 1000;
        open = saveEdit(session.store.write, {
          id,
          expects,
          label: `Edit ${i}`,
          document,
          nowMs: i,
        });
      }
      // As between two requests: what the database's statements held is let go there.
      await new Promise((resolve) => setImmediate(resolve));
      if (i % tenth !== 0) continue;
      took.push((performance.now() - began) / tenth);
      heap.push(heapInUse());
      whole.push(process.memoryUsage.rss());
      began = performance.now();
    }
  } finally {
    session.close();
  }
  return {
    edits,
    heapMB: [heap[0]! / MB, heap.at(-1)! / MB],
    processMB: [whole[0]! / MB, whole.at(-1)! / MB],
    fileMB: statSync(join(dataDir, FILE_NAME)).size / MB,
    editMs: [took[0]!, took.at(-1)!],
  };
}

/** After everything that is not used was let go. */
function heapInUse(): number {
  setFlagsFromString('--expose-gc');
  (runInNewContext('gc') as () => void)();
  return process.memoryUsage().heapUsed;
}
