import { beforeEach, describe, expect, it, vi } from 'vitest';
import type { OpenBuild } from '../../app/contract/channels.ts';
import type { Call } from '../../renderer/bridge.ts';
import { Saver, type SaveState } from '../../renderer/state/saver.ts';

interface Sent {
  expects: number;
  label: string;
}
let sent: Sent[];
let states: SaveState[];
let stale: number;
let refuse: 'stale' | 'disk' | null;
let saver: Saver;

const job = (label: string, merge?: string) => ({
  label,
  document: { name: label },
  ...(merge === undefined ? {} : { merge }),
});

beforeEach(() => {
  vi.useFakeTimers();
  [sent, states, stale, refuse] = [[], [], 0, null];
  const call = (async (_name: string, input: Sent & { id: string; document: object }) => {
    if (refuse) return { ok: false, code: refuse, detail: 'no' };
    sent.push({ expects: input.expects, label: input.label });
    const value: OpenBuild = {
      id: input.id,
      revision: input.expects + 1,
      document: { ...input.document },
      canUndo: true,
      canRedo: false,
      undoLabel: input.label,
      redoLabel: null,
    };
    return { ok: true, value };
  }) as unknown as Call;
  saver = new Saver(call, {
    saved: () => undefined,
    stale: () => (stale += 1),
    state: (state) => states.push(state),
  });
  saver.begin({ id: 'b', revision: 7 });
});

describe('saving', () => {
  it('sends edits in order, each expecting the revision of the one before', async () => {
    saver.push(job('one'));
    saver.push(job('two'));
    saver.push(job('three'));
    await saver.flush();
    expect(sent).toEqual([
      { expects: 7, label: 'one' },
      { expects: 8, label: 'two' },
      { expects: 9, label: 'three' },
    ]);
    expect(states.at(-1)).toBe('saved');
  });

  it('makes one revision of a stepper held down, once it rests', async () => {
    for (const degree of [21, 22, 23]) {
      saver.push(job(`${degree} °C`, 'room'));
      await vi.advanceTimersByTimeAsync(100);
    }
    expect(sent).toEqual([]);
    expect(states.at(-1)).toBe('saving');
    await vi.advanceTimersByTimeAsync(2000);
    expect(sent).toEqual([{ expects: 7, label: '23 °C' }]);
    expect(states.at(-1)).toBe('saved');
  });

  it('does not merge across another edit', async () => {
    saver.push(job('21 °C', 'room'));
    saver.push(job('name'));
    saver.push(job('22 °C', 'room'));
    await vi.advanceTimersByTimeAsync(2000);
    expect(sent.map((one) => one.label)).toEqual(['21 °C', 'name', '22 °C']);
  });

  it('keeps what could not be saved, says so, and tries again', async () => {
    refuse = 'disk';
    saver.push(job('one'));
    await vi.advanceTimersByTimeAsync(10);
    expect(states.at(-1)).toBe('failed');
    expect(saver.idle).toBe(false);
    refuse = null;
    await vi.advanceTimersByTimeAsync(10_000);
    expect(sent).toEqual([{ expects: 7, label: 'one' }]);
    expect(states.at(-1)).toBe('saved');
  });

  it('drops what waits when another window was first', async () => {
    refuse = 'stale';
    saver.push(job('one'));
    saver.push(job('two'));
    await vi.advanceTimersByTimeAsync(10);
    refuse = null;
    await vi.advanceTimersByTimeAsync(10_000);
    expect(stale).toBe(1);
    expect(sent).toEqual([]);
  });
});
