import { describe, expect, it } from 'vitest';
import { fitSheet } from '../../../app/cure/fit.ts';
import { energyForFactorPer10C } from '../../../app/cure/arrhenius.ts';
import { potLifeOf } from '../../../app/cure/pot.ts';
import { hardenerWith, practice, shippedHardeners } from './practice-rows.ts';

const ORDER = ['open', 'gel', 'tackFree', 'debag', 'demould', 'sand', 'full'] as const;

describe('a sheet of one pot life', () => {
  const hardener = hardenerWith([{ what: 'pot-life', temperatureC: 25, minutes: 25, massG: 100 }]);
  const model = fitSheet(hardener, practice);

  it('gives every milestone, in order, with what was assumed', () => {
    for (const [i, milestone] of ORDER.entries()) {
      const dose = model.doseHours[milestone]!;
      expect(dose).toBeGreaterThan(0);
      if (i > 0) expect(dose).toBeGreaterThanOrEqual(model.doseHours[ORDER[i - 1]!]!);
    }
    expect(model.activationEnergyJMol).toBeCloseTo(energyForFactorPer10C(2, 20), 6);
    expect(model.assumptions.join(' ')).toMatch(/one temperature only/);
    expect(model.assumptions.join(' ')).toMatch(/in a cup/);
  });

  it('holds a bag on overnight for a medium hardener at 20 C, as practice has it', () => {
    expect(model.doseHours.debag!).toBeGreaterThan(10);
    expect(model.doseHours.debag!).toBeLessThan(16);
  });

  it('reads its own row back', () => {
    expect(model.residuals).toHaveLength(1);
    expect(model.residuals[0]!.relative).toBeCloseTo(0, 9);
    expect(potLifeOf(hardener, model, practice)(100, 25)).toBeCloseTo(25, 6);
  });
});

describe('a sheet at two temperatures', () => {
  it('takes the activation energy from them', () => {
    const model = fitSheet(
      hardenerWith([
        { what: 'film-gel', temperatureC: 20, minutes: 240 },
        { what: 'film-gel', temperatureC: 30, minutes: 100 },
        { what: 'demould', temperatureC: 20, minutes: 1200 },
      ]),
      practice,
    );
    // ln(2.4) R T1 T2 / 10
    expect(model.activationEnergyJMol).toBeCloseTo(64_688, -2);
    expect(model.doseHours.gel).toBeCloseTo(4, 9);
    expect(model.doseHours.demould).toBeCloseTo(20, 9);
    expect(model.doseHours.debag!).toBeGreaterThan(4);
    expect(model.doseHours.debag!).toBeLessThan(20);
  });

  it('falls back to the rule where they cannot be', () => {
    const model = fitSheet(
      hardenerWith([
        { what: 'film-gel', temperatureC: 20, minutes: 100 },
        { what: 'film-gel', temperatureC: 30, minutes: 240 },
      ]),
      practice,
    );
    expect(model.activationEnergyJMol).toBeCloseTo(energyForFactorPer10C(2, 20), 6);
    expect(model.assumptions.join(' ')).toMatch(/no laminating resin/);
    expect(Math.max(...model.residuals.map((r) => Math.abs(r.relative)))).toBeGreaterThan(0.25);
  });
});

it('a sheet with demould before gel still gives milestones in order, and says so', () => {
  const model = fitSheet(
    hardenerWith([
      { what: 'film-gel', temperatureC: 20, minutes: 300 },
      { what: 'demould', temperatureC: 20, minutes: 100 },
    ]),
    practice,
  );
  expect(model.doseHours.demould!).toBeGreaterThanOrEqual(model.doseHours.gel!);
  expect(model.assumptions.join(' ')).toMatch(/before/);
});

it('one bond window alone is enough of a sheet', () => {
  const model = fitSheet(
    hardenerWith([{ what: 'bond-until', temperatureC: 20, minutes: 1200 }]),
    practice,
  );
  expect(model.doseHours.bondUntil).toBeCloseTo(20, 9);
  expect(model.doseHours.gel).toBeCloseTo(4, 9);
});

it.each(shippedHardeners)('the shipped sheet of %s is read within a quarter', (_id, hardener) => {
  const { residuals } = fitSheet(hardener, practice);
  for (const { row, relative } of residuals) {
    if (row.what !== 'pot-life') expect(Math.abs(relative)).toBeLessThan(0.25);
  }
});

it.each(shippedHardeners)('the pot life of %s is the one on its sheet', (_id, hardener) => {
  const potLife = potLifeOf(hardener, fitSheet(hardener, practice), practice);
  for (const row of hardener.sheet.filter((r) => r.what === 'pot-life')) {
    const minutes = potLife(row.massG!, row.temperatureC);
    expect(Math.abs(minutes / row.minutes - 1)).toBeLessThan(0.1);
    expect(potLife(500, row.temperatureC)).toBeLessThan(minutes);
  }
});
