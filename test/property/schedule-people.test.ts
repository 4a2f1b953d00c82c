/** People asked for by number against every team written out as a mode of its own. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { violations } from '../../app/schedule/check.ts';
import type { Mode, Problem, StageSpec } from '../../app/schedule/problem.ts';
import { solve } from '../../app/schedule/solve.ts';
import { intersect } from '../../app/time/calendar.ts';
import type { Calendar } from '../../app/time/instant.ts';
import { after, hour, problem, stage } from '../unit/schedule/make-problem.ts';
import { forAll } from '../support/draws.ts';

const days = (opens: number, closes: number): Calendar =>
  Array.from({ length: 28 }, (_, day) => ({ start: hour(day, opens), end: hour(day, closes) }));

const EARLY = days(6, 14);
const LATE = days(10, 18);

interface Drawn {
  readonly late: readonly boolean[];
  readonly stages: readonly {
    readonly hours: number;
    readonly hands: number;
    readonly unbroken: boolean;
    readonly follows: boolean;
    /** Asks for the first person by name. */
    readonly byName: boolean;
  }[];
}

const drawn: fc.Arbitrary<Drawn> = fc.record({
  late: fc.array(fc.boolean(), { minLength: 2, maxLength: 4 }),
  stages: fc.array(
    fc.record({
      hours: fc.integer({ min: 1, max: 6 }),
      hands: fc.integer({ min: 1, max: 2 }),
      unbroken: fc.boolean(),
      follows: fc.boolean(),
      byName: fc.integer({ min: 0, max: 5 }).map((n) => n === 0),
    }),
    { minLength: 2, maxLength: 5 },
  ),
});

const idsOf = ({ late }: Drawn): string[] => late.map((_, k) => `p${k}`);
const hoursOf = ({ late }: Drawn, k: number): Calendar => (late[k] ? LATE : EARLY);

function problemWith(build: Drawn, modesOf: (s: Drawn['stages'][number]) => Mode[]): Problem {
  const stages = build.stages.map((s, i): StageSpec => stage(`s${i}`, modesOf(s)));
  const relations = build.stages.flatMap((s, i) =>
    s.follows && i > 0 ? [after(`s${i - 1}`, `s${i}`)] : [],
  );
  return problem(stages, relations, {
    from: hour(0, 6),
    resources: idsOf(build).map((id, k) => ({
      id,
      name: id,
      capacity: 1,
      calendar: hoursOf(build, k),
    })),
  });
}

const lengthOf = ({ hours, unbroken }: Drawn['stages'][number]): Mode['length'] => ({
  kind: 'work',
  minutes: hours * 60,
  unbroken,
});

const named = (build: Drawn, s: Drawn['stages'][number], team: readonly number[]): Mode => ({
  id: team.map((k) => `p${k}`).join('+'),
  uses: team.map((k) => ({ resource: `p${k}`, amount: 1 })),
  calendar: team.map((k) => hoursOf(build, k)).reduce((a, b) => intersect(a, b)),
  length: lengthOf(s),
});

/** Every team as a mode. */
const written = (build: Drawn): Problem =>
  problemWith(build, (s) => {
    if (s.byName) return [named(build, s, [0])];
    const all = build.late.map((_, k) => k);
    const teams =
      s.hands === 1
        ? all.map((k) => [k])
        : all.flatMap((a) => all.filter((b) => b > a).map((b) => [a, b]));
    return teams.map((team) => named(build, s, team));
  });

const byNumber = (build: Drawn): Problem =>
  problemWith(build, (s) => {
    if (s.byName) return [named(build, s, [0])];
    const anyOf = [{ people: idsOf(build), count: s.hands }];
    return [{ id: 'hands', uses: [], anyOf, calendar: null, length: lengthOf(s) }];
  });

describe('people asked for by number', () => {
  it('do everything as soon as named teams would', { timeout: 120_000 }, () => {
    let pairs = 0;
    let mixed = 0;
    forAll(
      fc.property(drawn, (build) => {
        const effort = { schedules: 3000, seed: 1 };
        const problem = byNumber(build);
        const one = solve(problem, effort);
        const other = solve(written(build), effort);
        expect(one.end).toBe(other.end);
        if (one.placed.length === 0) return;
        expect(violations(problem, one.placed)).toEqual([]);
        for (const { people } of one.placed) {
          if (people?.length === 2) pairs++;
          const late = new Set(people?.map((id) => build.late[Number(id.slice(1))]));
          if (late.size === 2) mixed++;
        }
      }),
      { numRuns: 120, seed: 21 },
    );
    expect(pairs).toBeGreaterThan(50);
    expect(mixed).toBeGreaterThan(5);
  });

  it('are alike in any number: a crew of two hundred is no harder than one of two', () => {
    const late = Array.from({ length: 200 }, () => false);
    const stages = Array.from({ length: 5 }, () => ({
      hours: 4,
      hands: 2,
      unbroken: true,
      follows: false,
      byName: false,
    }));
    const problem = byNumber({ late, stages });
    const { placed, end } = solve(problem, { schedules: 1, seed: 1 });
    expect(end).toBe(hour(0, 10));
    expect(new Set(placed.flatMap((spot) => spot.people ?? [])).size).toBe(10);
    expect(violations(problem, placed)).toEqual([]);
  });

  it('are checked: nobody twice, nobody from outside, as many as asked for', () => {
    const problem = byNumber({
      late: [false, false, false],
      stages: [1, 2].map(() => ({
        hours: 2,
        hands: 2,
        unbroken: true,
        follows: false,
        byName: false,
      })),
    });
    const spot = (id: string, day: number, people: string[]) => ({
      stage: id,
      mode: 'hands',
      start: hour(day, 8),
      end: hour(day, 10),
      people,
    });
    const check = (a: string[], b: string[], day = 1) =>
      violations(problem, [spot('s0', 0, a), spot('s1', day, b)]);
    expect(check(['p0', 'p1'], ['p0', 'p2'])).toEqual([]);
    expect(check(['p0', 'p1'], ['p0', 'p2'], 0)).not.toEqual([]);
    expect(check(['p0', 'p0'], ['p1', 'p2'])).not.toEqual([]);
    expect(check(['p0'], ['p1', 'p2'])).not.toEqual([]);
    expect(check(['p0', 'ann'], ['p1', 'p2'])).not.toEqual([]);
  });
});
