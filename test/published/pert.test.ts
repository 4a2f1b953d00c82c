/**
 * Lengths in three points against worked examples.
 * - Taylor, Introduction to Management Science, chapter 8 (printed answers, flylib 3.287.1.117).
 * - Stevenson, Operations Management, advertising-firm problem (printed, coursehero p2vl9tn).
 * - Render, Stair and Hanna, General Foundry (from memory; the arithmetic is reproduced here).
 * - PM Knowledge Center, PERT article (input table printed; results computed).
 */
import { describe, expect, it } from 'vitest';
import {
  chainChance,
  normalBelow,
  quantileAt,
  threePointMean,
  threePointQuantiles,
  threePointVariance,
  type ThreePoint,
} from '../../app/judge/threePoint.ts';
import { replayer } from '../../app/answer/replay.ts';
import type { Placed, Problem } from '../../app/schedule/problem.ts';
import { seededRandom } from '../../app/schedule/random.ts';

type Row = readonly [id: string, before: string, least: number, usual: number, most: number];

const TAYLOR: readonly Row[] = [
  ['1', '', 5, 8, 17],
  ['2', '', 7, 10, 13],
  ['3', '', 3, 5, 7],
  ['4', '', 1, 3, 5],
  ['5', '', 4, 6, 8],
  ['6', '', 3, 3, 3],
  ['7', '', 3, 4, 5],
];
const STEVENSON: readonly Row[] = [
  ['A', '', 5, 6, 7],
  ['B', '', 8, 8, 11],
  ['C', 'A', 6, 8, 11],
  ['D', '', 9, 12, 15],
  ['E', 'C', 5, 6, 9],
  ['F', 'D', 5, 6, 7],
  ['G', 'F', 2, 3, 7],
  ['H', 'B', 4, 4, 5],
  ['I', 'H', 5, 7, 8],
];
const FOUNDRY: readonly Row[] = [
  ['A', '', 1, 2, 3],
  ['B', '', 2, 3, 4],
  ['C', 'A', 1, 2, 3],
  ['D', 'B', 2, 4, 6],
  ['E', 'C', 1, 4, 7],
  ['F', 'C', 1, 2, 9],
  ['G', 'DE', 3, 4, 11],
  ['H', 'FG', 1, 2, 3],
];
const COURSE: readonly Row[] = [
  ['A', '', 2, 5, 8],
  ['B', 'A', 1, 2, 9],
  ['C', 'A', 0.25, 0.5, 3.75],
  ['D', 'B', 1, 1, 7],
  ['E', 'BC', 1, 2, 9],
  ['F', 'DE', 1, 3, 11],
];

const point = ([, , least, usual, most]: Row): ThreePoint => ({ least, usual, most });
const along = (rows: readonly Row[], path: string): ThreePoint[] =>
  [...path].map((id) => point(rows.find((row) => row[0] === id)!));
const sum = (values: readonly number[]) => values.reduce((total, value) => total + value, 0);

describe('mean and variance in three points', () => {
  it('Taylor: the printed means and variances', () => {
    expect(TAYLOR.map((row) => threePointMean(point(row)))).toEqual([9, 10, 5, 3, 6, 3, 4]);
    const variances = TAYLOR.map((row) => threePointVariance(point(row)));
    [4, 1, 4 / 9, 4 / 9, 4 / 9, 0, 1 / 9].forEach((printed, i) =>
      expect(variances[i]).toBeCloseTo(printed, 10),
    );
  });

  it('Stevenson: the printed means, variances and path sums', () => {
    const means = [6, 8.5, 8.17, 12, 6.33, 6, 3.5, 4.17, 6.83];
    STEVENSON.forEach((row, i) => expect(threePointMean(point(row))).toBeCloseTo(means[i]!, 2));
    const paths: [string, number, number][] = [
      ['ACE', 20.5, 1.249],
      ['DFG', 21.5, 1.805],
      ['BHI', 19.5, 0.528],
    ];
    for (const [path, mean, variance] of paths) {
      expect(sum(along(STEVENSON, path).map(threePointMean))).toBeCloseTo(mean, 2);
      expect(sum(along(STEVENSON, path).map(threePointVariance))).toBeCloseTo(variance, 2);
    }
  });
});

