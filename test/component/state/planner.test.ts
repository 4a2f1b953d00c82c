/** The planner's state as a whole, over a stand-in of the program and plans that are made at once. */
import { beforeEach, describe, expect, it, vi } from 'vitest';
import type { ChannelOutput } from '../../../app/contract/channels.ts';
import { plan } from '../../../app/answer/plan.ts';
import { FIRST_ANSWER, type PlanOutcome } from '../../../app/plan/outcome.ts';
import { setField } from '../../../app/document/edit/change.ts';
import { setIn, type Draft } from '../../../app/document/edit/path.ts';
import { emptyBuild } from '../../../app/document/edit/start.ts';
import type { Lever } from '../../../app/document/schema.ts';
import { PlannerState } from '../../../renderer/state/planner.svelte.ts';
import { refusedAt } from '../../../renderer/state/refused.ts';
import type { WorkerPort } from '../../../renderer/state/solver.ts';
import sample from '../../../samples/harbour-gate-sign.build.json?raw';
import { library } from '../../library.ts';
import { openOf, StandInStore } from './store.ts';

const SAMPLE = JSON.parse(sample) as Draft;
/** A Sunday on which the clocks of Berlin go from 02:00 to 03:00. */
const SIGN: Draft = { ...SAMPLE, earliestStart: '2027-03-28T02:30' };
const NOW = '2027-04-12T06:00:00Z';

let store: StandInStore;
let planner: PlannerState;
let posted: unknown[];
let printed: number;
let planned: PlanOutcome | null;
let worker: WorkerPort;

async function start(more: Partial<ChannelOutput<'session-start'>> = {}): Promise<void> {
  const session: ChannelOutput<'session-start'> = {
    runtime: 'browser',
    now: NOW,
    nowFixed: true,
    library,
    builds: [],
    open: openOf('sign', 1, SIGN),
    drafts: [],
    draft: null,
    view: {},
    ...more,
  };
  const call = ((name: string, input: never) =>
    name === 'session-start'
      ? Promise.resolve({ ok: true, value: session })
      : store.call(name as never, input)) as typeof store.call;
  planner = new PlannerState({
    call,
    plan: (document, rows, now) => (planned ??= plan(document, rows, now, FIRST_ANSWER)),
    applyLever: () => null,
    printPage: () => (printed += 1),
    sheetsHtml: () => '',
    downloadText: () => undefined,
    worker,
    elapsedMs: () => 0,
    zone: 'Europe/Lisbon',
  });
  await planner.start();
}

beforeEach(() => {
  vi.useFakeTimers();
  store = new StandInStore();
  [posted, printed, planned] = [[], 0, null];
  worker = { postMessage: (message) => posted.push(message), onmessage: null, onerror: null };
  store.builds.set('sign', { revision: 1, document: { ...SIGN } });
  store.builds.set('other', { revision: 1, document: { ...SAMPLE, name: 'Other' } });
});

const rename = (name: string) =>
  planner.apply(setField(planner.document, 'name', name, 'Build', name));
/** As by a stepper that is held down: it is not sent at once. */
const renameSlowly = (name: string) =>
  planner.apply(setField(planner.document, 'name', name, 'Build', name, 'name'));
const rezone = (zone: string) =>
  planner.apply(setField(planner.document, 'zone', zone, 'Time zone', zone));
const stored = (id: string) => store.builds.get(id)!.document;

describe('an edit that can be no build', () => {
  it('is not sent, is told field by field, and leaves the document as it was', async () => {
    await start();
    const before = planner.document;
    const faults = rezone('Europe/Berlin');
    expect(faults).toMatchObject([{ path: 'earliestStart', found: '"2027-03-28T02:30"' }]);
    expect(planner.document).toBe(before);
    expect(planner.outcome).not.toBeNull();
    expect(planner.unsaved).toBe(false);
    const shown = refusedAt(planner.history.refusal, 'zone');
    expect(shown).toMatchObject({ value: 'Europe/Berlin' });
    expect(shown?.fault).toContain('Work may begin');
    expect(refusedAt(planner.history.refusal, 'name')).toBeNull();
    expect(store.asked).not.toContain('build-save');
  });

  it('stays told over other edits, until it is corrected', async () => {
    await start();
    rezone('Europe/Berlin');
    expect(rename('Gate')).toEqual([]);
    expect(planner.history.refusal).not.toBeNull();
    expect(rezone('Europe/Tallinn')).toEqual([]);
    expect(planner.history.refusal).toBeNull();
    await planner.saveNow();
    expect(stored('sign')).toMatchObject({ name: 'Gate', zone: 'Europe/Tallinn' });
  });

  it('is forgotten with its build', async () => {
    await start();
    rezone('Europe/Berlin');
    await planner.opening.open('other');
    expect(planner.history.refusal).toBeNull();
  });
});

