/** A data file of an earlier program: everything in it is there, and its history can be walked. */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeEach, describe, expect, it } from 'vitest';
import { readDocument } from '../../app/document/read.ts';
import { planResultSchema, type Build } from '../../app/document/schema.ts';
import type { OpenBuild } from '../../app/contract/channels.ts';
import { FIRST_ANSWER } from '../../app/plan/outcome.ts';
import { plan } from '../../app/answer/plan.ts';
import { isoToMinute } from '../../app/time/zone.ts';
import { fixedClock } from '../../main/clock.ts';
import type { Session } from '../../main/session.ts';
import { connection } from '../../main/store/handles.ts';
import { FILE_NAME } from '../../main/store/open.ts';
import { soundRevision } from '../../main/store/revisions.ts';
import { recordsOf, withRecords } from '../../main/store/rows.ts';
import { bytesOf, jsonOf, type StoreContents } from '../fixtures/read.ts';
import { library } from '../support/builds.ts';
import { scratchSession, tell } from '../unit/main/fixtures.ts';
import { scratchFolder } from './fixtures.ts';

const contents = jsonOf<StoreContents>('store/contents.json');
const LATER = new Date('2027-09-01T08:00:00Z');

interface Row {
  readonly build_id: string;
  readonly number: number;
  readonly kind: string;
}
const revisions = (session: Session): Row[] =>
  connection(session.store.read)
    .prepare<[], Row>('SELECT build_id, number, kind FROM revisions ORDER BY build_id, number')
    .all();

/** Steps back or forth until there is no further one. */
async function walk(
  session: Session,
  from: OpenBuild,
  channel: 'build-undo' | 'build-redo',
): Promise<{ end: OpenBuild; steps: number }> {
  let open = from;
  let steps = 0;
  while (channel === 'build-undo' ? open.canUndo : open.canRedo) {
    open = await tell(session, channel, { id: open.id, expects: open.revision });
    steps += 1;
  }
  return { end: open, steps };
}

describe('a data file of store step 30', () => {
  let session: ReturnType<typeof scratchSession>;

  beforeEach(() => {
    const dataDir = scratchFolder();
    writeFileSync(join(dataDir, FILE_NAME), bytesOf('store/backcure.sqlite.gz'));
    const shipped = library();
    session = scratchSession({ dataDir, clock: fixedClock(LATER), shipped, samples: [] });
  });

  it('opens without a word, with its builds, the open one, the window and the draft', async () => {
    const start = await tell(session, 'session-start', {});
    expect(start.notice).toBeUndefined();
    expect(session.lines).toEqual([]);
    expect(start.builds.map(({ id, name }) => [id, name])).toEqual(
      contents.builds.map(({ id, name }) => [id, name]),
    );
    expect(start.open?.id).toBe(contents.open);
    expect(start.view).toMatchObject({ theme: 'dark', infusion: { build: contents.open } });
    expect(start.drafts.map(({ name }) => name)).toEqual([contents.draft]);
    expect(start.draft?.document).toMatchObject({
      name: contents.draft,
      part: { zones: [{ areaM2: 0.45 }] },
    });
    expect(Object.keys(start.view).filter((key) => key.startsWith('draft'))).toEqual([]);
    expect((await tell(session, 'lessons-read', {})).map(({ id }) => id)).toEqual(contents.lessons);
  });

  it('opens every build as it was left, and plans it', async () => {
    for (const { id, name, now, ...left } of contents.builds) {
      const { document, ...open } = await tell(session, 'build-open', { id });
      const { revisions: kinds, records, printed, ...steps } = left;
      expect(open).toMatchObject(steps);
      expect(open.revision).toBe(Object.values(kinds).reduce((sum, count) => sum + count, 0));
      expect(document['name']).toBe(name);
      expect(recordsOf(document)).toHaveLength(records);
      expect(Boolean(document['printed'])).toBe(printed);
      const moment = isoToMinute(now)!;
      const { result } = plan(document as unknown as Build, library(), moment, FIRST_ANSWER);
      expect(planResultSchema.safeParse(result).error).toBeUndefined();
      expect(result.stages.length).toBeGreaterThan(20);
      const stages = new Set(result.stages.map((stage) => stage.id));
      const { records: worked = [] } = document as unknown as Build;
      expect(worked.filter(({ stage }) => !stages.has(stage))).toEqual([]);
    }
  });

  it('has no revision, of removed builds either, that the reader refuses', () => {
    const rows = revisions(session);
    for (const { build_id, number } of rows) {
      const { document } = soundRevision(session.store.read, build_id, number)!;
      const read = readDocument(document, session.library());
      expect([build_id, number, read.ok ? [] : read.faults]).toEqual([build_id, number, []]);
    }
    const all = contents.builds.flatMap(({ revisions: kinds }) => Object.values(kinds));
    expect(rows.length).toBeGreaterThan(all.reduce((sum, count) => sum + count, 0));
    const ids = new Set(rows.map((row) => row.build_id));
    expect(contents.removed.filter((id) => !ids.has(id))).toEqual([]);
  });

  it('goes back to the first revision of every build and forth to its last edit', async () => {
    const rows = revisions(session);
    let most = 0;
    for (const { id } of contents.builds) {
      const own = rows.filter((row) => row.build_id === id);
      const open = await tell(session, 'build-open', { id });
      const kept = recordsOf(open.document);
      const stateOf = (row: Row) =>
        withRecords(soundRevision(session.store.read, id, row.number)!.document, kept);
      const back = await walk(session, open, 'build-undo');
      expect(back.end.document).toEqual(stateOf(own[0]!));
      const forth = await walk(session, back.end, 'build-redo');
      expect(forth.end.document).toEqual(stateOf(own.findLast(({ kind }) => kind === 'edit')!));
      expect(forth.steps).toBeGreaterThanOrEqual(back.steps);
      most = Math.max(most, forth.steps);
    }
    expect(most).toBeGreaterThan(20);
  });
});
