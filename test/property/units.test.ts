import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { UNITS, type Measure } from '../../app/units/convert.ts';
import { readQuantity } from '../../app/units/read.ts';
import { forAll } from '../support/draws.ts';

const MEASURES = Object.keys(UNITS) as Measure[];

const value = (text: string, measure: Measure): number => {
  const reading = readQuantity(text, measure);
  if (!reading.ok) throw new Error(`${text}: ${reading.why}`);
  return reading.value;
};

describe('a figure written out', () => {
  it('is read back in every unit, with every spelling', () => {
    const seen = new Set<string>();
    forAll(
      fc.property(
        fc.constantFrom(...MEASURES),
        fc.nat(),
        fc.nat(),
        fc.integer({ min: 5001, max: 9999 }),
        (measure, pick, spell, thousandths) => {
          const units = UNITS[measure];
          const unit = units[pick % units.length]!;
          const spelling = unit.spellings[spell % unit.spellings.length]!;
          // Sized so that no vacuum is asked back: a count of less than half an atmosphere may be either.
          const size = measure === 'vacuumKPa' ? 90 / Math.abs(unit.factor) : 1;
          const number = (size * thousandths) / 10_000;
          if (measure === 'vacuumKPa' && number * Math.abs(unit.factor) < 50) return;
          const found = value(`${number} ${spelling}`, measure);
          const expected = number * unit.factor + (unit.offset ?? 0);
          expect(Math.abs(found - expected)).toBeLessThanOrEqual(
            1e-9 * Math.max(1, Math.abs(expected)),
          );
          seen.add(`${measure} ${unit.symbol}`);
        },
      ),
      { seed: 1, numRuns: 3000 },
    );
    expect(seen.size).toBe(MEASURES.reduce((sum, measure) => sum + UNITS[measure].length, 0));
  });

  it('is read back as inches in eighths, sixteenths and feet', () => {
    forAll(
      fc.property(
        fc.nat({ max: 60 }),
        fc.nat({ max: 11 }),
        fc.constantFrom(2, 4, 8, 16, 32),
        fc.nat(),
        fc.boolean(),
        (feet, inches, bottom, pick, loose) => {
          const top = 1 + (pick % (bottom - 1));
          const whole = inches === 0 ? '' : `${inches} `;
          const expected = (feet * 12 + inches + top / bottom) * 25.4;
          const inch = `${whole}${top}/${bottom}`;
          expect(value(`${inch} in`, 'lengthMm')).toBeCloseTo(expected - feet * 304.8, 8);
          expect(value(`${inch}"`, 'lengthM') * 1000).toBeCloseTo(expected - feet * 304.8, 8);
          const both = loose ? `${feet} ft ${inch} in` : `${feet}'${inch}"`;
          expect(value(both, 'lengthMm')).toBeCloseTo(expected, 8);
        },
      ),
      { seed: 2 },
    );
  });

  it('of any text is a finite number or a sentence, never a throw', () => {
    const signs = fc.constantFrom(...'0123456789.,-+/\'" ½°²abcfhkmnoryz'.split(''));
    forAll(
      fc.property(
        fc.array(signs, { maxLength: 14 }).map((list) => list.join('')),
        fc.constantFrom(...MEASURES),
        (text, measure) => {
          const reading = readQuantity(text, measure);
          if (reading.ok) expect(Number.isFinite(reading.value)).toBe(true);
          else {
            expect(reading.why).not.toMatch(/undefined|NaN/);
            for (const { value: one } of reading.choices ?? [])
              expect(Number.isFinite(one)).toBe(true);
          }
        },
      ),
      { seed: 3, numRuns: 5000 },
    );
  });
});
