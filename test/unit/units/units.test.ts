import { describe, expect, it } from 'vitest';
import { formatBoth, formatCustomary, type Measure } from '../../../app/units/convert.ts';
import { readQuantity } from '../../../app/units/read.ts';

const value = (text: string, measure: Parameters<typeof readQuantity>[1]) => {
  const reading = readQuantity(text, measure);
  return reading.ok ? reading.value : reading.why;
};

describe('a typed figure', () => {
  // NIST SP 811 (2008), appendix B: 1 lb = 4.535 923 7 E-01 kg, 1 ft2 = 9.290 304 E-02 m2,
  // 1 in = 2.54 E-02 m; t/C = (t/F - 32)/1.8. Factors from memory, exact by definition.
  it.each([
    ['5 lb', 'massKg', 2.26796185],
    ['2 ft2', 'areaM2', 0.18580608],
    ['2 sq ft', 'areaM2', 0.18580608],
    ['0.5in', 'lengthMm', 12.7],
    ['1/8 in', 'lengthMm', 3.175],
    ['1 1/2 in', 'lengthMm', 38.1],
    ['1-1/2 inch', 'lengthMm', 38.1],
    ['1½"', 'lengthMm', 38.1],
    ['3/16"', 'lengthMm', 4.7625],
    [`5'6"`, 'lengthM', 1.6764],
    ['5 ft 6 in', 'lengthM', 1.6764],
    ['5′ 6 1/2″', 'lengthM', 1.6891],
    [`5'6`, 'lengthMm', 1676.4],
    [`-2'6"`, 'lengthMm', -762],
    ['3/4', 'areaM2', 0.75],
    ['1 5/4 in', 'lengthMm', 'not'],
    ['1/0 in', 'lengthMm', 'not'],
    [`5'13"`, 'lengthM', 'fewer than 12 in'],
    ['2 lb 3 oz', 'massKg', 0.99223330938],
    ['6 oz', 'arealGM2', 203.434484849],
    ['50 mbar abs', 'vacuumKPa', 96.325],
    ['28 inHg below atmosphere', 'vacuumKPa', 94.818892],
    ['5 mmHg', 'vacuumKPa', 'not'],
    ['68 F', 'temperatureC', 20],
    ['-40 °F', 'temperatureC', -40],
    ['350 f', 'temperatureC', 176.666666667],
    ['18', 'temperatureC', 18],
    ['0,8', 'areaM2', 0.8],
    ['1 200 g', 'massKg', 1.2],
    ['2 h 30', 'minutes', 150],
    ['1:30', 'hours', 1.5],
    ['90 min', 'hours', 1.5],
    ['\u22125', 'temperatureC', -5],
    // 1 gal = 231 in3 exactly; 1 inHg = 3.386 389 kPa, 1 cP = 1 mPa s: NIST SP 811.
    ['9.6 lb/gal', 'densityKgM3', 1150.33370224],
    ['1.15 g/cm3', 'densityKgM3', 1150],
    ['27 inHg', 'vacuumKPa', 91.432503],
    ['0.9 bar', 'vacuumKPa', 90],
    ['300 cps', 'viscosityMPaS', 300],
    ['1e-9', 'permeabilityUm2', 'not'],
    ['300 darcy', 'permeabilityUm2', 296.07699],
    ['180 Btu/lb', 'heatJG', 418.68],
  ] as const)('%s as %s', (text, measure, expected) => {
    const got = value(text, measure);
    if (typeof expected === 'string') expect(got).toContain(expected);
    else expect(got).toBeCloseTo(expected, 8);
  });

  it('asks back where a comma could mark thousands or decimals', () => {
    expect(value('1,234', 'massG')).toContain('1234 or 1.234');
  });

  it('is refused with the allowed range in both units, never clamped', () => {
    const reading = readQuantity('200', 'temperatureC', { min: -10, max: 45 });
    expect(reading).toEqual({
      ok: false,
      why: '"200" is outside what is allowed: −10 °C (14 °F) to 45 °C (113 °F).',
    });
    expect(readQuantity('', 'areaM2', { above: 0 }).ok).toBe(false);
    expect(readQuantity('0', 'areaM2', { above: 0 }).ok).toBe(false);
    expect(readQuantity('2.5', 'count', { min: 1, whole: true }).ok).toBe(false);
  });

  it('refuses a unit of another measure and names those that fit', () => {
    expect(value('5 kg', 'temperatureC')).toContain('°C, °F');
  });
});

