import { describe, expect, it } from 'vitest';
import type { Measure } from '../../../app/units/convert.ts';
import { readQuantity } from '../../../app/units/read.ts';
import { figureIn, otherUnit, unitTyped } from '../../../app/units/typedUnit.ts';

describe('the unit behind a typed figure', () => {
  it.each<[string, Measure, string | null]>([
    ['66 F', 'temperatureC', '°F'],
    ['72F', 'temperatureC', '°F'],
    ['19 °C', 'temperatureC', '°C'],
    ['19', 'temperatureC', ''],
    ['1 1/8', 'lengthMm', ''],
    ['1/8 in', 'lengthMm', 'in'],
    [`5'6"`, 'lengthM', 'in'],
    ['2h30', 'minutes', null],
    ['12 sq ft', 'areaM2', 'ft²'],
  ])('%s', (text, measure, symbol) => {
    expect(unitTyped(text, measure)).toBe(symbol);
  });

  it('shows a stored figure as it was typed, and reads it back to the same', () => {
    for (const [text, measure] of [
      ['66 °F', 'temperatureC'],
      ['0.75 in', 'lengthMm'],
      ['12 ft²', 'areaM2'],
      ['11 lb', 'massKg'],
      ['25 inHg below atm.', 'vacuumKPa'],
    ] as const) {
      const stored = readQuantity(text, measure);
      const unit = otherUnit(unitTyped(text, measure), measure)!;
      expect(stored.ok && `${figureIn(stored.value, unit)} ${unit.symbol}`).toBe(text);
    }
  });

  it('is none where it is the planner’s own or not of the measure', () => {
    expect(otherUnit('°C', 'temperatureC')).toBeNull();
    expect(otherUnit('kg', 'temperatureC')).toBeNull();
    expect(otherUnit(undefined, 'massKg')).toBeNull();
  });
});