describe('a build that still lacks what nobody can assume', () => {
  const begun = async (document: Draft) => {
    const draft = { id: 'begun', revision: 1, document: { ...document } };
    store.drafts.set('begun', { revision: 1, document: { ...document } });
    await start({ open: null, draft });
  };
  const lack = (...paths: readonly string[]) =>
    paths.reduce<Draft>((next, path) => setIn(next, path, undefined), SAMPLE);

  it('has no picture before its first entry', async () => {
    await begun(emptyBuild('Europe/Lisbon', []));
    expect(planner.outcome).toBeNull();
    expect(planner.planning.trouble).toBe('');
  });

  it('is drawn from its first entry on, which is all that is stored', async () => {
    await begun(emptyBuild('Europe/Lisbon', []));
    rename('Kite roof');
    expect(planner.planning.trouble).toBe('');
    expect(planner.outcome!.result.stages.length).toBeGreaterThan(10);
    expect(planner.planning.ready).toBe(false);
    expect(planner.planning.standIns).toEqual([
      { path: 'unveiling', day: '2027-07-05' },
      { path: 'part.zones[].areaM2', areaM2: 1 },
      { path: 'part.zones[].outer', plies: 2, cloth: 'Carbon 2/2 twill 200' },
      { path: 'resin.system', resin: 'Orrin 40 laminating epoxy' },
      { path: 'crew' },
    ]);
    await planner.saveNow();
    expect(store.drafts.get('begun')!.document).toMatchObject({ name: 'Kite roof', crew: [] });
    expect(store.drafts.get('begun')!.document).not.toHaveProperty('unveiling');
    expect(store.asked).not.toContain('build-create');
  });

  it.each([
    ['name', 'name'],
    ['unveiling', 'unveiling'],
    ['part.zones[0].areaM2', 'part.zones[].areaM2'],
    ['part.zones[0].outer', 'part.zones[].outer'],
    ['resin', 'resin.system'],
    ['crew', 'crew'],
  ])('without %s: that alone stands in, and the plan is drawn', async (lost, path) => {
    await begun(lack(lost));
    expect(planner.planning.trouble).toBe('');
    expect(planner.outcome).not.toBeNull();
    expect(planner.planning.standIns.map((one) => one.path)).toEqual([path]);
  });

  it('takes no way out on what stands in', async () => {
    await begun(lack('unveiling'));
    planner.pull({ id: 'any', label: 'Any way out' } as Lever);
    expect(planner.news).toContain('First enter what is still missing');
  });
});