describe('what can be read two ways is asked back', () => {
  const choices = (text: string, measure: Measure, limits = {}) => {
    const reading = readQuantity(text, measure, limits);
    return reading.ok ? reading.value : (reading.choices ?? []).map(({ label }) => label);
  };
  it.each([
    ['3/4', 'lengthMm', ['3/4 in = 19.1 mm', '3/4 mm = 0.75 mm']],
    ['1 1/2', 'lengthM', ['1 1/2 in = 0.0381 m', '1 1/2 m = 1.5 m']],
    ['1,234', 'massG', ['1234 = 1234 g', '1.234 = 1.23 g']],
    ['1,234 kg', 'massG', ['1234 kg = 1234000 g', '1.234 kg = 1234 g']],
    ['1.5 oz', 'arealGM2', ['1.5 oz/yd² = 50.9 g/m²', '1.5 oz/ft² = 458 g/m²']],
    [
      '50 mbar',
      'vacuumKPa',
      ['50 mbar below atm. = 5 kPa below atm.', '50 mbar abs. = 96.3 kPa below atm.'],
    ],
    ['900 mbar', 'vacuumKPa', 90],
  ] as const)('%s as %s', (text, measure, expected) => {
    expect(choices(text, measure)).toEqual(expected);
  });

  it('in a sentence that ends with one full stop', () => {
    const reading = readQuantity('20 kPa', 'vacuumKPa');
    expect(reading).toMatchObject({
      ok: false,
      why: '"20 kPa" can be read two ways: write 20 kPa below atm. or 20 kPa abs.',
    });
  });

  it('and only readings within the range are offered', () => {
    expect(choices('1/2', 'lengthMm', { min: 5, max: 50 })).toEqual(['1/2 in = 12.7 mm']);
  });

  it('the same value comes of the choice as of its words', () => {
    for (const [text, measure] of [
      ['3/4', 'lengthMm'],
      ['2 oz', 'arealGM2'],
      ['20 mbar', 'vacuumKPa'],
    ] as const) {
      const reading = readQuantity(text, measure);
      if (reading.ok) throw new Error('was read');
      expect(reading.choices).toHaveLength(2);
      for (const { label, value: meant } of reading.choices!) {
        expect(value(label.split(' = ')[0]!, measure)).toBe(meant);
      }
    }
  });
});

describe('a temperature out of range', () => {
  it('that Fahrenheit would explain is asked back, with what was meant', () => {
    expect(readQuantity('72', 'temperatureC', { min: 0, max: 60 })).toEqual({
      ok: false,
      why:
        '"72" is outside what is allowed: 0 °C (32 °F) to 60 °C (140 °F). ' +
        'Did you mean °F? 72 °F would be 22.2 °C.',
      choices: [{ label: '72 °F = 22.2 °C', value: 22.2 }],
    });
  });

  it('is refused alone where no scale makes it fit, or a scale was written', () => {
    for (const text of ['400', '72 C', '200 F']) {
      const reading = readQuantity(text, 'temperatureC', { min: 0, max: 60 });
      expect(reading).not.toHaveProperty('choices');
      expect(!reading.ok && reading.why).not.toContain('Did you mean');
    }
  });
});

describe('a shown figure', () => {
  it('stands in both systems', () => {
    expect(formatBoth(20, 'temperatureC')).toBe('20 °C (68 °F)');
    expect(formatBoth(2.4, 'areaM2')).toBe('2.4 m² (25.8 ft²)');
    expect(formatBoth(4.5, 'massKg')).toBe('4.5 kg (9.92 lb)');
    expect(formatCustomary(25, 'minutes')).toBeNull();
  });

  it.each(['areaM2', 'lengthM', 'lengthMm', 'massKg', 'massG', 'arealGM2'] as const)(
    'reads back as itself within the figures shown: %s',
    (measure) => {
      for (const size of [0.37, 4.2, 61, 240]) {
        const back = value(formatCustomary(size, measure)!, measure);
        expect(Math.abs(Number(back) - size) / size).toBeLessThan(0.02);
      }
    },
  );
});