describe('chance of a chain', () => {
  it('Taylor: 0.9633 printed by week 28', () => {
    expect(chainChance(along(TAYLOR, '1357'), 28)).toBeCloseTo(0.9633, 3);
  });
  it('Stevenson: each path by week 24', () => {
    expect(chainChance(along(STEVENSON, 'DFG'), 24)).toBeCloseTo(0.96859, 3);
    const all = ['ACE', 'DFG', 'BHI'].map((path) => chainChance(along(STEVENSON, path), 24));
    expect(all.reduce((product, chance) => product * chance, 1)).toBeCloseTo(0.96775, 3);
  });
  it('General Foundry: 0.7157 by week 16, z rounded to 0.57 in the book', () => {
    expect(Math.abs(chainChance(along(FOUNDRY, 'ACEGH'), 16) - 0.7157)).toBeLessThan(0.002);
    expect(chainChance(along(FOUNDRY, 'ACEGH'), 16)).toBeCloseTo(0.71462, 4);
  });
  it('PM Knowledge Center: 0.86603 by week 18', () => {
    expect(chainChance(along(COURSE, 'ABEF'), 18)).toBeCloseTo(0.86603, 4);
  });
  it('a chain without spread is done or not', () => {
    const sure = [{ least: 3, usual: 3, most: 3 }];
    expect([chainChance(sure, 2.9), chainChance(sure, 3)]).toEqual([0, 1]);
  });
});

/** Minutes in a week of the examples, so that nothing is lost to whole minutes. */
const UNIT = 10_000;

/** A worked network as a scheduling problem without calendars or resources. */
function problemOf(rows: readonly Row[]): Problem {
  return {
    from: 0,
    due: 1e9,
    horizon: 1e9,
    resources: [],
    airSettleMinutes: 0,
    stages: rows.map(([id, , , usual]) => ({
      id,
      name: id,
      kind: 'own',
      cure: null,
      modes: [
        { id: 'one', uses: [], calendar: null, length: { kind: 'elapsed', minutes: usual * UNIT } },
      ],
      release: null,
      due: null,
      fixedStart: null,
      fixedEnd: null,
      air: null,
      perishable: false,
    })),
    relations: rows.flatMap(([id, before]) =>
      [...before].map((from) => ({
        type: 'at-least' as const,
        from,
        anchor: 'end' as const,
        to: id,
        lag: 0,
        why: 'own-order',
      })),
    ),
  };
}

function machineOf(rows: readonly Row[]) {
  const placed: Placed[] = rows.map(([id], i) => ({ stage: id, mode: 'one', start: i, end: i }));
  return replayer(problemOf(rows), placed);
}

/** Share of replays whose end is at or before `due`. */
function played(rows: readonly Row[], due: number, replays: number): number {
  const machine = machineOf(rows);
  const random = seededRandom(20270419);
  const tables = rows.map(([, , least, usual, most]) =>
    threePointQuantiles(most > least ? (usual - least) / (most - least) : 0.5, 2048),
  );
  let done = 0;
  for (let replay = 0; replay < replays; replay++) {
    rows.forEach(([, , least, , most], i) => {
      const share = quantileAt(tables[i]!, random.next());
      machine.minutes[i] = Math.round((least + share * (most - least)) * UNIT);
    });
    if (machine.run() <= due * UNIT) done++;
  }
  return done / replays;
}

