/**
 * Every unit that a person may write, against what it is in the planner's own unit; a unit or a
 * measure without a value here does not pass or does not compile.
 *
 * NIST SP 811 (2008), appendix B, from memory: lb 0.453 592 37 kg, oz 28.349 52 g, ft2 0.092 903 04 m2,
 * in2 6.4516e-4 m2, ft 0.3048 m, in 25.4 mm, oz/yd2 33.905 75 g/m2, oz/ft2 305.1517 g/m2, lb/ft3 16.018 46 kg/m3,
 * lb/gal (US) 119.8264 kg/m3, Btu(IT)/lb 2.326 J/g, cal(IT)/g 4.1868 J/g, inHg 3.386 389 kPa,
 * mbar 0.1 kPa, bar 100 kPa, psi 6.894 757 kPa, cP 1 mPa s, darcy 0.986 923 3 um2; K and deg F
 * differ by 1.8.
 */
import { describe, expect, it } from 'vitest';
import { formatBoth, UNITS, type Measure } from '../../app/units/convert.ts';
import { readQuantity } from '../../app/units/read.ts';

interface Known {
  /** What one of each unit is in the planner's own, by symbol. */
  readonly one: Readonly<Record<string, number>>;
  /** 12.5 of the planner's own unit, as shown. */
  readonly shown: string;
}

const KNOWN: Readonly<Record<Measure, Known>> = {
  areaM2: {
    one: { 'm²': 1, 'ft²': 0.09290304, 'cm²': 1e-4, 'in²': 6.4516e-4 },
    shown: '12.5 m² (135 ft²)',
  },
  lengthM: {
    one: { m: 1, ft: 0.3048, cm: 0.01, mm: 0.001, in: 0.0254 },
    shown: '12.5 m (41 ft)',
  },
  lengthMm: { one: { mm: 1, in: 25.4, cm: 10, m: 1000, ft: 304.8 }, shown: '12.5 mm (0.492 in)' },
  massKg: {
    one: { kg: 1, lb: 0.45359237, g: 0.001, oz: 0.02834952 },
    shown: '12.5 kg (27.6 lb)',
  },
  massG: { one: { g: 1, oz: 28.34952, kg: 1000, lb: 453.59237 }, shown: '12.5 g (0.441 oz)' },
  arealGM2: {
    one: { 'g/m²': 1, 'oz/yd²': 33.90575, 'oz/ft²': 305.1517, 'kg/m²': 1000 },
    shown: '12.5 g/m² (0.369 oz/yd²)',
  },
  temperatureC: { one: { '°C': 1, '°F': -31 / 1.8 }, shown: '12.5 °C (55 °F)' },
  rampKPerHour: { one: { '°C/h': 1, '°F/h': 1 / 1.8 }, shown: '12.5 °C/h (22.5 °F/h)' },
  minutes: { one: { min: 1, h: 60 }, shown: '12.5 min' },
  hours: { one: { h: 1, min: 1 / 60, d: 24 }, shown: '12.5 h' },
  days: { one: { days: 1 }, shown: '12.5 days' },
  percent: { one: { '%': 1 }, shown: '12.5 %' },
  count: { one: { '': 1 }, shown: '12.5' },
  parts: { one: { g: 1 }, shown: '12.5 g' },
  densityKgM3: {
    one: { 'kg/m³': 1, 'lb/gal': 119.8264, 'g/cm³': 1000, 'lb/ft³': 16.01846 },
    shown: '12.5 kg/m³ (0.104 lb/gal)',
  },
  heatJG: { one: { 'J/g': 1, 'Btu/lb': 2.326, 'cal/g': 4.1868 }, shown: '12.5 J/g (5.37 Btu/lb)' },
  // Below the standard atmosphere of 101.325 kPa (ISO 2533), or counted from nothing upwards.
  vacuumKPa: {
    one: {
      'kPa below atm.': 1,
      'inHg below atm.': 3.386389,
      'mbar below atm.': 0.1,
      'bar below atm.': 100,
      'psi below atm.': 6.894757,
      'kPa abs.': 101.325 - 1,
      'mbar abs.': 101.325 - 0.1,
      'bar abs.': 101.325 - 100,
      'inHg abs.': 101.325 - 3.386389,
      'Torr abs.': 101.325 - 101.325 / 760,
    },
    shown: '12.5 kPa below atm. (3.69 inHg below atm.)',
  },
  viscosityMPaS: { one: { 'mPa·s': 1, cP: 1, 'Pa·s': 1000 }, shown: '12.5 mPa·s (12.5 cP)' },
  permeabilityUm2: {
    one: { 'µm²': 1, darcy: 0.9869233, 'm²': 1e12 },
    shown: '12.5 µm² (12.7 darcy)',
  },
};

const MEASURES = Object.keys(UNITS) as Measure[];

describe('every unit', () => {
  it.each(MEASURES)('of %s is what the tables say, however it is written', (measure) => {
    const { one } = KNOWN[measure];
    expect(UNITS[measure].map(({ symbol }) => symbol)).toEqual(Object.keys(one));
    for (const { symbol, spellings } of UNITS[measure]) {
      for (const spelling of spellings) {
        const reading = readQuantity(`1 ${spelling}`, measure);
        // A bare unit of pressure is asked back: it may be meant below the air or from nothing upwards.
        const value = reading.ok ? reading.value : reading.choices?.[0]?.value;
        expect(Number(value) / one[symbol]!, spelling).toBeCloseTo(1, 6);
        expect(reading.ok || measure === 'vacuumKPa', spelling).toBe(true);
      }
    }
  });

  it.each(MEASURES)('of %s is shown with three figures, metric first', (measure) => {
    expect(formatBoth(12.5, measure)).toBe(KNOWN[measure].shown);
  });
});
