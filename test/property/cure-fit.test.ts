import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { SheetRow } from '../../app/document/schema.ts';
import { energyForFactorPer10C } from '../../app/cure/arrhenius.ts';
import { potLifeMinutes, vesselAreaM2, type CupCase } from '../../app/cure/cup.ts';
import { fitRows, fitSheet } from '../../app/cure/fit.ts';
import { nominalOf, RATIO_MILESTONES } from '../../app/cure/nominal.ts';
import { energyScale, PARAMETER, sheetModels } from '../../app/cure/sheet-model.ts';
import { hardenerWith, practice } from '../unit/cure/practice-rows.ts';
import { forAll, tally } from '../support/draws.ts';

const hardener = hardenerWith([], { tgFullC: 82, heatOfReactionJG: 420 });

/** A resin out of which a sheet is generated: speed and energy free, the rest as practice has it. */
const resin = fc.record({
  gelHours: fc.double({ min: 1, max: 10, noNaN: true }),
  energyKJ: fc.double({ min: 44, max: 66, noNaN: true }),
  order: fc.double({ min: 0.5, max: 0.8, noNaN: true }),
});

const ASKED: readonly SheetRow[] = [
  { what: 'film-gel', temperatureC: 20, minutes: 1 },
  { what: 'film-gel', temperatureC: 30, minutes: 1 },
  { what: 'pot-life', temperatureC: 22, massG: 150, vessel: 'cup', minutes: 1 },
  { what: 'demould', temperatureC: 20, minutes: 1 },
  { what: 'film-open', temperatureC: 25, minutes: 1 },
];
const LEFT_OUT: readonly SheetRow[] = [
  { what: 'tack-free', temperatureC: 20, minutes: 1 },
  { what: 'debag', temperatureC: 20, minutes: 1 },
  { what: 'debag', temperatureC: 26, minutes: 1 },
  { what: 'sand', temperatureC: 20, minutes: 1 },
  { what: 'film-gel', temperatureC: 15, minutes: 1 },
];

const ORDER = ['open', 'gel', 'tackFree', 'debag', 'demould', 'sand', 'full'] as const;
const anyRow: fc.Arbitrary<SheetRow> = fc.record({
  what: fc.constantFrom(
    'pot-life' as const,
    'film-open' as const,
    'film-gel' as const,
    'tack-free' as const,
    'debag' as const,
    'demould' as const,
    'sand' as const,
    'bond-until' as const,
    'full' as const,
  ),
  temperatureC: fc.integer({ min: -40, max: 250 }),
  minutes: fc.double({ min: 0.01, max: 100_000, noNaN: true }),
  massG: fc.double({ min: 0.1, max: 100_000, noNaN: true }),
});

describe('the fit of any sheet at all', () => {
  it('gives finite milestones in order, and never throws', () => {
    const seen = tally('one row', 'several rows', 'row that no curve fits');
    forAll(
      fc.property(
        fc.array(anyRow, { minLength: 1, maxLength: 8 }),
        fc.constantFrom('epoxy' as const, 'polyester' as const),
        (sheet, chemistry) => {
          const model = fitSheet({ ...hardener, sheet }, practice, chemistry);
          seen.saw(sheet.length > 1 ? 'several rows' : 'one row');
          if (model.residuals.some((row) => Math.abs(row.relative) > 0.5)) {
            seen.saw('row that no curve fits');
          }
          let before = 0;
          for (const milestone of ORDER) {
            const dose = model.doseHours[milestone]!;
            expect(Number.isFinite(dose)).toBe(true);
            expect(dose).toBeGreaterThanOrEqual(before);
            before = dose;
          }
          expect(model.activationEnergyJMol).toBeGreaterThan(29_000);
          expect(model.activationEnergyJMol).toBeLessThan(121_000);
          for (const { fittedMinutes } of model.residuals) {
            expect(fittedMinutes).toBeGreaterThan(0);
          }
        },
      ),
      { seed: 1, seen, numRuns: 60 },
    );
  });
});

describe('the fit of a generated sheet', () => {
  it('predicts the rows that were left out', () => {
    const nominal = nominalOf(hardener, 'epoxy', practice);
    const seen = tally('fast resin', 'slow resin');
    forAll(
      fc.property(resin, ({ gelHours, energyKJ, order }) => {
        seen.saw(gelHours < 4 ? 'fast resin' : 'slow resin');
        const parameters = [
          Math.log(gelHours),
          energyScale(practice).placeOf(energyKJ * 1000),
          order,
          0,
          ...RATIO_MILESTONES.map((m) => Math.log(nominal.perGel[m])),
        ];
        expect(parameters[PARAMETER.order]).toBe(order);
        const truth = sheetModels(nominal, practice)(parameters);
        const rows = ASKED.map((row) => ({ ...row, minutes: truth.minutesOf(row) }));
        const { model } = fitRows(hardener, rows, practice, 'epoxy');
        for (const row of LEFT_OUT) {
          expect(Math.abs(model.minutesOf(row) / truth.minutesOf(row) - 1)).toBeLessThan(0.1);
        }
      }),
      { seed: 2, numRuns: 40, seen, least: 5 },
    );
  });
});

const cupOf = (massG: number, temperatureC: number): CupCase => ({
  kinetics: {
    shape: { seed: 0.02, m: 0.65, n: 2.5 },
    glass: nominalOf(hardener, 'epoxy', practice).glass,
    referenceC: 20,
    activationEnergyJMol: energyForFactorPer10C(2, 20),
    ratePerHour: 1,
    heatJG: 420,
  },
  massG,
  vessel: { kind: 'cup', heightPerDiameter: 1, depthMm: 10, lossWM2K: 8 },
  roomC: temperatureC,
  resinC: temperatureC,
  densityKgM3: 1120,
  heatCapacityJGK: 1.9,
  openDegree: 0.32,
  hottestC: 60,
});
const mass = fc.double({ min: 5, max: 2000, noNaN: true });

describe('the cup', () => {
  it('a larger mass in a similar cup never lives longer', () => {
    const seen = tally('shorter', 'no difference');
    forAll(
      fc.property(mass, mass, fc.double({ min: 8, max: 35, noNaN: true }), (a, b, temperatureC) => {
        const [small, large] = [Math.min(a, b), Math.max(a, b)];
        const [short, long] = [
          potLifeMinutes(cupOf(large, temperatureC)),
          potLifeMinutes(cupOf(small, temperatureC)),
        ];
        seen.saw(short < long * 0.99 ? 'shorter' : 'no difference');
        expect(short).toBeLessThanOrEqual(long * (1 + 1e-3));
      }),
      { seed: 3, seen, numRuns: 100 },
    );
  });

  it('a hotter one never lives longer', () => {
    const seen = tally('small cup', 'large cup');
    forAll(
      fc.property(mass, fc.double({ min: 8, max: 30, noNaN: true }), (massG, temperatureC) => {
        seen.saw(massG < 200 ? 'small cup' : 'large cup');
        expect(potLifeMinutes(cupOf(massG, temperatureC + 4))).toBeLessThan(
          potLifeMinutes(cupOf(massG, temperatureC)),
        );
      }),
      { seed: 4, seen, numRuns: 100 },
    );
  });

  it('similar cups lose heat through an area as mass to two thirds', () => {
    const { vessel } = cupOf(1, 20);
    expect(vesselAreaM2(vessel, 800, 1120) / vesselAreaM2(vessel, 100, 1120)).toBeCloseTo(4, 9);
  });
});
