/** Where a cure at room temperature stops, and what heat or cold do to it, against printed values. */
import { Solver } from 'odex';
import { describe, expect, it } from 'vitest';
import { GAS_CONSTANT, ZERO_C_IN_K } from '../../app/cure/arrhenius.ts';
import { surfaceAir } from '../../app/cure/air.ts';
import { cureClock } from '../../app/cure/clock.ts';
import { fitSheet } from '../../app/cure/fit.ts';
import { clockRate } from '../../app/cure/rate.ts';
import type { SheetRow } from '../../app/document/schema.ts';
import { hardenerWith, practice, shippedHardeners } from '../unit/cure/practice-rows.ts';

const WEEK = 7 * 1440;
const epoxies = shippedHardeners.filter(([, , chemistry]) => chemistry === 'epoxy');

/**
 * DGEBA with short diamines at 25 C by DSC: a public repository of 2025 and 2026 (posterior_summary_DSC,
 * Bayesian medians), not peer reviewed as far as seen. Its model ends at a final conversion r. k and
 * times computed from the printed log k, apart from this code.
 */
describe('isothermal conversion at 25 C of an open data set', () => {
  const sets = [
    ['ethylenediamine', 3.577e-5, 2.655e-4, 1.588, 1.479, 0.789, [110.1, 160.3, 262.0]],
    ['1,3-diaminopropane', 2.791e-5, 2.26e-4, 1.089, 1.163, 0.558, [125.5, 175.9, 302.3]],
    ['1,4-diaminobutane', 2.626e-5, 3.837e-4, 1.506, 1.221, 0.607, [141.9, 192.7, 293.6]],
  ] as const;

  it.each(sets)(
    'of %s takes the printed minutes to 0.2, 0.3 and 0.5',
    (_n, k1, k2, m, n, r, at) => {
      const rate = (a: number): number =>
        (k1 + k2 * Math.max(0, a) ** m) * ((1 - a) * (r - a)) ** (n / 2);
      [0.2, 0.3, 0.5].forEach((degree, i) => {
        const solver = new Solver(1);
        solver.relativeTolerance = 1e-9;
        const seconds = solver.solve((a) => [1 / rate(a)], 0, [0], degree).y[0]!;
        expect(Math.abs(seconds / 60 / at[i]! - 1)).toBeLessThan(0.003);
      });
    },
  );

  it('stalls at 0.56 to 0.79: the curve here, for a hardener of 124 C, within 0.03 of that after a day', () => {
    const least = Math.min(...sets.map((set) => set[5]));
    const most = Math.max(...sets.map((set) => set[5]));
    const row: SheetRow = { what: 'film-gel', temperatureC: 25, minutes: 180 };
    // 124 C: full cure of DGEBA with TETA, seen in an abstract (SciELO Polimeros).
    const model = fitSheet(hardenerWith([row], { tgFullC: 124 }), practice);
    const clock = cureClock(model, [{ start: 0, end: 2 * WEEK, temperatureC: 25 }]);
    const [day, week, fortnight] = [1440, WEEK, 2 * WEEK].map((at) => clock.stateAt(0, at));
    expect(day!.slowed).toBe(true);
    expect(day!.degree!).toBeGreaterThan(least);
    expect(day!.degree!).toBeLessThan(most + 0.03);
    // It has all but stopped: a second week adds less than a fortieth.
    expect(fortnight!.degree! - week!.degree!).toBeLessThan(0.025);
  });
});

/**
 * Heat deflection (ASTM D648) of a filled wet-lay-up epoxy after 7 days: 36, 47 and 53 C at 10, 23 and
 * 35 C: data sheet of 2005, all three seen; measured lifts over the room over all sheets and methods run
 * from 15 to 42 K, so that 10 to 45 K is accepted.
 */
