import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { rateFactor } from '../../app/cure/arrhenius.ts';
import { cureClock } from '../../app/cure/clock.ts';
import { fitSheet } from '../../app/cure/fit.ts';
import { clockRate, type RateModel } from '../../app/cure/rate.ts';
import { heatedClock } from '../../app/cure/programme.ts';
import type { TemperatureProfile } from '../../app/cure/types.ts';
import { hardenerWith, practice } from '../unit/cure/practice-rows.ts';
import { drawnProfile } from '../support/profiles.ts';
import { forAll } from '../support/draws.ts';

const energy = fc.double({ min: 30_000, max: 105_000, noNaN: true });
const range = fc
  .tuple(fc.double({ min: 15, max: 30, noNaN: true }), energy, energy)
  .map(([pivotC, a, b]) => ({ pivotC, flatJMol: Math.min(a, b), steepJMol: Math.max(a, b) }));
const models: fc.Arbitrary<RateModel> = fc
  .tuple(fc.option(range), fc.option(range), fc.double({ min: 0, max: 1, noNaN: true }))
  .map(([cure, pot, share]) => ({
    referenceC: 20,
    activationEnergyJMol: cure
      ? cure.flatJMol + share * (cure.steepJMol - cure.flatJMol)
      : 40_000 + share * 30_000,
    slopes: { cure, pot },
  }));
const sides = fc.constantFrom('fitted' as const, 'early' as const, 'late' as const);
const kinds = fc.constantFrom('cure' as const, 'pot' as const);
const temperature = fc.double({ min: -40, max: 250, noNaN: true });

describe('the dose of a minute over its temperature', () => {
  it('moves by a fifth at most for one kelvin, and never falls with heat', () => {
    forAll(
      fc.property(models, sides, kinds, temperature, (model, side, kind, c) => {
        const rate = clockRate(model, side, kind);
        expect(rate(c + 1)).toBeGreaterThanOrEqual(rate(c));
        expect(rate(c + 1) / rate(c)).toBeLessThanOrEqual(1.2 * (1 + 1e-9));
      }),
      { seed: 1, numRuns: 1000 },
    );
  });

  it('has no jump: a thousandth of a kelvin moves it by no more than two thousandths', () => {
    const minimum = fc.integer({ min: 5, max: 20 });
    forAll(
      fc.property(
        models,
        sides,
        minimum,
        fc.double({ min: -3, max: 3, noNaN: true }),
        (...given) => {
          const [model, side, minimumC, off] = given;
          const rate = clockRate(model, side, 'cure', minimumC);
          const full = clockRate(model, side, 'cure');
          const pivotC = model.slopes?.cure?.pivotC ?? 20;
          for (const about of [minimumC, minimumC - 1, pivotC]) {
            const c = about + off / 1000;
            const moved = rate(c + 0.001) - rate(c);
            expect(moved).toBeGreaterThanOrEqual(0);
            expect(moved).toBeLessThanOrEqual(0.002 * full(c));
          }
        },
      ),
      { seed: 2, numRuns: 500 },
    );
  });

  it('on the early side is never below the fitted one, on the late side never above', () => {
    let apart = 0;
    forAll(
      fc.property(models, fc.double({ min: -10, max: 80, noNaN: true }), (model, c) => {
        const fitted = clockRate(model, 'fitted')(c);
        const [early, late] = [clockRate(model, 'early')(c), clockRate(model, 'late')(c)];
        expect(early).toBeGreaterThanOrEqual(fitted * (1 - 1e-12));
        expect(late).toBeLessThanOrEqual(fitted * (1 + 1e-12));
        if (early > late * 1.01) apart++;
      }),
      { seed: 3, numRuns: 500 },
    );
    expect(apart).toBeGreaterThan(50);
  });

  it('counts in full at the minimum, and on the late side not at all a kelvin below', () => {
    forAll(
      fc.property(models, fc.integer({ min: 5, max: 25 }), (model, minimumC) => {
        const late = clockRate(model, 'late', 'cure', minimumC);
        expect(late(minimumC)).toBe(clockRate(model, 'late')(minimumC));
        expect(late(minimumC - 1)).toBe(0);
        expect(late(minimumC - 20)).toBe(0);
        const early = clockRate(model, 'early', 'cure', minimumC);
        expect(early(minimumC - 20)).toBeGreaterThan(0);
      }),
      { seed: 4 },
    );
  });
});

