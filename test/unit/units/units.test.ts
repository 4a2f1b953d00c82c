import { describe, expect, it } from 'vitest';
import { sayBoth, sayCustomary } from '../../../app/units/convert.ts';
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
    ['3/4', 'lengthMm', 'not'],
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
    ['27 inHg', 'pressureKPa', 91.432503],
    ['0.9 bar', 'pressureKPa', 90],
    ['300 cps', 'viscosityMPaS', 300],
    ['1e-9', 'permeabilityUm2', 'not'],
    ['300 darcy', 'permeabilityUm2', 296.07699],
    ['180 Btu/lb', 'heatJG', 418.68],
  ] as const)('%s as %s', (text, measure, expected) => {
    const got = value(text, measure);
    if (expected === 'not') expect(got).toMatch(/not/);
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

describe('a temperature out of range', () => {
  it('that Fahrenheit would explain is asked back, with what was meant', () => {
    expect(readQuantity('72', 'temperatureC', { min: 0, max: 60 })).toEqual({
      ok: false,
      why:
        '"72" is outside what is allowed: 0 °C (32 °F) to 60 °C (140 °F). ' +
        'Did you mean °F? 72 °F would be 22.2 °C.',
      meant: 22.2,
    });
  });

  it('is refused alone where no scale makes it fit, or a scale was written', () => {
    for (const text of ['400', '72 C', '200 F']) {
      const reading = readQuantity(text, 'temperatureC', { min: 0, max: 60 });
      expect(reading).not.toHaveProperty('meant');
      expect(!reading.ok && reading.why).not.toContain('Did you mean');
    }
  });
});

describe('a shown figure', () => {
  it('stands in both systems', () => {
    expect(sayBoth(20, 'temperatureC')).toBe('20 °C (68 °F)');
    expect(sayBoth(2.4, 'areaM2')).toBe('2.4 m² (25.8 ft²)');
    expect(sayBoth(4.5, 'massKg')).toBe('4.5 kg (9.92 lb)');
    expect(sayCustomary(25, 'minutes')).toBeNull();
  });

  it.each(['areaM2', 'lengthM', 'lengthMm', 'massKg', 'massG', 'arealGM2'] as const)(
    'reads back as itself within the figures shown: %s',
    (measure) => {
      for (const size of [0.37, 4.2, 61, 240]) {
        const back = value(sayCustomary(size, measure)!, measure);
        expect(Math.abs(Number(back) - size) / size).toBeLessThan(0.02);
      }
    },
  );
});