describe('Tg after seven days in the room', () => {
  const printed = [
    [10, 36],
    [23, 47],
    [35, 53],
  ] as const;

  it.each(epoxies)('of %s lies 10 to 45 K over it, and the less the warmer it is', (_name, row) => {
    // The maker's minimum is a rule of use: the chemistry goes on below it, slowly.
    const model = fitSheet(row, practice);
    const lifts = printed.map(([temperatureC]) => {
      const profile = [{ start: 0, end: WEEK, temperatureC }];
      return cureClock(model, profile).stateAt(0, WEEK).tgC! - temperatureC;
    });
    const warm = lifts.slice(1);
    for (const lift of warm) {
      expect(lift).toBeGreaterThan(10);
      expect(lift).toBeLessThan(45);
    }
    // Half a kelvin: the slowest has not stalled after a week at 23 C.
    expect(lifts[1]!).toBeGreaterThan(lifts[2]! - 0.5);
    expect(printed[0][1] - 10).toBeGreaterThan(printed[2][1] - 35);
  });

  it('of a hardener as quick as that sheet comes within 10 K of the three values', () => {
    // Pot life of 5 kg: 90 min at 10 C, 30 min at 35 C (a later edition of the same sheet).
    const model = fitSheet(
      hardenerWith(
        [
          { what: 'pot-life', temperatureC: 10, minutes: 90, massG: 5000 },
          { what: 'pot-life', temperatureC: 35, minutes: 30, massG: 5000 },
        ],
        { tgFullC: 75 },
      ),
      practice,
    );
    const lifts = printed.map(([temperatureC, tgC]) => {
      const profile = [{ start: 0, end: WEEK, temperatureC }];
      const own = cureClock(model, profile).stateAt(0, WEEK).tgC!;
      expect(Math.abs(own - tgC)).toBeLessThan(10);
      return own - temperatureC;
    });
    expect(lifts[0]!).toBeGreaterThan(lifts[1]!);
    expect(lifts[1]!).toBeGreaterThan(lifts[2]!);
  });
});

/** Energy, J/mol, that takes one time to another. */
const energyOf = (t1: number, c1: number, t2: number, c2: number): number =>
  (GAS_CONSTANT * Math.log(t1 / t2)) / (1 / (c1 + ZERO_C_IN_K) - 1 / (c2 + ZERO_C_IN_K));

/**
 * Printed times of one resin at two temperatures: hours, C. Cure: an adhesive's table of minimum cure
 * times; gels of two infusion epoxies by their kinetic sets (second hand). Pot and drying: a filled
 * wet-lay-up epoxy, a primer, a marine epoxy's guide. All seen on sheets unless marked.
 */
const CURE = [
  ['adhesive, 25 to 40 C', 24, 25, 8, 40, 56.9],
  ['adhesive, 40 to 60 C', 8, 40, 3, 60, 42.5],
  ['adhesive, 25 to 100 C', 24, 25, 1 / 3, 100, 52.7],
  ['infusion epoxy A, gel, 20 to 30 C', 9.309, 20, 4.96, 30, 46.5],
  ['infusion epoxy B, gel, 20 to 30 C', 24.83, 20, 11.65, 30, 55.9],
  ['open data, 1,4-diaminobutane, 25 to 60 C', 192.7, 25, 9.96, 60, 69.9],
] as const;
const POT = [
  ['filled epoxy, 5 kg', 1.5, 10, 0.5, 35, 31.9],
  ['primer, pot life', 48, 10, 24, 20, 47.8],
  ['primer, drying', 24, 10, 10, 30, 31.2],
  ['primer, cure before use', 168, 10, 72, 30, 30.2],
  ['marine epoxy, pot life', 1, 10, 2 / 3, 21, 25.5],
  ['marine epoxy, thin layer', 32, 10, 24, 21, 18.1],
] as const;

