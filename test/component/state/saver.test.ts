import { beforeEach, describe, expect, it, vi } from 'vitest';
import type { ErrorCode, Failure } from '../../../app/contract/channels.ts';
import type { Draft } from '../../../app/document/edit/path.ts';
import { FAILURE_KIND, type SaveState } from '../../../renderer/state/failures.ts';
import { Saver, type Refusal, type StaleEdits } from '../../../renderer/state/saver.ts';
import { openOf, StandInStore } from './store.ts';

const LONG_MS = 60_000;
const FIRST: Draft = { name: 'first', currency: 'EUR' };

let store: StandInStore;
let states: SaveState[];
let stale: StaleEdits[];
let refused: Refusal[];
/** The document on screen. */
let shown: Draft;
let saver: Saver;

beforeEach(() => {
  vi.useFakeTimers();
  store = new StandInStore();
  [states, stale, refused, shown] = [[], [], [], FIRST];
  store.builds.set('b', { revision: 7, document: { ...FIRST } });
  saver = new Saver(store.call, openOf('b', 7, FIRST), {
    saved: () => undefined,
    stale: (edits) => void stale.push(edits),
    refused: (refusal, document) => {
      refused.push(refusal);
      shown = document;
    },
    state: (state) => states.push(state),
  });
});

/** An edit of the document on screen. */
function edit(label: string, fields: Draft, merge?: string): void {
  shown = { ...shown, ...fields };
  saver.push({ label, document: shown, ...(merge === undefined ? {} : { merge }) });
}
const labels = () => store.sent.map((one) => one.label);
/** Fails every save whose label is one of these. */
const failOn = (code: ErrorCode | Failure, ...bad: string[]) => {
  store.fails = (name, { label }) => (name === 'build-save' && bad.includes(label) ? code : null);
};

describe('saving', () => {
  it('sends edits in order, each expecting the revision of the one before', async () => {
    edit('one', { name: '1' });
    edit('two', { name: '2' });
    edit('three', { name: '3' });
    expect(await saver.flush()).toBe(true);
    expect(store.sent.map(({ expects, label }) => [expects, label])).toEqual([
      [7, 'one'],
      [8, 'two'],
      [9, 'three'],
    ]);
    expect(states.at(-1)).toBe('saved');
  });

  it('makes one revision of a stepper held down, once it rests', async () => {
    for (const degree of [21, 22, 23]) {
      edit(`${degree} °C`, { name: `${degree}` }, 'room');
      await vi.advanceTimersByTimeAsync(100);
    }
    expect(labels()).toEqual([]);
    expect(states.at(-1)).toBe('saving');
    await vi.advanceTimersByTimeAsync(2000);
    expect(labels()).toEqual(['23 °C']);
    expect(states.at(-1)).toBe('saved');
  });

  it('sends what waits to be merged as soon as somebody waits for it', async () => {
    edit('21 °C', { name: '21' }, 'room');
    expect(saver.idle).toBe(false);
    expect(await saver.flush()).toBe(true);
    expect(labels()).toEqual(['21 °C']);
  });

  it('does not merge across another edit', async () => {
    edit('21 °C', { name: '21' }, 'room');
    edit('name', { name: 'x' });
    edit('22 °C', { name: '22' }, 'room');
    await vi.advanceTimersByTimeAsync(2000);
    expect(labels()).toEqual(['21 °C', 'name', '22 °C']);
  });

  it('sends nothing more once its build is left', async () => {
    edit('one', { name: '1' }, 'name');
    saver.close();
    await vi.advanceTimersByTimeAsync(LONG_MS);
    expect(store.asked).toEqual([]);
  });
});

