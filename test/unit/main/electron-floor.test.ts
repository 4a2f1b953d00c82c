import { describe, expect, it } from 'vitest';
import { alarmKeeper } from '../../../main/electron/alarms.ts';
import { keeperAwake } from '../../../main/electron/awake.ts';

describe('the machine while a cure runs', () => {
  it('is kept awake by one block, which is let go of once', () => {
    const calls: string[] = [];
    const keep = keeperAwake({
      start: (kind) => calls.push(`start ${kind}`),
      stop: (id) => {
        calls.push(`stop ${id}`);
        return true;
      },
    });
    for (const on of [false, true, true, false, false, true]) keep(on);
    expect(calls).toEqual(['start prevent-display-sleep', 'stop 1', 'start prevent-display-sleep']);
  });
});

describe('alarms of the program', () => {
  function program() {
    const shown: string[] = [];
    const timers: (() => void)[] = [];
    const state = { nowMs: Date.parse('2027-05-04T08:00:00Z'), shown, timers };
    const set = alarmKeeper({
      nowMs: () => state.nowMs,
      show: (title) => shown.push(title),
      every: (_ms, call) => {
        timers.push(call);
        return () => timers.splice(timers.indexOf(call), 1);
      },
    });
    const pass = (seconds: number): void => {
      state.nowMs += seconds * 1000;
      for (const call of [...timers]) call();
    };
    return { ...state, set, pass };
  }
  const alarm = (id: string, at: string) => ({ id, at, title: id, body: '' });

  it('go off when they are due, each minute again, until they are taken off the list', () => {
    const { set, pass, shown, timers } = program();
    set([alarm('bag', '2027-05-04T08:10:00Z'), alarm('gel', '2027-05-04T09:00:00Z')]);
    pass(599);
    expect(shown).toEqual([]);
    pass(1);
    pass(30);
    expect(shown).toEqual(['bag']);
    pass(30);
    expect(shown).toEqual(['bag', 'bag']);
    set([alarm('gel', '2027-05-04T09:00:00Z')]);
    pass(60);
    expect(shown).toEqual(['bag', 'bag']);
    set([]);
    expect(timers).toEqual([]);
  });

  it('go off at the first look after a sleep that leapt over them', () => {
    const { set, pass, shown } = program();
    set([alarm('gel', '2027-05-04T09:00:00Z')]);
    pass(8 * 3600);
    expect(shown).toEqual(['gel']);
  });

  it('are not called out anew because the list came again', () => {
    const { set, shown } = program();
    const due = [alarm('bag', '2027-05-04T07:50:00Z')];
    set(due);
    set(due);
    expect(shown).toEqual(['bag']);
  });
});
