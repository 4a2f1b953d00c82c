/** Who watches a bag, what tires, and how long a pump runs: as the network lays it. */
import { describe, expect, it } from 'vitest';
import type { Build } from '../../../app/document/schema.ts';
import { handovers } from '../../../app/schedule/network/watch.ts';
import { violations } from '../../../app/schedule/check.ts';
import { judge } from '../../../app/answer/judgement.ts';
import { contextFor, LIBRARY, planFor, ROOMY, withZone } from '../judge/builds.ts';

type Span = [string, string];
const week = (...spans: Span[]) =>
  Object.fromEntries(['mon', 'tue', 'wed', 'thu', 'fri'].map((day) => [day, spans]));
const crewOf = (...hours: ReturnType<typeof week>[]): Build['crew'] =>
  hours.map((own, i) => ({ id: `hand-${i}`, name: ['Ida Moss', 'Per Lunde'][i]!, hours: own }));
const FIRST = { scope: 'first', schedules: 1 } as const;
const taken = (document: Build) => judge(contextFor(document), document, LIBRARY, FIRST).taken;
const APART = { route: { joints: {} } };

describe('the watch over a bag', () => {
  it('is handed on where the hours of two people meet, and nowhere else', () => {
    const day = (start: number, end: number) => [{ start, end }];
    expect(handovers({ personHours: { a: day(0, 600), b: day(0, 600) } })).toEqual([]);
    expect(handovers({ personHours: { a: day(0, 300), b: day(400, 600) } })).toEqual([]);
    expect(handovers({ personHours: { a: day(0, 300), b: day(300, 600) } })).toEqual([
      { people: ['a', 'b'], hours: day(0, 600) },
    ]);
  });

  it('lets a shop of two half shifts lay up, though no one of them has both wet work and watch', () => {
    // Neither has an hour left after the wet work; together they do.
    const shifts = crewOf(week(['08:00', '10:00']), week(['10:00', '13:00']));
    const small = { ...withZone(ROOMY, { areaM2: 0.5 }), ...APART, crew: shifts };
    const { network, schedule } = taken(small);
    expect(violations(network.problem, schedule.placed)).toEqual([]);
    const watches = schedule.placed.filter(({ stage }) => stage.startsWith('watched-vacuum'));
    expect(watches.length).toBeGreaterThan(0);
    const handed = network.problem.stages
      .filter(({ kind }) => kind === 'watched-vacuum')
      .flatMap(({ modes }) => modes.map(({ id }) => id))
      .filter((id) => id === 'handover:hand-0+hand-1');
    expect(handed.length).toBeGreaterThan(0);
  });
});

describe('wet work that tires', () => {
  it('is taken with more hands, and warned of where there are none', () => {
    const large = withZone(
      { ...ROOMY, ...APART, resin: { system: 'orrin-40', hardener: 'slow' } },
      { areaM2: 2.6 },
    );
    const tires = taken(large).network.problem.stages.flatMap(({ kind, modes }) =>
      kind === 'layup' ? modes.map(({ length, warnings = 0 }) => ({ length, warnings })) : [],
    );
    for (const { length, warnings } of tires) {
      const minutes = length.kind === 'work' ? length.minutes : 0;
      expect([minutes, warnings]).toEqual([minutes, minutes > 240 ? 1 : 0]);
    }
    const { result } = planFor(large);
    expect(result.findings.filter(({ code }) => code === 'long-wet-work')).toEqual([]);
  });
});

describe('a pump port', () => {
  it('is kept until the bag is off where another job wants one', () => {
    const busy: Build['busy'] = [
      {
        what: 'Another bag',
        who: { kind: 'pump' },
        from: '2027-04-22T08:00',
        until: '2027-04-23T08:00',
      },
    ];
    const { network } = taken({ ...ROOMY, ...APART, busy });
    const holds = (network.problem.holds ?? []).filter(({ resource }) => resource === 'pump');
    expect(holds.map(({ from, to }) => `${from} to ${to}`)).toContain('cure:skin to bag-off:skin');
    expect(taken({ ...ROOMY, ...APART }).network.problem.holds ?? []).toEqual([]);
  });
});
