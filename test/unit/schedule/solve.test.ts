import { describe, expect, it } from 'vitest';
import { obstacleWords } from '../../../app/messages/obstacles.ts';
import { violations } from '../../../app/schedule/check.ts';
import type { Mode, Problem } from '../../../app/schedule/problem.ts';
import { solve } from '../../../app/schedule/solve.ts';
import { after, hour, problem, stage, wait, within, work } from './make-problem.ts';

const effort = { schedules: 1, seed: 1 };

function plan(p: Problem) {
  const schedule = solve(p, effort);
  expect(schedule.obstacles).toEqual([]);
  expect(violations(p, schedule.placed)).toEqual([]);
  return {
    schedule,
    at: (id: string) => schedule.placed.find((spot) => spot.stage === id)!,
  };
}

describe('work, nights and cures', () => {
  it('pauses safe work overnight and keeps wet work in one stretch', () => {
    const { at } = plan(
      problem(
        [stage('sand', [work(12)]), stage('wet', [work(6, 'ann', true)])],
        [after('sand', 'wet')],
      ),
    );
    expect(at('sand').end).toBe(hour(1, 12));
    expect(at('wet').start).toBe(hour(2, 8));
  });

  it('runs a cure through the night and the weekend', () => {
    const { at } = plan(
      problem(
        [stage('wet', [work(8)]), stage('cure', [wait(40)]), stage('trim', [work(2)])],
        [after('wet', 'cure'), after('cure', 'trim')],
      ),
    );
    expect(at('cure').end).toBe(hour(2, 8));
    expect(at('trim').start).toBe(hour(2, 8));
  });

  it('puts the helper on the second job when one person is not enough', () => {
    const { at } = plan(
      problem([stage('a', [work(8), work(8, 'bo')]), stage('b', [work(8), work(8, 'bo')])]),
    );
    expect([at('a').end, at('b').end]).toEqual([hour(0, 16), hour(0, 16)]);
    expect(at('a').mode).not.toBe(at('b').mode);
  });
});

describe('windows', () => {
  it('holds the earlier stage back so that the greatest lag is kept', () => {
    const { at } = plan(
      problem(
        [
          stage('strip', [work(1, 'ann', true)]),
          stage('bond', [work(6, 'ann', true)]),
          stage('other', [work(5)]),
        ],
        [within('strip', 'bond', 2), after('strip', 'bond'), after('other', 'bond')],
      ),
    );
    expect(at('bond').start).toBe(hour(1, 9));
    expect(at('strip').end).toBe(hour(1, 9));
  });

  it('lets a window lapse and abrades where nothing else helps', () => {
    const none = { ...wait(0), id: 'none' };
    const abrade = { ...work(1, 'ann'), id: 'abrade' };
    const { at } = plan(
      problem(
        [
          stage('cure', [wait(3)]),
          stage('slow', [wait(60)]),
          stage('abrade', [none, abrade]),
          stage('bond', [work(4, 'ann', true)]),
        ],
        [
          after('cure', 'slow'),
          after('cure', 'abrade'),
          after('slow', 'bond'),
          after('abrade', 'bond'),
          { ...within('cure', 'bond', 24), onlyIf: { stage: 'abrade', mode: 'none' } },
        ],
      ),
    );
    expect(at('abrade').mode).toBe('abrade');
  });

  it('names a window that nothing can hold', () => {
    const schedule = solve(
      problem(
        [stage('a', [work(1)]), stage('b', [wait(30)]), stage('c', [work(1)])],
        [after('a', 'b'), after('b', 'c'), within('a', 'c', 20)],
      ),
      effort,
    );
    expect(schedule.obstacles[0]!.reason).toBe('window-cannot-hold');
    expect(obstacleWords(schedule.obstacles[0]!.args)).toBe(
      'the shop’s own order: a and c cannot be brought close enough.',
    );
  });
});

