import { describe, expect, it } from 'vitest';
import type { HardenerRow, SheetRow } from '../../../app/document/schema.ts';
import { checkFigures, checkSheet, partsByVolume } from '../../../app/cure/sheet-check.ts';
import { figureFaultText } from '../../../app/cure/words.ts';
import { hardenerWith, library, practice, shippedHardeners } from './practice-rows.ts';

const row = (
  what: SheetRow['what'],
  temperatureC: number,
  minutes: number,
  more: Partial<SheetRow> = {},
): SheetRow => ({ what, temperatureC, minutes, ...more });

describe('rows that cannot be', () => {
  it.each<[string, SheetRow[], unknown[]]>([
    [
      'a gel before the pot life',
      [row('pot-life', 20, 60, { massG: 100 }), row('film-gel', 20, 40)],
      [{ fault: 'order', row: 1, against: 0 }],
    ],
    [
      'a demould before the gel',
      [row('demould', 20, 100), row('film-gel', 20, 240)],
      [{ fault: 'order', row: 0, against: 1 }],
    ],
    ['no mass', [row('pot-life', 20, 60, { massG: 0 })], [{ fault: 'no-mass', row: 0 }]],
    ['no time', [row('film-gel', 20, 0)], [{ fault: 'no-time', row: 0 }]],
    [
      '400 C',
      [row('film-gel', 400, 60)],
      [{ fault: 'temperature', row: 0, temperatureC: 400, fahrenheitC: null }],
    ],
    [
      'Fahrenheit typed as Celsius, 25 C suggested',
      [row('film-gel', 77, 60)],
      [{ fault: 'temperature', row: 0, temperatureC: 77, fahrenheitC: 25 }],
    ],
    [
      'the same step slower where it is hotter',
      [row('film-gel', 20, 100), row('film-gel', 30, 240)],
      [{ fault: 'hotter-slower', row: 1, against: 0 }],
    ],
    [
      'a heavier cup that lives longer',
      [row('pot-life', 20, 30, { massG: 100 }), row('pot-life', 20, 40, { massG: 500 })],
      [{ fault: 'heavier-longer', row: 1, against: 0 }],
    ],
    [
      'a row given twice',
      [row('film-gel', 20, 100), row('film-gel', 20, 120)],
      [{ fault: 'twice', row: 1, against: 0 }],
    ],
  ])('%s', (_name, rows, faults) => {
    expect(checkSheet(rows, practice)).toEqual(faults);
  });

  it('the same rows at other temperatures, or in other vessels, are none of them', () => {
    expect(
      checkSheet(
        [
          row('film-gel', 30, 100),
          row('demould', 40, 90),
          row('pot-life', 30, 30, { massG: 100, vessel: 'cup' }),
          row('pot-life', 30, 60, { massG: 500, vessel: 'tray' }),
          row('bond-until', 30, 80),
        ],
        practice,
      ),
    ).toEqual([]);
  });

  it.each(shippedHardeners)('none on the shipped sheet of %s', (_id, { sheet }) => {
    expect(checkSheet(sheet, practice)).toEqual([]);
  });
});

describe('figures beside the rows', () => {
  const { resins } = library;
  const resin = { ...resins[0]!, densityKgM3: 1150 };
  const mix = (more: Partial<HardenerRow>) =>
    hardenerWith([row('film-gel', 20, 60)], { partsPer100ByMass: 30, densityKgM3: 960, ...more });
  const check = (more: Partial<HardenerRow>) => checkFigures(resin, mix(more), practice);

  it('of the shipped sheets go together', () => {
    for (const one of resins) {
      for (const h of one.hardeners) expect(checkFigures(one, h, practice), h.name).toEqual([]);
    }
  });

  it('take the mix by volume from masses and densities: 30 g / 0.96 against 100 g / 1.15', () => {
    expect(partsByVolume(resin, mix({}))).toBeCloseTo(35.94, 2);
    expect(check({ partsPer100ByVolume: 36 })).toEqual([]);
    expect(check({ partsPer100ByVolume: 30 })).toMatchObject([{ fault: 'volume', found: 30 }]);
    expect(figureFaultText(check({ partsPer100ByVolume: 30 })[0]!)).toContain(
      'found 30 ml for 100 ml, but mass and densities give 35.9 ml',
    );
    // One of a hundred, rounded to whole millilitres.
    expect(check({ partsPer100ByMass: 1, partsPer100ByVolume: 1.5 })).toEqual([]);
  });

  it('typed in Fahrenheit are told from Celsius', () => {
    expect(check({ tgFullC: 176 })).toMatchObject([{ fault: 'tg', fahrenheitC: 80 }]);
    expect(figureFaultText(check({ tgFullC: 176 })[0]!)).toContain('176 °F would be 80 °C');
    const postCure = [
      { temperatureC: 50, hours: 8 },
      { temperatureC: 140, hours: 8 },
    ];
    expect(check({ tgFullC: 82, postCure })).toMatchObject([
      { fault: 'post-cure', step: 1, fahrenheitC: 60 },
    ]);
    expect(check({ tgFullC: 120, postCure })).toEqual([]);
  });
});