describe('replays of a network', () => {
  it('General Foundry: earliest starts and ends of the mean lengths', () => {
    const machine = machineOf(FOUNDRY);
    FOUNDRY.forEach((row, i) => (machine.minutes[i] = threePointMean(point(row)) * UNIT));
    expect(machine.run()).toBe(15 * UNIT);
    expect([...machine.start].map((minute) => minute / UNIT)).toEqual([0, 0, 2, 3, 4, 4, 8, 13]);
    expect([...machine.end].map((minute) => minute / UNIT)).toEqual([2, 3, 4, 7, 8, 7, 13, 15]);
  });

  it('Stevenson: near the product of the three paths, each with the spread of its beta laws', () => {
    // The beta law has variance (mean - a)(b - mean) / 7, more than the book's ((b - a) / 6)^2.
    const own = (one: ThreePoint): number => {
      const mean = threePointMean(one);
      return ((mean - one.least) * (one.most - mean)) / 7;
    };
    const chances = ['ACE', 'DFG', 'BHI'].map((path) => {
      const points = along(STEVENSON, path);
      const spread = Math.sqrt(sum(points.map(own)));
      return normalBelow((24 - sum(points.map(threePointMean))) / spread);
    });
    const product = chances.reduce((all, chance) => all * chance, 1);
    const chance = played(STEVENSON, 24, 20_000);
    expect(Math.abs(chance - product)).toBeLessThan(0.012);
    expect(Math.abs(chance - 0.96775)).toBeLessThan(0.025);
  });

  it('General Foundry: near the chance of its critical path, below it where others join', () => {
    const chance = played(FOUNDRY, 16, 20_000);
    expect(Math.abs(chance - 0.71462)).toBeLessThan(0.03);
  });

  it('a chain: the law of the sum by convolution', () => {
    const chain: Row[] = [
      ['A', '', 1, 2, 6],
      ['B', 'A', 2, 3, 4],
      ['C', 'B', 0, 3, 4],
    ];
    const step = 0.02;
    const laws = chain.map(([, , least, usual, most]) => {
      const table = threePointQuantiles((usual - least) / (most - least), 4000);
      const mass = new Float64Array(Math.round(most / step) + 1);
      for (let i = 0; i < 4000; i++) {
        const x = least + quantileAt(table, (i + 0.5) / 4000) * (most - least);
        mass[Math.round(x / step)]! += 1 / 4000;
      }
      return mass;
    });
    const whole = laws.reduce((a, b) => {
      const out = new Float64Array(a.length + b.length - 1);
      a.forEach((p, i) => b.forEach((q, j) => (out[i + j]! += p * q)));
      return out;
    });
    for (const due of [6.5, 8, 9.5, 11]) {
      const exact = whole.slice(0, Math.floor(due / step) + 1).reduce((total, p) => total + p, 0);
      expect(Math.abs(played(chain, due, 20_000) - exact)).toBeLessThan(0.012);
    }
  });
});

describe('the laws behind it', () => {
  it('beta quantiles keep mean and spread: shapes 3 and 3 (closed form, B(3,3) median 0.5)', () => {
    const table = threePointQuantiles(0.5, 1000);
    expect(quantileAt(table, 0.5)).toBeCloseTo(0.5, 3);
    // B(3,3): variance 1/28.
    const values = Array.from({ length: 1000 }, (_, i) => quantileAt(table, (i + 0.5) / 1000));
    expect(sum(values) / 1000).toBeCloseTo(0.5, 3);
    expect(sum(values.map((x) => (x - 0.5) ** 2)) / 1000).toBeCloseTo(1 / 28, 3);
    // Distribution function of B(3,3) at 0.3: 10 x^3 - 15 x^4 + 6 x^5 = 0.16308.
    expect(quantileAt(table, 0.16308)).toBeCloseTo(0.3, 3);
  });
  it('the mean of the beta law is (a + 4 m + b) / 6', () => {
    for (const usual of [0.1, 1 / 3, 0.8]) {
      const table = threePointQuantiles(usual, 2000);
      const values = Array.from({ length: 2000 }, (_, i) => quantileAt(table, (i + 0.5) / 2000));
      expect(sum(values) / 2000).toBeCloseTo((4 * usual + 1) / 6, 3);
    }
  });
  it('the normal law at tabled points (any statistics table)', () => {
    expect(normalBelow(0)).toBeCloseTo(0.5, 6);
    expect(normalBelow(1)).toBeCloseTo(0.841345, 6);
    expect(normalBelow(1.96)).toBeCloseTo(0.975002, 6);
    expect(normalBelow(-2.33)).toBeCloseTo(0.009903, 6);
  });
});