describe('air, gear and pins', () => {
  it('keeps dust and wet work an hour apart whoever does it', () => {
    const { at } = plan(
      problem([
        stage('dusty', [work(2)], { air: 'dust' }),
        stage('wet', [work(2, 'bo')], { air: 'wet' }),
        stage('wet2', [work(2, 'bo')], { air: 'wet' }),
      ]),
    );
    const first = Math.min(at('wet').start, at('wet2').start);
    expect(at('dusty').end + 60 <= first || at('dusty').start >= at('wet2').end + 60).toBe(true);
  });

  it('lets wet work follow at once where the dusty stage is done without dust', () => {
    const clean = { ...work(2), keepsAirClean: true };
    const gap = (mode: Mode) => {
      const { at } = plan(
        problem(
          [stage('strip', [mode], { air: 'dust' }), stage('wet', [work(1)], { air: 'wet' })],
          [after('strip', 'wet')],
        ),
      );
      return at('wet').start - at('strip').end;
    };
    expect(gap(clean)).toBe(0);
    expect(gap(work(2))).toBeGreaterThanOrEqual(60);
  });

  it('keeps the mould from the first stage of a part to its demould', () => {
    const p = problem(
      ['p', 'q'].flatMap((part) => [
        stage(`${part}-lay`, [work(4), work(4, 'bo')]),
        stage(`${part}-cure`, [wait(20)]),
        stage(`${part}-demould`, [work(1), work(1, 'bo')]),
      ]),
      ['p', 'q'].flatMap((part) => [
        after(`${part}-lay`, `${part}-cure`),
        after(`${part}-cure`, `${part}-demould`),
      ]),
      {
        resources: [
          { id: 'ann', name: 'Ann', capacity: 1 },
          { id: 'bo', name: 'Bo', capacity: 1 },
          { id: 'mould', name: 'Mould', capacity: 1 },
        ],
        holds: ['p', 'q'].map((part) => ({
          resource: 'mould',
          amount: 1,
          from: `${part}-lay`,
          to: `${part}-demould`,
        })),
      },
    );
    const { at } = plan(p);
    expect(at('q-lay').start).toBeGreaterThanOrEqual(at('p-demould').end);
  });

  it('plans around a pin', () => {
    const p = problem([
      stage('job', [work(4)]),
      stage('pinned', [work(4)], { fixedStart: hour(0, 10) }),
    ]);
    const { at } = plan(p);
    expect(at('pinned').start).toBe(hour(0, 10));
    expect(at('job').start).toBe(hour(0, 14));
  });

  it('moves a pin that cannot hold and says by how much', () => {
    const p = problem(
      [stage('fair', [work(16)]), stage('paint', [wait(48)], { fixedStart: hour(1, 8) })],
      [after('fair', 'paint')],
    );
    const { at, schedule } = plan(p);
    expect(at('paint').start).toBe(hour(1, 16));
    expect(schedule.missedPins).toEqual([{ stage: 'paint', byMinutes: 480 }]);
    expect(schedule.fits).toBe(false);
  });

  it('takes records as they are, overtime and overbooking included', () => {
    const p = problem(
      [
        stage('done', [work(4)], { fixedStart: hour(-1, 20), fixedEnd: hour(-1, 23) }),
        stage('also', [work(4)], { fixedStart: hour(-1, 21), fixedEnd: hour(-1, 22) }),
        stage('next', [work(1)]),
      ],
      [after('done', 'next')],
    );
    const { at } = plan(p);
    expect(at('next').start).toBe(hour(0, 8));
    expect(at('done').floatMinutes).toBeNull();
  });
});

describe('what perishes', () => {
  it('is placed as late as possible without moving the rest', () => {
    const { at } = plan(
      problem(
        [
          stage('release', [work(2)], { perishable: true }),
          stage('cut', [work(6, 'bo'), work(6)]),
          stage('wet', [work(4, 'bo', true)]),
        ],
        [after('release', 'wet'), after('cut', 'wet')],
      ),
    );
    expect(at('cut').start).toBe(hour(0, 8));
    expect(at('wet').start).toBe(hour(1, 8));
    expect(at('release').start).toBe(hour(0, 14));
    expect(at('release').earliestStart).toBe(hour(0, 8));
  });
});

describe('obstacles are named and bounded', () => {
  it.each([
    ['no-mode', problem([stage('a', [])])],
    ['no-capacity', problem([stage('a', [wait(1, [{ resource: 'port', amount: 2 }])])])],
    ['no-capacity', problem([stage('a', [wait(1, [{ resource: 'oven', amount: 1 }])])])],
    ['never-fits-calendar', problem([stage('a', [work(9, 'ann', true)])])],
    ['never-fits-calendar', problem([stage('a', [{ ...work(1), calendar: [] }])])],
    ['beyond-horizon', problem([stage('a', [wait(5000)])])],
    [
      'never-ends',
      problem([
        stage('a', [
          {
            ...wait(1),
            length: { kind: 'function', endOf: () => null, latestStart: () => null },
          },
        ]),
      ]),
    ],
    [
      'cycle',
      problem(
        [stage('a', [wait(1)]), stage('b', [wait(1)]), stage('c', [wait(1)])],
        [after('a', 'b'), after('b', 'c'), after('c', 'a')],
      ),
    ],
    [
      'window-cannot-hold',
      problem(
        [stage('a', [wait(1)]), stage('b', [wait(1)])],
        [after('a', 'b', 5), within('a', 'b', 3)],
      ),
    ],
  ] as const)('%s', (reason, p) => {
    const schedule = solve(p, effort);
    expect(schedule.placed).toEqual([]);
    expect(schedule.fits).toBe(false);
    expect(schedule.obstacles.map((obstacle) => obstacle.reason)).toEqual([reason]);
    expect(obstacleWords(schedule.obstacles[0]!.args)).not.toMatch(/undefined|NaN|^$/);
  });

  it('an empty problem is an empty plan', () => {
    expect(solve(problem([]), effort)).toMatchObject({ placed: [], obstacles: [], end: null });
  });
});