describe('the spread of slopes over sheets', () => {
  const rows = [
    ...CURE.map((row) => ['cure', ...row] as const),
    ...POT.map((row) => ['pot', ...row] as const),
  ];
  it.each(rows)(
    '%s: %s lies in the range that one row leaves open',
    (kind, _n, t1, c1, t2, c2, kJ) => {
      const energy = energyOf(t1, c1, t2, c2);
      expect(Math.abs(energy / 1000 - kJ)).toBeLessThan(0.15);
      expect(energy).toBeGreaterThan(practice(`energy-${kind}-flat-kj`) * 1000 - 100);
      expect(energy).toBeLessThan(practice(`energy-${kind}-steep-kj`) * 1000 + 100);
    },
  );

  it.each(rows)(
    '%s: %s falls between early and late, from either row',
    (kind, _n, t1, c1, t2, c2) => {
      for (const [known, from, asked, to] of [
        [t1, c1, t2, c2],
        [t2, c2, t1, c1],
      ] as const) {
        const what = kind === 'cure' ? 'film-gel' : 'film-open';
        const row: SheetRow = { what, temperatureC: from, minutes: known * 60 };
        const model = fitSheet(hardenerWith([row]), practice);
        const at = (side: 'early' | 'late', c: number) => clockRate(model, side, kind)(c);
        const early = (known * at('early', from)) / at('early', to);
        const late = (known * at('late', from)) / at('late', to);
        expect(early).toBeLessThanOrEqual(asked * 1.005);
        expect(late).toBeGreaterThanOrEqual(asked * 0.995);
      }
    },
  );
});

/** Recoat of an epoxy primer, least and most: 30 C 10 h and 3 d; 20 C 16 h and 7 d (data sheet, seen). */
describe('recoat windows', () => {
  it('shrink with heat, the end faster than the beginning; each is held on its safe side', () => {
    const row: SheetRow = { what: 'bond-until', temperatureC: 20, minutes: WEEK };
    const model = fitSheet(hardenerWith([row]), practice);
    const rise = (side: 'early' | 'late', kind: 'cure' | 'pot') =>
      clockRate(model, side, kind)(30) / clockRate(model, side, kind)(20);
    const latest = WEEK / rise('early', 'cure');
    expect(latest).toBeLessThanOrEqual(3 * 1440);
    expect(latest).toBeGreaterThan(2 * 1440);
    const earliest = 16 / rise('late', 'pot');
    expect(earliest).toBeGreaterThanOrEqual(10);
    expect(earliest).toBeLessThan(16);
  });
});

/**
 * Surface and resin at least 3 K over the dew point (data sheet of a wet-lay-up epoxy, seen; the same
 * rule for coatings reported of ISO 8502-4). Humidities by Magnus (17.62, 243.12 C), computed.
 */
describe('the dew point and three kelvin', () => {
  it.each([
    [15, 82.3],
    [20, 82.9],
    [25, 83.5],
  ])('bites at %d C from %d %% on, before 85 %', (temperatureC, humidityPct) => {
    const near = (pct: number) =>
      surfaceAir({ temperatureC, humidityPct: pct }, temperatureC, practice).nearDew;
    expect(near(humidityPct + 0.1)).toBe(true);
    expect(near(humidityPct - 0.1)).toBe(false);
  });

  /** CoatingsPro, March 2016, table 1: humidity at a surface so many F over the dew point (seen). */
  it.each([
    [5, 82, 86],
    [15, 54, 62],
    [20, 43, 51],
    [25, 34, 42],
    [30, 27, 35],
    [35, 19, 26],
  ])('a surface %d F over it stands at %d to %d %%', (overF, least, most) => {
    const surfaceC = 10;
    const dewC = surfaceC - overF / 1.8;
    // Air at the surface's own temperature that has this dew point.
    const [a, b] = [17.62, 243.12];
    const pressure = (t: number): number => Math.exp((a * t) / (b + t));
    const humidityPct = (100 * pressure(dewC)) / pressure(surfaceC);
    const air = surfaceAir({ temperatureC: surfaceC, humidityPct }, surfaceC, practice);
    expect(air.overDewK).toBeCloseTo(overF / 1.8, 1);
    expect(air.humidityAtSurfacePct).toBeGreaterThan(least - 1);
    expect(air.humidityAtSurfacePct).toBeLessThan(most + 1);
  });
});
