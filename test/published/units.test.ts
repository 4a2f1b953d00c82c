/**
 * Cloth and foam weights. Printed: cloth maker's tables (cci.one) 2.3, 5.0, 5.8, 6.0, 9.0 oz/yd2 as 78,
 * 170, 197, 203, 305 g/m2. Computed from the exact definitions: the rest.
 */
import { describe, expect, it } from 'vitest';
import { fromLbFt3, fromOzFt2, fromOzYd2, toLbFt3, toOzYd2 } from '../../app/part/cloth-weight.ts';

describe('ounces per square yard', () => {
  it.each([
    [2.3, 78],
    [5.0, 170],
    [5.8, 197],
    [6.0, 203],
    [9.0, 305],
  ])('%f oz/yd2 is printed as %f g/m2', (oz, grams) => {
    expect(Math.round(fromOzYd2(oz))).toBe(grams);
  });

  it.each([
    [1, 33.90575],
    [4, 135.62],
    [10, 339.06],
    [18, 610.3],
    [24, 813.74],
  ])('%f oz/yd2 is %f g/m2 (computed)', (oz, grams) => {
    expect(Math.abs(fromOzYd2(oz) - grams)).toBeLessThan(0.005);
    expect(toOzYd2(fromOzYd2(oz))).toBeCloseTo(oz, 12);
  });
});

describe('chopped-strand mat, sold by the square foot (computed)', () => {
  it.each([
    [0.75, 228.86],
    [1, 305.15],
    [1.5, 457.73],
    [2, 610.3],
  ])('%f oz/ft2 is %f g/m2', (oz, grams) => {
    expect(Math.abs(fromOzFt2(oz) - grams)).toBeLessThan(0.005);
    expect(fromOzFt2(oz) / fromOzYd2(oz)).toBeCloseTo(9, 12);
  });
});

describe('foam (computed)', () => {
  it('1 lb/ft3 is 16.01846 kg/m3', () => {
    expect(fromLbFt3(1)).toBeCloseTo(16.01846, 5);
    expect(toLbFt3(fromLbFt3(5))).toBeCloseTo(5, 12);
  });
});