describe('leaving a build', () => {
  it('waits until everything typed is stored', async () => {
    await start();
    rename('Gate');
    expect(planner.unsaved).toBe(true);
    expect(await planner.opening.open('other')).toBe(true);
    expect(stored('sign')).toMatchObject({ name: 'Gate' });
    expect(planner.document.name).toBe('Other');
  });

  it('also when something is typed while the other one is fetched', async () => {
    await start();
    store.fails = (name) => {
      if (name === 'build-open' && planner.document.name !== 'Typed late')
        renameSlowly('Typed late');
      return null;
    };
    expect(await planner.opening.open('other')).toBe(true);
    expect(stored('sign')).toMatchObject({ name: 'Typed late' });
    expect(stored('other')).toMatchObject({ name: 'Other' });
  });

  it.each([
    ['stay', 'sign', 'Gate'],
    ['without', 'other', 'Other'],
  ] as const)('asks when it cannot be stored: %s', async (choice, id, name) => {
    await start();
    store.fails = (channel) => (channel === 'build-save' ? 'disk' : null);
    rename('Gate');
    const opening = planner.opening.open('other');
    await vi.advanceTimersByTimeAsync(10);
    expect(planner.leaving.question).toMatchObject({ name: 'Gate', detail: 'no: disk' });
    planner.leaving.answer(choice);
    await opening;
    expect(planner.buildId).toBe(id);
    expect(planner.document.name).toBe(name);
    expect(planner.leaving.question).toBeNull();
    store.fails = () => null;
    await vi.advanceTimersByTimeAsync(60_000);
    expect(planner.unsaved).toBe(false);
    expect(stored('sign')['name']).toBe(choice === 'stay' ? 'Gate' : SIGN.name);
  });

  it('does not begin a second new build by trying again', async () => {
    await start();
    store.fails = (channel) => {
      if (channel === 'draft-create' && planner.document.name !== 'Gate') renameSlowly('Gate');
      return null;
    };
    expect(await planner.opening.create()).toBe(true);
    expect(store.drafts.size).toBe(1);
    expect(stored('sign')).toMatchObject({ name: 'Gate' });
    expect(planner.drafting).toBe(true);
  });
});

describe('a new build', () => {
  it('into which nothing was typed goes with its leaving; any other stays', async () => {
    await start();
    await planner.opening.create();
    await planner.opening.open('other');
    expect(store.drafts.size).toBe(0);
    await planner.opening.create();
    rename('Half a boat');
    await planner.opening.open('other');
    await vi.advanceTimersByTimeAsync(10);
    expect([...store.drafts.values()].map(({ document }) => document['name'])).toEqual([
      'Half a boat',
    ]);
  });

  it('becomes a build with its first plan, and takes along what is typed meanwhile', async () => {
    await start({ open: null, draft: { id: 'd', revision: 1, document: { ...SIGN, crew: [] } } });
    store.drafts.set('d', { revision: 1, document: { ...SIGN, crew: [] } });
    expect(planner.planning.ready).toBe(false);
    planner.apply({ label: 'Crew', document: { ...planner.document, crew: SIGN.crew! } });
    expect(planner.planning.ready).toBe(true);
    const { place } = planner.opening;
    rename('Typed meanwhile');
    store.fails = (name) => {
      if (name === 'build-create') rename('Typed last');
      return null;
    };
    await vi.advanceTimersByTimeAsync(10);
    expect(planner.drafting).toBe(false);
    expect(planner.opening.place).toBe(place);
    expect(store.drafts.size).toBe(0);
    expect(store.asked.filter((name) => name === 'draft-create')).toEqual([]);
    expect(stored(planner.buildId!)).toMatchObject({ name: 'Typed last', crew: SIGN.crew });
  });
});

describe('printing', () => {
  it('notes the schedule that now hangs on the wall, and a new plan takes it down', async () => {
    await start();
    await planner.printing.print('dialog', { kind: 'mix' });
    expect(planner.document.printed).toBeUndefined();
    await planner.printing.print('dialog');
    expect(printed).toBe(2);
    expect(planner.document.printed).toBeTruthy();
    await planner.printing.print('dialog');
    await planner.saveNow();
    expect(store.sent.map(({ label }) => label)).toEqual(['Printed the schedule']);
    planner.printing.planAfresh();
    expect(planner.document.printed).toBeNull();
  });
});

describe('planning', () => {
  it('asks the worker for more, keeps other routes until it answers, and stops when told', async () => {
    await start();
    expect(posted).toHaveLength(1);
    expect(planner.planning.thinking).toBe('thinking');
    const first = planner.outcome!;
    const { revision } = posted[0] as { revision: number };
    const other = { ...first.result.routes[0]!, id: 'another' };
    const whole = { ...first.result, routes: [...first.result.routes, other] };
    const answer = (result: typeof whole, done: boolean) =>
      worker.onmessage!({
        data: { revision, outcome: { result, detail: first.detail }, done },
      } as MessageEvent);
    answer(whole, false);
    expect(planner.result!.routes.map(({ id }) => id)).not.toContain('another');
    expect(planner.planning.full).toBe(false);
    answer(whole, true);
    expect(planner.result!.routes.map(({ id }) => id)).toContain('another');
    expect(planner.planning).toMatchObject({ full: true, thinking: 'done' });
    rename('Gate');
    expect(planner.result!.routes.map(({ id }) => id)).toContain('another');
    planner.planning.stopThinking();
    expect(planner.planning.thinking).toBe('stopped');
    expect(posted.at(-1)).toEqual({ stop: true });
  });
});

