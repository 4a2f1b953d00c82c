import { beforeEach, describe, expect, it, vi } from 'vitest';
import type { Draft } from '../../../app/document/edit/path.ts';
import { DraftKeeper } from '../../../renderer/state/draftKeeper.ts';
import type { SaveState } from '../../../renderer/state/failures.ts';
import { StandInStore } from './store.ts';

const LONG_MS = 60_000;
let store: StandInStore;
let merged: Draft[];
let moved: string[];
let states: SaveState[];

/** A window on the draft `d`, as it stands in the store. */
function window(): DraftKeeper {
  return new DraftKeeper(
    store.call,
    { id: 'd', ...store.drafts.get('d')! },
    {
      merged: (document) => merged.push(document),
      moved: (id) => moved.push(id),
      state: (state) => states.push(state),
    },
  );
}
const stored = (id = 'd') => store.drafts.get(id)?.document;

beforeEach(() => {
  vi.useFakeTimers();
  store = new StandInStore();
  [merged, moved, states] = [[], [], []];
  store.drafts.set('d', { revision: 3, document: { zone: 'UTC' } });
});

describe('a draft', () => {
  it('is stored as it was typed last, however fast', async () => {
    const keeper = window();
    for (const name of ['H', 'Ha', 'Half a boat']) keeper.keep({ zone: 'UTC', name });
    expect(keeper.idle).toBe(false);
    expect(await keeper.flush()).toBe(true);
    expect(stored()).toEqual({ zone: 'UTC', name: 'Half a boat' });
    expect(states.at(-1)).toBe('saved');
    expect(keeper.idle).toBe(true);
  });

  it('typed in two windows holds what was typed in both', async () => {
    const [one, two] = [window(), window()];
    one.keep({ zone: 'UTC', name: 'Half a boat' });
    await one.flush();
    two.keep({ zone: 'UTC', currency: 'EUR' });
    expect(await two.flush()).toBe(true);
    const whole = { zone: 'UTC', name: 'Half a boat', currency: 'EUR' };
    expect(stored()).toEqual(whole);
    expect(merged).toEqual([whole]);
    one.keep({ zone: 'UTC', name: 'A boat' });
    await one.flush();
    expect(stored()).toEqual({ ...whole, name: 'A boat' });
  });

  it('dropped in another window goes on as one of its own when something is typed', async () => {
    const keeper = window();
    store.drafts.delete('d');
    keeper.keep({ zone: 'UTC', name: 'Half a boat' });
    expect(await keeper.flush()).toBe(true);
    expect(moved).toHaveLength(1);
    expect(stored(moved[0])).toEqual({ zone: 'UTC', name: 'Half a boat' });
    expect(keeper.place).toEqual({ id: moved[0], expects: 1 });
  });

  it('is tried again while the program does not answer, and says so', async () => {
    store.fails = () => 'unreachable';
    const keeper = window();
    keeper.keep({ name: 'Half a boat' });
    expect(await keeper.flush()).toBe(false);
    expect(states.at(-1)).toBe('failed');
    store.fails = () => null;
    await vi.advanceTimersByTimeAsync(LONG_MS);
    expect(stored()).toEqual({ name: 'Half a boat' });
    expect(states.at(-1)).toBe('saved');
  });

  it('is left alone once its window has left it', async () => {
    store.fails = () => 'unreachable';
    const keeper = window();
    keeper.keep({ name: 'Half a boat' });
    await keeper.flush();
    keeper.close();
    const before = store.asked.length;
    await vi.advanceTimersByTimeAsync(LONG_MS);
    expect(store.asked).toHaveLength(before);
  });
});
