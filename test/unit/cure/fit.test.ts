import { describe, expect, it } from 'vitest';
import { energyForFactorPer10C, rateFactor } from '../../../app/cure/arrhenius.ts';
import { cureClock } from '../../../app/cure/clock.ts';
import { fitSheet, delayMilestones } from '../../../app/cure/fit.ts';
import { potLifeOf } from '../../../app/cure/pot.ts';
import { MILESTONES } from '../../../app/document/schema.ts';
import { hardenerWith, practice, shippedHardeners } from './practice-rows.ts';

const ORDER = ['open', 'gel', 'tackFree', 'debag', 'demould', 'sand', 'full'] as const;
const steady = (temperatureC: number) => [{ start: 0, end: 1_000_000, temperatureC }];

describe('a sheet of one pot life', () => {
  const hardener = hardenerWith([{ what: 'pot-life', temperatureC: 25, minutes: 25, massG: 100 }]);
  const model = fitSheet(hardener, practice);

  it('gives every milestone, in order, with what was assumed', () => {
    for (const [i, milestone] of ORDER.entries()) {
      const dose = model.doseHours[milestone]!;
      expect(dose).toBeGreaterThan(0);
      if (i > 0) expect(dose).toBeGreaterThanOrEqual(model.doseHours[ORDER[i - 1]!]!);
    }
    const rule = energyForFactorPer10C(2, 20);
    expect(Math.abs(model.activationEnergyJMol / rule - 1)).toBeLessThan(0.001);
    expect(model.assumptions.join(' ')).toMatch(/one temperature only/);
    expect(model.assumptions.join(' ')).toMatch(/in a cup/);
  });

  it('holds a bag on overnight for a medium hardener at 20 C, as practice has it', () => {
    const hours = cureClock(model, steady(20)).reached(0, 'debag')! / 60;
    expect(hours).toBeGreaterThan(10);
    expect(hours).toBeLessThan(16);
  });

  it('ends a room cure of a week with a Tg of 45 to 50 C, as practice has it', () => {
    const { tgC } = cureClock(model, steady(24)).stateAt(0, 7 * 1440);
    expect(tgC!).toBeGreaterThan(45);
    expect(tgC!).toBeLessThan(55);
  });

  it('reads its own row back', () => {
    expect(model.residuals).toHaveLength(1);
    expect(Math.abs(model.residuals[0]!.relative)).toBeLessThan(0.001);
    expect(potLifeOf(model, practice)(100, 25)).toBeCloseTo(25, 1);
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
    // ln(2.4) R T1 T2 / 10 is 64.69 kJ/mol; practice draws it a little.
    expect(model.activationEnergyJMol).toBeGreaterThan(63_000);
    expect(model.activationEnergyJMol).toBeLessThan(64_700);
    expect(model.doseHours.gel).toBeCloseTo(4, 1);
    const clock = cureClock(model, steady(20));
    expect(clock.reached(0, 'demould')! / 60).toBeCloseTo(20, 1);
    expect(clock.reached(0, 'debag')! / 60).toBeGreaterThan(4);
    expect(clock.reached(0, 'debag')! / 60).toBeLessThan(20);
  });

  it('holds the energy within what resins have and shows the miss where they cannot be', () => {
    const model = fitSheet(
      hardenerWith([
        { what: 'film-gel', temperatureC: 20, minutes: 100 },
        { what: 'film-gel', temperatureC: 30, minutes: 240 },
      ]),
      practice,
    );
    expect(model.activationEnergyJMol).toBeLessThan(32_000);
    expect(model.assumptions.join(' ')).toMatch(/do not go together/);
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
  expect(cureClock(model, steady(20)).reached(0, 'bondUntil')! / 60).toBeCloseTo(20, 1);
  expect(model.doseHours.gel).toBeCloseTo(4, 1);
});

describe.each(shippedHardeners)('the shipped sheet of %s', (_id, hardener, chemistry) => {
  const model = fitSheet(hardener, practice, chemistry);

  it('is met within a quarter, row by row', () => {
    for (const { relative } of model.residuals) expect(Math.abs(relative)).toBeLessThan(0.25);
  });

  it('gives a larger batch no longer a pot life', () => {
    const potLife = potLifeOf(model, practice);
    for (const temperatureC of [15, 20, 28]) {
      expect(potLife(500, temperatureC)).toBeLessThanOrEqual(potLife(150, temperatureC));
    }
  });

  it('reaches its milestones at 20 C when the sheet says', () => {
    const clock = cureClock(model, steady(20));
    for (const row of hardener.sheet) {
      if (row.temperatureC !== 20 || row.what === 'pot-life') continue;
      const milestone = MILESTONES.find(
        (m) =>
          m ===
          ({ 'film-open': 'open', 'film-gel': 'gel', 'tack-free': 'tackFree' }[
            row.what as string
          ] ?? row.what.replace('bond-until', 'bondUntil')),
      )!;
      const minutes = clock.reached(0, milestone)!;
      expect(Math.abs(minutes / row.minutes - 1), row.what).toBeLessThan(0.08);
    }
  });
});

describe('a milestone put off', () => {
  const model = fitSheet(
    hardenerWith([{ what: 'film-gel', temperatureC: 20, minutes: 270 }]),
    practice,
  );
  const later = delayMilestones(model, { debag: 1.5 });

  it('comes as many times later at 20 C, slowing and all, and moves no other', () => {
    const [before, after] = [cureClock(model, steady(20)), cureClock(later, steady(20))];
    const ratio = after.reached(0, 'debag')! / before.reached(0, 'debag')!;
    expect(ratio).toBeCloseTo(1.5, 2);
    expect(later.doseHours.sand).toBe(model.doseHours.sand);
  });
});

it('keeps the answer of a sheet it has read before, and only of that', () => {
  const sheet = [{ what: 'film-gel' as const, temperatureC: 20, minutes: 200 }];
  const first = fitSheet(hardenerWith(sheet), practice);
  expect(fitSheet(hardenerWith([...sheet]), practice)).toBe(first);
  expect(fitSheet(hardenerWith(sheet, { tgFullC: 95 }), practice)).not.toBe(first);
  expect(
    fitSheet(hardenerWith(sheet), (id) => practice(id) * (id === 'cure-gel-degree' ? 0.9 : 1)),
  ).not.toBe(first);
  expect(rateFactor(first.activationEnergyJMol, 20, 20)).toBe(1);
});
