import { describe, expect, it } from 'vitest';
import {
  learnedConsequences,
  learnedReleases,
  lessonsOf,
  type EventRecord,
} from '../../../app/judge/learn.ts';
import { LIBRARY } from './builds.ts';

const record = (build: string, fairMinutes: number, areaM2 = 2): EventRecord => ({
  build,
  event: 'joint-one-bag',
  areaM2,
  fairMinutes,
  extraHours: 2,
  fillerKg: 0.5 * areaM2,
});

describe('consequences from the shop’s own builds', () => {
  it('stay common practice while there are too few builds', () => {
    expect(learnedConsequences(LIBRARY, [])).toEqual([]);
    expect(learnedConsequences(LIBRARY, [record('a', 60), record('b', 60)])).toEqual([]);
    const oneBuild = [record('a', 60), record('a', 60), record('a', 60)];
    expect(learnedConsequences(LIBRARY, oneBuild)).toEqual([]);
  });
  it('become the means over area once there are enough, and say where they come from', () => {
    const [row, ...rest] = learnedConsequences(LIBRARY, [
      record('a', 60, 1),
      record('b', 100, 2),
      record('c', 200, 3),
    ]);
    expect(rest).toEqual([]);
    expect(row!.fairMinutesPerM2).toBeCloseTo(360 / 6, 9);
    expect(row!.fillerKgM2).toBeCloseTo(0.5, 9);
    expect(row!.extraHours).toBe(2);
    expect(row!.provenance).toEqual({ kind: 'measured', source: "3 of the shop's own builds" });
    const before = LIBRARY.consequences.find((one) => one.id === row!.id)!;
    expect(row!.revision).toBe(before.revision + 1);
    expect(row!.bestFinish).toBe(before.bestFinish);
  });
});

describe('the chance of a hard demould', () => {
  const demoulds = (count: number, hard: number) =>
    Array.from({ length: count }, (_, i) => ({
      build: `b${i}`,
      release: 'wax-paste',
      hard: i < hard,
    }));
  const learned = (count: number, hard: number) =>
    learnedReleases(LIBRARY, demoulds(count, hard))[0]?.hardDemouldChance;
  const table = LIBRARY.releases.find((row) => row.id === 'wax-paste')!.hardDemouldChance;

  it('does not move for one bad day', () => {
    expect(learned(1, 1)).toBeUndefined();
  });
  it('moves towards what the shop sees, further with more parts', () => {
    expect(learned(4, 4)!).toBeGreaterThan(table);
    expect(learned(20, 20)!).toBeGreaterThan(learned(4, 4)!);
    expect(learned(20, 0)!).toBeLessThan(table);
    expect(learned(200, 30)!).toBeCloseTo(0.15, 2);
  });
});

describe('what builds taught', () => {
  const lessons = (more: object) => ({ finished: true, hardDemould: null, events: [], ...more });
  it('counts finished builds alone, and demoulds only where somebody said', () => {
    const { build: _b, ...event } = record('x', 60);
    const taught = lessonsOf([
      { id: 'a', release: 'wax-paste', lessons: lessons({ events: [event], hardDemould: false }) },
      { id: 'b', release: 'wax-paste', lessons: lessons({ events: [event, event] }) },
      { id: 'c', release: 'wax-paste', lessons: lessons({ finished: false, events: [event] }) },
    ]);
    expect(taught.events.map((one) => one.build)).toEqual(['a', 'b', 'b']);
    expect(taught.demoulds).toEqual([{ build: 'a', release: 'wax-paste', hard: false }]);
  });
});
