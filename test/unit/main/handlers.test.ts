import { createHash } from 'node:crypto';
import { writeFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { learnedOf } from '../../../app/judge/shopTable.ts';
import { fixedClock } from '../../../main/clock.ts';
import { answer } from '../../../main/handlers/answer.ts';
import { shippedLibrary } from '../../../main/library/shipped.ts';
import { shippedSamples } from '../../../main/samples.ts';
import { connection } from '../../../main/store/handles.ts';
import {
  ask,
  buildOf,
  LIBRARY,
  NOW,
  SAMPLES,
  sampleOf,
  scratchFolder,
  scratchSession,
  tell,
} from './fixtures.ts';

describe('the first start', () => {
  it('puts the samples in, opens the first, and tells clock and library', async () => {
    const start = await tell(scratchSession(), 'session-start', {});
    expect(start.builds.map(({ id, sample }) => [id, sample])).toEqual([
      ['arch', true],
      ['buoy', true],
    ]);
    expect(start.open).toMatchObject({ id: 'arch', revision: 1, canUndo: false });
    expect(start).toMatchObject({ runtime: 'browser', nowFixed: true, view: {} });
    expect(start.now).toBe('2027-04-19T06:00:00.000Z');
    expect(start.library).toEqual(LIBRARY);
    expect(start.notice).toBeUndefined();
  });

  it('a sample that cannot be read is left out and reported', async () => {
    const odd = [sampleOf('odd', { name: 'Odd' }), ...SAMPLES];
    const session = scratchSession({ samples: odd });
    expect(await tell(session, 'build-list', {})).toHaveLength(2);
    expect(session.lines.join()).toContain('samples/odd');
  });

  it('says that a damaged file was kept', async () => {
    const dataDir = scratchFolder();
    writeFileSync(`${dataDir}/backcure.sqlite`, 'noise '.repeat(2000));
    const start = await tell(scratchSession({ dataDir }), 'session-start', {});
    expect(start.notice).toContain('kept as');
  });
});

it('the samples that come with the program can all be read, and the roomy one is opened', async () => {
  const session = scratchSession({ shipped: shippedLibrary(), samples: shippedSamples() });
  const start = await tell(session, 'session-start', {});
  expect(session.lines).toEqual([]);
  expect(start.builds.length).toBeGreaterThanOrEqual(3);
  expect(start.builds.every((build) => build.sample)).toBe(true);
  expect(start.open?.id).toBe('low-water-canopy');
});

describe('a later start', () => {
  it('opens the build that was open last, as it was left', async () => {
    const dataDir = scratchFolder();
    const first = scratchSession({ dataDir });
    const made = await tell(first, 'build-create', { document: buildOf('Own') });
    await tell(first, 'build-open', { id: 'buoy' });
    await tell(first, 'build-open', { id: made.id });
    await tell(first, 'build-save', {
      id: made.id,
      expects: 1,
      label: 'Name',
      document: buildOf('Renamed'),
    });
    await tell(first, 'view-save', { view: { panel: 'cures' } });
    first.close();
    const start = await tell(scratchSession({ dataDir }), 'session-start', {});
    expect(start.open).toMatchObject({
      id: made.id,
      revision: 2,
      document: { name: 'Renamed' },
      undoLabel: 'Name',
    });
    expect(start.view).toEqual({ panel: 'cures' });
  });

  it('brings together how two windows stood, key by key', async () => {
    const session = scratchSession();
    await tell(session, 'view-save', { view: { panel: 'job', looked: { arch: 1, buoy: 1 } } });
    await tell(session, 'view-save', { view: { tray: 'part', looked: { buoy: 2 } } });
    await tell(session, 'view-save', { view: { panel: 'part' } });
    expect((await tell(session, 'session-start', {})).view).toEqual({
      panel: 'part',
      tray: 'part',
      looked: { arch: 1, buoy: 2 },
    });
  });

  it('keeps no more of the windows than there is room for, whoever tells it', async () => {
    const session = scratchSession();
    const half = 'x'.repeat(120_000);
    await tell(session, 'view-save', { view: { one: half } });
    expect(await ask(session, 'view-save', { view: { other: half } })).toMatchObject({
      code: 'refused',
    });
    expect((await tell(session, 'session-start', {})).view).toEqual({ one: half });
  });

  describe('after a death', () => {
    /** A run whose process is no more, with this build open. */
    const dead = async (dataDir: string): Promise<void> => {
      const session = scratchSession({ dataDir });
      await tell(session, 'build-open', { id: 'buoy' });
      connection(session.store.write)
        .prepare(`UPDATE meta SET value = '4194304 1' WHERE name = 'running'`)
        .run();
      session.store.close();
    };

    it('does not open what lay open then, until it is opened by hand', async () => {
      const dataDir = scratchFolder();
      await dead(dataDir);
      const next = scratchSession({ dataDir });
      const start = await tell(next, 'session-start', {});
      expect(start).toMatchObject({
        open: null,
        draft: null,
        notOpened: { id: 'buoy', draft: false },
      });
      // A second page of the same run is told the same.
      expect((await tell(next, 'session-start', {})).open).toBeNull();
      await tell(next, 'build-open', { id: 'buoy' });
      const later = await tell(next, 'session-start', {});
      expect(later.open).toMatchObject({ id: 'buoy' });
      expect(later.notOpened).toBeUndefined();
    });

    it('a run that was closed, or that still runs, is none', async () => {
      const dataDir = scratchFolder();
      const first = scratchSession({ dataDir });
      await tell(first, 'build-open', { id: 'buoy' });
      first.close();
      const second = scratchSession({ dataDir });
      expect((await tell(second, 'session-start', {})).open).toMatchObject({ id: 'buoy' });
      connection(second.store.write)
        .prepare(`UPDATE meta SET value = '${process.ppid} 1' WHERE name = 'running'`)
        .run();
      const beside = scratchSession({ dataDir });
      expect((await tell(beside, 'session-start', {})).open).toMatchObject({ id: 'buoy' });
    });
  });

  it('does not put a removed sample in again, and opens another build instead', async () => {
    const dataDir = scratchFolder();
    const first = scratchSession({ dataDir });
    await tell(first, 'build-open', { id: 'arch' });
    await tell(first, 'build-remove', { id: 'arch' });
    first.close();
    const start = await tell(scratchSession({ dataDir }), 'session-start', {});
    expect(start.builds.map((build) => build.id)).toEqual(['buoy']);
    expect(start.open?.id).toBe('buoy');
  });

  it('with no build left opens none', async () => {
    const session = scratchSession();
    await tell(session, 'build-remove', { id: 'arch' });
    await tell(session, 'build-remove', { id: 'buoy' });
    expect((await tell(session, 'session-start', {})).open).toBeNull();
  });
});

describe('a document from the page', () => {
  it('gets an id of its own and a frozen copy of every row it names', async () => {
    const session = scratchSession();
    const made = await tell(session, 'build-create', { document: buildOf('Own', { id: 'arch' }) });
    expect(made.id).toMatch(/^[0-9a-f]{8}-[0-9a-f]{4}-7/);
    expect(made.document).toMatchObject({
      id: made.id,
      library: { resins: [{ id: 'resin' }], moulds: [{ id: 'board-medium' }] },
    });
  });

  it('that is no build is refused with the field, and nothing is written', async () => {
    const session = scratchSession();
    const document = buildOf('Arch', { unveiling: '2027-02-30' });
    const given = await ask(session, 'build-save', {
      id: 'arch',
      expects: 1,
      label: 'x',
      document,
    });
    expect(given).toMatchObject({ ok: false, code: 'refused' });
    const found = { path: 'unveiling', found: '"2027-02-30"' };
    expect(given).toMatchObject({ faults: [found] });
    expect(await tell(session, 'build-open', { id: 'arch' })).toMatchObject({ revision: 1 });
  });

  it('cannot be saved under the id of another build', async () => {
    const session = scratchSession();
    const document = buildOf('Arch II', { id: 'buoy' });
    const saved = await tell(session, 'build-save', {
      id: 'arch',
      expects: 1,
      label: 'Name',
      document,
    });
    expect(saved.document['id']).toBe('arch');
    expect(await tell(session, 'build-open', { id: 'buoy' })).toMatchObject({ revision: 1 });
  });

  it('that was made on an older revision gets stale, in words', async () => {
    const session = scratchSession();
    const save = (name: string) =>
      ask(session, 'build-save', {
        id: 'arch',
        expects: 1,
        label: 'Name',
        document: buildOf(name),
      });
    expect(await save('One')).toMatchObject({ ok: true });
    expect(await save('Two')).toEqual({
      ok: false,
      code: 'stale',
      detail: 'The build was changed in another window.',
    });
  });
});

describe('a build file', () => {
  it('becomes a build of its own, each time it is opened', async () => {
    const session = scratchSession();
    const file = {
      fileName: 'arch.build.json',
      text: JSON.stringify(buildOf('File', { id: 'arch' })),
    };
    const one = await tell(session, 'build-import', file);
    const two = await tell(session, 'build-import', file);
    expect(one).toHaveProperty('opened.document.name', 'File');
    expect(await tell(session, 'build-list', {})).toHaveLength(4);
    expect(one).not.toEqual(two);
  });

  it.each([
    ['noise', 'x'.repeat(10_000_000), '(file)'],
    ['no JSON', '{', '(file)'],
    ['a newer version', JSON.stringify(buildOf('A', { formatVersion: 99 })), 'formatVersion'],
    [
      'an unknown resin',
      JSON.stringify(buildOf('A', { resin: { system: 'q', hardener: 'slow' } })),
      'resin',
    ],
    ['a deep nest', '['.repeat(5_000_000), '(file)'],
  ])('with %s comes back as faults and leaves everything as it was', async (_what, text, path) => {
    const session = scratchSession();
    const given = await tell(session, 'build-import', { fileName: 'f', text });
    expect('faults' in given && given.faults[0]?.path).toContain(path);
    expect(await tell(session, 'build-list', {})).toHaveLength(2);
  });
});

describe('a sample', () => {
  it('is put back as shipped by an edit that can be undone', async () => {
    const session = scratchSession();
    const document = buildOf('Scribbled on', {
      records: [{ stage: 'demould', start: '2027-04-20T08:00' }],
    });
    const save = { id: 'arch', expects: 1, label: 'Name', document };
    const { revision } = await tell(session, 'build-save', save);
    const reset = await tell(session, 'sample-reset', { id: 'arch', expects: revision });
    expect(reset.document).toMatchObject({ name: 'Arch' });
    expect(reset.document).not.toHaveProperty('records');
    const back = await tell(session, 'build-undo', { id: 'arch', expects: reset.revision });
    expect(back.document['name']).toBe('Scribbled on');
  });

  it('is what the own build of a shop is not', async () => {
    const session = scratchSession();
    const { id } = await tell(session, 'build-create', { document: buildOf('Own') });
    const given = await ask(session, 'sample-reset', { id, expects: 1 });
    expect(given).toMatchObject({ ok: false, code: 'refused' });
  });
});

describe('a message', () => {
  it.each([
    ['build-open', {}],
    ['build-open', { id: 'arch', more: 1 }],
    ['build-open', null],
    ['build-open', 'arch'],
    ['build-save', { id: 'arch', expects: -1, label: 'x', document: {} }],
    ['build-save', { id: 'arch', expects: '1', label: 'x', document: {} }],
    ['build-import', { fileName: 'f', text: 7 }],
    ['build-list', { at: 1 }],
  ] as const)('on %s of the wrong shape is a bad message: %j', async (name, raw) => {
    expect(await answer(scratchSession(), name, raw)).toMatchObject({
      ok: false,
      code: 'bad-message',
    });
  });

  it('that keeps too much of a window is refused', async () => {
    const view = { noise: 'x'.repeat(300_000) };
    expect(await ask(scratchSession(), 'view-save', { view })).toMatchObject({ code: 'refused' });
  });

  it('about printing is answered not-here where the browser prints itself', async () => {
    const sheets = { html: '<p>', to: 'pdf', name: 'week' } as const;
    expect(await ask(scratchSession(), 'print-sheets', sheets)).toMatchObject({ code: 'not-here' });
    const session = scratchSession({ print: async () => true });
    expect(await tell(session, 'print-sheets', sheets)).toEqual({ done: true });
  });

  it('about a file is answered not-here where the browser downloads itself', async () => {
    const list = { name: 'list.csv', text: 'a,b' };
    expect(await ask(scratchSession(), 'text-save', list)).toMatchObject({ code: 'not-here' });
    const session = scratchSession({ saveText: async (name) => name === 'list.csv' });
    expect(await tell(session, 'text-save', list)).toEqual({ done: true });
  });

  it('about sleep and alarms reaches the machine in Electron, and is not here in a browser', async () => {
    const alarm = { id: 'gel', at: '2027-05-04T09:00:00Z', title: 'Look at the gel', body: 'Skin' };
    expect(await ask(scratchSession(), 'keep-awake', { on: true })).toMatchObject({
      code: 'not-here',
    });
    expect(await ask(scratchSession(), 'alarms-set', { alarms: [alarm] })).toMatchObject({
      code: 'not-here',
    });
    const told: unknown[] = [];
    const session = scratchSession({
      keepAwake: (on) => told.push(on),
      setAlarms: (alarms) => told.push(alarms),
    });
    expect(await tell(session, 'keep-awake', { on: true })).toEqual({ on: true });
    expect(await tell(session, 'alarms-set', { alarms: [alarm] })).toEqual({ set: 1 });
    expect(told).toEqual([true, [alarm]]);
    const wrong = { alarms: [{ ...alarm, at: 'at nine' }] };
    expect(await ask(session, 'alarms-set', wrong)).toMatchObject({ code: 'bad-message' });
  });

  it('that meets a full disk is answered in plain words and keeps the old state', async () => {
    const session = scratchSession();
    const database = connection(session.store.write);
    database.pragma(`max_page_count = ${Number(database.pragma('page_count', { simple: true }))}`);
    const questions = Array.from({ length: 400 }, (_, i) => ({
      id: `q${i}`,
      text: createHash('sha512').update(`${i}`).digest('base64'),
      before: 'mould',
    }));
    const document = buildOf('Big', { part: { zones: [], questions } });
    const save = { id: 'arch', expects: 1, label: 'Grow', document };
    const given = await ask(session, 'build-save', save);
    expect(given).toMatchObject({ ok: false, code: 'disk' });
    expect(JSON.stringify(given)).toContain('The disk is full');
    expect((await tell(session, 'session-start', {})).open).toMatchObject({
      revision: 1,
      document: { name: 'Arch' },
    });
    database.pragma('max_page_count = 1000000');
    expect(await ask(session, 'build-save', save)).toMatchObject({ ok: true });
  });

  it('that meets a fault of the program says nothing of its inside', async () => {
    const session = scratchSession();
    connection(session.store.write).exec('DROP TABLE meta');
    const given = await ask(session, 'session-start', {});
    expect(given).toMatchObject({ ok: false, code: 'unexpected' });
    expect(JSON.stringify(given)).not.toContain('meta');
    expect(session.lines.join()).toContain('no such table: meta');
  });
});

it('the clock of a session that was not fixed runs', async () => {
  const clock = { ...fixedClock(NOW), fixed: false };
  const start = await tell(scratchSession({ clock }), 'session-start', {});
  expect(start.nowFixed).toBe(false);
});

describe('what the floor taught and the shop keeps', () => {
  it('stands before the shipped one for builds begun from then on, and is kept again over itself', async () => {
    const dataDir = scratchFolder();
    const first = scratchSession({ dataDir, shipped: shippedLibrary() });
    const { library } = await tell(first, 'session-start', {});
    const shipped = library.labour.find(({ id }) => id === 'trim')!;
    const provenance = { kind: 'measured' as const, source: 'the shop’s own records' };
    const own = { ...shipped, setupMinutes: 77, revision: shipped.revision + 1, provenance };
    const rate = (rows: typeof library) => rows.labour.find(({ id }) => id === 'trim')!;
    const kept = await tell(first, 'row-keep', { table: 'labour', row: own });
    expect(rate(kept.library)).toMatchObject({ setupMinutes: 77, provenance });
    const again = await tell(first, 'row-keep', {
      table: 'labour',
      row: { ...own, setupMinutes: 80 },
    });
    expect(rate(again.library).setupMinutes).toBe(80);
    expect(rate(again.library).revision).toBeGreaterThan(rate(kept.library).revision);
    first.close();
    const later = await tell(
      scratchSession({ dataDir, shipped: shippedLibrary() }),
      'session-start',
      {},
    );
    expect(rate(later.library).setupMinutes).toBe(80);
    // The order of the table stays: the first row of a kind counts.
    expect(later.library.labour.map(({ id }) => id)).toEqual(library.labour.map(({ id }) => id));
  });

  it('odds stand in it too, and the same demoulds are not counted twice', async () => {
    const session = scratchSession({ shipped: shippedLibrary() });
    const { library } = await tell(session, 'session-start', {});
    const builds = [1, 2, 3, 4, 5, 6].map((number) => ({
      id: `build-${number}`,
      release: 'wax-paste',
      lessons: { finished: true, hardDemould: true, events: [] },
    }));
    const offers = learnedOf({}, library, library, builds);
    expect(offers.map(({ id }) => id)).toEqual(['wax-paste']);
    const chance = (rows: typeof library) =>
      rows.releases.find(({ id }) => id === 'wax-paste')!.hardDemouldChance;
    const kept = await tell(session, 'row-keep', offers[0]!.kept);
    expect(chance(kept.library)).toBeGreaterThan(0.4);
    expect(chance(kept.library)).toBeGreaterThan(chance(library));
    expect(learnedOf({}, kept.library, kept.library, builds)).toEqual([]);
    const eased = builds.map((one) => ({
      ...one,
      lessons: { ...one.lessons, hardDemould: false },
    }));
    const [again] = learnedOf({}, kept.library, kept.library, eased);
    await expect(
      tell(session, 'row-keep', again!.kept).then((answer) => chance(answer.library)),
    ).resolves.toBeLessThan(chance(library));
  });
});
