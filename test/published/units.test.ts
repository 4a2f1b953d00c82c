/**
 * Cloth and foam weights. Printed: cloth maker's tables (cci.one) 2.3, 5.0, 5.8, 6.0, 9.0 oz/yd2 as 78,
 * 170, 197, 203, 305 g/m2. Computed from the exact definitions: the rest.
 */
import { describe, expect, it } from 'vitest';
import type { Measure } from '../../app/units/convert.ts';
import { readQuantity } from '../../app/units/read.ts';

const read = (text: string, measure: Measure): number => {
  const reading = readQuantity(text, measure);
  if (!reading.ok) throw new Error(reading.why);
  return reading.value;
};

describe('ounces per square yard', () => {
  it.each([
    [2.3, 78],
    [5.0, 170],
    [5.8, 197],
    [6.0, 203],
    [9.0, 305],
  ])('%f oz/yd2 is printed as %f g/m2', (oz, grams) => {
    expect(Math.round(read(`${oz} oz/yd2`, 'arealGM2'))).toBe(grams);
  });

  it.each([
    [1, 33.90575],
    [4, 135.62],
    [10, 339.06],
    [18, 610.3],
    [24, 813.74],
  ])('%f oz/yd2 is %f g/m2 (computed)', (oz, grams) => {
    expect(Math.abs(read(`${oz} oz/yd2`, 'arealGM2') - grams)).toBeLessThan(0.005);
  });
});

describe('chopped-strand mat, sold by the square foot (computed)', () => {
  it.each([
    [0.75, 228.86],
    [1, 305.15],
    [1.5, 457.73],
    [2, 610.3],
  ])('%f oz/ft2 is %f g/m2', (oz, grams) => {
    expect(Math.abs(read(`${oz} oz/ft2`, 'arealGM2') - grams)).toBeLessThan(0.005);
  });
});

describe('foam (computed)', () => {
  it('1 lb/ft3 is 16.01846 kg/m3', () => {
    expect(read('1 lb/ft3', 'densityKgM3')).toBeCloseTo(16.01846, 5);
  });
});