describe('the window', () => {
  it('keeps how it stands a moment after the last change, in one message', async () => {
    await start({ view: { panel: 'part', stage: 'trim' } });
    expect(planner.selected).toBe('trim');
    planner.setView({ panel: 'job' });
    planner.selected = null;
    await vi.advanceTimersByTimeAsync(1000);
    expect(store.asked.filter((name) => name === 'view-save')).toHaveLength(1);
    expect(planner.view).toEqual({ panel: 'job', stage: null });
  });
});

describe('an edit that another window was quicker than', () => {
  const recount = (currency: string) =>
    planner.apply(setField(planner.document, 'currency', currency, 'Currency', currency));
  const elsewhere = () =>
    store.builds.set('sign', { revision: 2, document: { ...SIGN, name: 'By the other' } });

  it('is offered on top of the newer state, and stands beside what the other wrote', async () => {
    await start();
    elsewhere();
    recount('GBP');
    await vi.advanceTimersByTimeAsync(10);
    expect(planner.document).toMatchObject({ name: 'By the other', currency: SIGN.currency });
    expect(planner.news).toContain('offered again');
    expect(planner.history.offered?.labels).toEqual(['Currency: GBP']);
    planner.apply(planner.history.takeOffered(planner.document)!);
    await planner.saveNow();
    expect(planner.history.offered).toBeNull();
    expect(stored('sign')).toMatchObject({ name: 'By the other', currency: 'GBP' });
    expect(store.sent.map(({ label }) => label)).toEqual(['Currency: GBP']);
  });

  it('is one offer with those made before it was taken', async () => {
    await start();
    elsewhere();
    recount('GBP');
    await vi.advanceTimersByTimeAsync(10);
    store.builds.set('sign', { revision: 3, document: { ...SIGN, name: 'Again' } });
    planner.apply(setField(planner.document, 'paper', 'letter', 'Paper', 'Letter'));
    await vi.advanceTimersByTimeAsync(10);
    const again = planner.history.takeOffered(planner.document)!;
    expect(again.label).toBe('Currency: GBP, Paper: Letter');
    expect(again.document).toMatchObject({
      name: 'Again',
      currency: 'GBP',
      paper: 'letter',
    });
  });

  it('can be left, and is gone with its build', async () => {
    await start();
    elsewhere();
    recount('GBP');
    await vi.advanceTimersByTimeAsync(10);
    await planner.opening.open('other');
    expect(planner.history.offered).toBeNull();
  });
});

describe('how the window stands', () => {
  it('is told by what has changed, and of what is kept for each build that build alone', async () => {
    await start({ view: { panel: 'job', looked: { sign: 1, other: 1 } } });
    const told: unknown[] = [];
    store.fails = (name, input) => {
      if (name === 'view-save') told.push((input as unknown as { view: unknown }).view);
      return null;
    };
    planner.setView({ tray: 'part' });
    await vi.advanceTimersByTimeAsync(300);
    planner.setView({ looked: { sign: 2, other: 1 } });
    await vi.advanceTimersByTimeAsync(300);
    planner.setView({ tray: 'part' });
    await vi.advanceTimersByTimeAsync(300);
    expect(told).toEqual([{ tray: 'part' }, { looked: { sign: 2 } }]);
  });
});

it('what lay open when the program died is opened by hand alone', async () => {
  await start({ open: null, notOpened: { id: 'other', name: 'Other', draft: false } });
  expect(planner.buildId).toBeNull();
  expect(planner.session.notOpened).toMatchObject({ id: 'other' });
  expect(await planner.opening.open('other')).toBe(true);
  expect(planner.document.name).toBe('Other');
});