describe('the slope that a sheet leaves open', () => {
  it('is the published range about the one temperature, held to the fitted energy', () => {
    const model = fitSheet(
      hardenerWith([
        { what: 'pot-life', temperatureC: 23, minutes: 30, massG: 150 },
        { what: 'film-gel', temperatureC: 23, minutes: 240 },
      ]),
      practice,
    );
    const { cure, pot } = model.slopes!;
    expect([cure!.pivotC, cure!.flatJMol, cure!.steepJMol]).toEqual([23, 42_000, 70_000]);
    expect(pot!.flatJMol).toBe(18_000);
    // At the sheet's own temperature nothing is open.
    const rates = (['fitted', 'early', 'late'] as const).map((side) => clockRate(model, side)(23));
    expect(rates[1]).toBeCloseTo(rates[0]!, 12);
    expect(rates[2]).toBeCloseTo(rates[0]!, 12);
    expect(clockRate(model, 'early')(12)).toBeCloseTo(rates[0]! * rateFactor(42_000, 12, 23), 9);
    expect(clockRate(model, 'late')(12)).toBeCloseTo(rates[0]! * rateFactor(70_000, 12, 23), 9);
    expect(clockRate(model, 'early')(33)).toBeCloseTo(rates[0]! * rateFactor(70_000, 33, 23), 9);
    expect(model.assumptions.join(' ')).toContain('23 °C only');
  });

  it('is closed by two rows of the cure, and not by two of the pot', () => {
    const pots = [
      { what: 'pot-life', temperatureC: 20, minutes: 40, massG: 150 },
      { what: 'pot-life', temperatureC: 30, minutes: 20, massG: 150 },
    ] as const;
    const gel = { what: 'film-gel', temperatureC: 20, minutes: 270 } as const;
    const slopes = (rows: Parameters<typeof hardenerWith>[0]) =>
      fitSheet(hardenerWith(rows), practice).slopes!;
    expect(slopes([...pots, gel]).cure).not.toBeNull();
    expect(slopes([...pots, gel]).pot).toBeNull();
    const closed = slopes([gel, { ...gel, temperatureC: 30, minutes: 132 }]);
    expect(closed).toEqual({ cure: null, pot: null });
  });
});

const oneRow = fitSheet(
  hardenerWith([{ what: 'pot-life', temperatureC: 23, minutes: 35, massG: 150 }], { minimumC: 15 }),
  practice,
);
const profiles = drawnProfile([60, 900], [6, 34], [3, 9]);
const lastOf = (profile: TemperatureProfile) => profile.at(-1)!.end;
const milestone = fc.constantFrom('open' as const, 'gel' as const, 'debag' as const);

describe('the two clocks of one resin', () => {
  it('early is never after late, in any room, heated or not', () => {
    let both = 0;
    const programme = [{ start: 0, end: 240, temperatureC: 40 }];
    forAll(
      fc.property(profiles, milestone, fc.nat(), (room, m, where) => {
        const start = where % lastOf(room);
        const clocks = (side: 'early' | 'late') => [
          cureClock(oneRow, room, { side, minimumC: 15 }),
          heatedClock({ model: oneRow, room, programme, minimumC: 15, side }, 30, 0.3),
        ];
        const late = clocks('late');
        clocks('early').forEach((clock, i) => {
          const first = clock.reached(start, m) ?? Infinity;
          const last = late[i]!.reached(start, m) ?? Infinity;
          expect(first).toBeLessThanOrEqual(last);
          if (last < Infinity) both++;
        });
      }),
      { seed: 5, numRuns: 200 },
    );
    expect(both).toBeGreaterThan(60);
  });

  it('each is monotone in its start and inverted exactly', () => {
    const side = fc.constantFrom('early' as const, 'late' as const);
    forAll(
      fc.property(profiles, side, milestone, fc.nat(), (room, s, m, where) => {
        const clock = cureClock(oneRow, room, { side: s, minimumC: 15 });
        const end = where % lastOf(room);
        let [before, latest, earliest]: [number, number | null, number | null] = [0, null, null];
        for (let start = 0; start <= lastOf(room); start++) {
          const reached = clock.reached(start, m) ?? Infinity;
          expect(reached).toBeGreaterThanOrEqual(before);
          before = reached;
          if (reached <= end) latest = start;
          if (reached < Infinity && reached >= end) earliest ??= start;
        }
        expect(clock.latestStart(end, m)).toBe(latest);
        expect(clock.earliestStart(end, m)).toBe(earliest);
      }),
      { seed: 6, numRuns: 40 },
    );
  });

  it('warmer is never later on the late side, nor on the early side', () => {
    forAll(
      fc.property(profiles, milestone, fc.integer({ min: 1, max: 9 }), (room, m, warmer) => {
        const hot = room.map((p) => ({ ...p, temperatureC: p.temperatureC + warmer }));
        for (const side of ['early', 'late'] as const) {
          const at = (profile: TemperatureProfile) =>
            cureClock(oneRow, profile, { side, minimumC: 15 }).reached(0, m) ?? Infinity;
          expect(at(hot)).toBeLessThanOrEqual(at(room));
        }
      }),
      { seed: 7 },
    );
  });

  it('below the minimum it gels early all the same, and late not before it is warm again', () => {
    const night: TemperatureProfile = [
      { start: 0, end: 120, temperatureC: 20 },
      { start: 120, end: 1440, temperatureC: 13 },
      { start: 1440, end: 4320, temperatureC: 20 },
    ];
    const at = (side: 'early' | 'late') =>
      cureClock(oneRow, night, { side, minimumC: 15 }).reached(0, 'gel')!;
    expect(at('early')).toBeLessThan(1440);
    expect(at('late')).toBeGreaterThan(1440);
  });
});