describe('a save that fails for want of program or disk', () => {
  it.each(['unreachable', 'disk'] as const)(
    'with %s is kept, told, and tried again until it succeeds',
    async (code) => {
      failOn(code, 'one');
      edit('one', { name: '1' });
      edit('two', { currency: 'USD' });
      expect(await saver.flush()).toBe(false);
      expect(states.at(-1)).toBe('failed');
      await vi.advanceTimersByTimeAsync(LONG_MS);
      expect(saver.idle).toBe(false);
      expect(refused).toEqual([]);
      store.fails = () => null;
      await vi.advanceTimersByTimeAsync(LONG_MS);
      expect(labels()).toEqual(['one', 'two']);
      expect(states.at(-1)).toBe('saved');
    },
  );

  it('for a build that is gone is not tried endlessly, and stays unsaved', async () => {
    store.builds.delete('b');
    edit('one', { name: '1' });
    await vi.advanceTimersByTimeAsync(LONG_MS);
    expect(store.asked).toEqual(['build-save']);
    expect(saver.idle).toBe(false);
    expect(states.at(-1)).toBe('failed');
  });
});

describe('an edit that is refused', () => {
  const faults = [{ path: 'zone', found: '"Mars"', expected: 'an IANA zone' }];
  const no: Failure = { ok: false, code: 'refused', detail: 'zone: no', faults };

  it('is taken out with its faults, once, and those behind it are saved without it', async () => {
    failOn(no, 'zone');
    edit('name', { name: '1' });
    edit('zone', { zone: 'Mars' });
    edit('currency', { currency: 'USD' });
    edit('start', { earliestStart: '2027-04-19' });
    expect(await saver.flush()).toBe(true);
    expect(labels()).toEqual(['name', 'currency', 'start']);
    const whole = { name: '1', currency: 'USD', earliestStart: '2027-04-19' };
    expect(store.builds.get('b')?.document).toEqual(whole);
    expect(shown).toEqual(whole);
    expect(refused).toHaveLength(1);
    expect(refused[0]).toMatchObject({ change: { label: 'zone' }, faults });
    expect(refused[0]?.change.document).toMatchObject({ zone: 'Mars' });
    expect(states.at(-1)).toBe('saved');
    await vi.advanceTimersByTimeAsync(LONG_MS);
    expect(store.asked.filter((name) => name === 'build-save')).toHaveLength(4);
  });

  it('leaves the later one of the same field as it is', async () => {
    failOn(no, 'zone');
    edit('zone', { zone: 'Mars' });
    edit('better', { zone: 'Europe/Lisbon' });
    await saver.flush();
    expect(labels()).toEqual(['better']);
    expect(store.builds.get('b')?.document).toMatchObject({ zone: 'Europe/Lisbon' });
  });

  it('and merged into a newer one on its way is not told twice', async () => {
    store.fails = (_name, { document }) => (document['zone'] === 'Mars' ? no : null);
    edit('Mars', { zone: 'Mars' }, 'zone');
    const sending = saver.flush();
    edit('Lisbon', { zone: 'Europe/Lisbon' }, 'zone');
    await sending;
    await vi.advanceTimersByTimeAsync(LONG_MS);
    expect(labels()).toEqual(['Lisbon']);
    expect(refused).toEqual([]);
  });

  it('is told with the words of the refusal where no field is named', async () => {
    failOn('bad-message', 'name');
    edit('name', { name: '1' });
    await saver.flush();
    expect(refused[0]?.faults).toMatchObject([{ path: '(file)', found: 'no: bad-message' }]);
  });

  it('so is one on which the program itself fails again and again', async () => {
    failOn('unexpected', 'name');
    edit('name', { name: '1' });
    edit('currency', { currency: 'USD' });
    await vi.advanceTimersByTimeAsync(LONG_MS);
    expect(labels()).toEqual(['currency']);
    expect(refused).toHaveLength(1);
    expect(saver.idle).toBe(true);
  });
});

it('hands over what waits when another window was first, once, with what it was made on', async () => {
  store.builds.set('b', { revision: 8, document: {} });
  edit('one', { name: '1' });
  edit('two', { currency: 'GBP' });
  await vi.advanceTimersByTimeAsync(LONG_MS);
  expect(stale).toEqual([
    { labels: ['one', 'two'], base: FIRST, document: { name: '1', currency: 'GBP' } },
  ]);
  expect(store.sent).toEqual([]);
  expect(saver.idle).toBe(true);
});

it('knows what every kind of failure means', () => {
  const rejected = Object.entries(FAILURE_KIND).filter(([, kind]) => kind === 'rejected');
  expect(rejected.map(([code]) => code).sort()).toEqual(['bad-message', 'refused']);
});
