/** A crew too large to name each team: a mode is a number of hands, and who they are follows from the plan. */
import { describe, expect, it } from 'vitest';
import { readBuild } from '../../../app/document/read.ts';
import type { Build } from '../../../app/document/schema.ts';
import { plan } from '../../../app/answer/plan.ts';
import { judge } from '../../../app/answer/judgement.ts';
import { contextOf } from '../../../app/plan/context.ts';
import { violations } from '../../../app/schedule/check.ts';
import { crewModes, crewOf } from '../../../app/schedule/network/crew.ts';
import { handoverModes } from '../../../app/schedule/network/watch.ts';
import { shippedSamples } from '../../../main/samples.ts';
import { LIBRARY, NOW } from '../judge/builds.ts';

const hours = (opens: number, closes: number) =>
  Array.from({ length: 40 }, (_, day) => ({ start: day * 1440 + opens, end: day * 1440 + closes }));
const crewOfTwoShifts = (count: number, late: number) =>
  Object.fromEntries(
    Array.from({ length: count }, (_, k) => [
      `p${k}`,
      k < late ? hours(720, 1200) : hours(480, 960),
    ]),
  );
const WORK = { personMinutes: 240, peopleMin: 2, peopleMax: 4 };

describe('hands of a large crew', () => {
  it('are asked for by number, alike people as one group, whatever the size of the crew', () => {
    const sizes = [6, 20, 2000];
    const counts = sizes.map((size) => crewModes(crewOf(crewOfTwoShifts(size, 0), LIBRARY), WORK));
    for (const modes of counts) {
      expect(modes.map(({ id }) => id)).toEqual(['1*p0', '2*p0', '3*p0', '4*p0']);
      // Fewer than the work takes are the last resort.
      expect(modes.map(({ repair }) => repair ?? false)).toEqual([true, false, false, false]);
      expect(modes.every(({ uses }) => uses.length === 0)).toBe(true);
    }
    expect(counts.map(([, two]) => two!.anyOf![0]!.people.length)).toEqual(sizes);
    expect(counts.map(([, two]) => two!.anyOf![0]!.count)).toEqual([2, 2, 2]);
  });

  it('come from one shift or from both in the hours that they share', () => {
    const people = crewOfTwoShifts(9, 3);
    const all = crewModes(crewOf(people, LIBRARY), { ...WORK, peopleMax: 2 });
    const modes = all.filter(({ repair }) => !repair);
    expect(modes.map(({ id, calendar }) => [id, calendar![0]])).toEqual([
      ['2*p3', { start: 480, end: 960 }],
      ['1*p3+1*p0', { start: 720, end: 960 }],
      ['2*p0', { start: 720, end: 1200 }],
    ]);
    const [handed] = handoverModes({ personHours: people }, 60);
    expect(handed!.anyOf!.map(({ people: able, count }) => [able.length, count])).toEqual([
      [6, 1],
      [3, 1],
    ]);
    expect(handed!.calendar![0]).toEqual({ start: 480, end: 1200 });
  });

  it('are named in the result, nobody twice at once', () => {
    const sample = shippedSamples().find(({ name }) => name.startsWith('low-water-canopy'))!;
    const small = JSON.parse(sample.text()) as Build;
    const crew = Array.from({ length: 20 }, (_, k) => ({
      ...small.crew[k % small.crew.length]!,
      id: `hand-${k}`,
      name: `Hand ${k}`,
    }));
    const read = readBuild(JSON.stringify({ ...small, crew }), LIBRARY);
    if (!read.ok) throw new Error(JSON.stringify(read.faults));
    const effort = { scope: 'first', schedules: 1 } as const;
    const context = contextOf(read.document, LIBRARY, NOW);
    const { network, schedule } = judge(context, read.document, LIBRARY, effort).taken;
    expect(violations(network.problem, schedule.placed)).toEqual([]);
    const { stages } = plan(read.document, LIBRARY, NOW, effort).result;
    const byHand = stages.filter(({ people }) => people.length > 0);
    expect(byHand.length).toBeGreaterThan(30);
    for (const one of stages.filter(({ kind }) => kind === 'layup')) {
      expect(new Set(one.people).size).toBe(one.people.length);
      expect(one.people.length).toBeGreaterThan(1);
    }
    for (const { id } of crew) {
      const own = byHand
        .filter(({ people, start, end }) => people.includes(id) && start! < end!)
        .sort((a, b) => a.start!.localeCompare(b.start!));
      own.slice(1).forEach((next, i) => expect(next.start! >= own[i]!.end!).toBe(true));
    }
  });
});
