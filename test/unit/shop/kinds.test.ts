/** Every kind of sheet says what the shop reads from it; a kind without words here does not compile. */
import { describe, expect, it } from 'vitest';
import { SHEET_KINDS, type SheetKind } from '../../../app/shop/parts.ts';
import { SHEETS } from '../../../app/shop/packs.ts';
import { buildSheets } from '../../support/sheets.ts';
import { textOf } from '../../../app/shop/tree.ts';
import { handMadeOutcome } from './outcome.ts';

const outcome = handMadeOutcome();

/** The chooser's name, the ids of its sheets in the plan made by hand, and lines of the first of them. */
const PRINTED: Readonly<
  Record<SheetKind, { name: string; ids: readonly string[]; lines: readonly string[] }>
> = {
  week: {
    name: 'Weeks',
    ids: ['week-2027-03-25', 'week-2027-03-29', 'week-2027-04-05'],
    lines: [
      'Week 1 of 3: Thu 25 Mar to Sunday 28 March 2027 Unveiling Fri 9 Apr 18:00.',
      '1 13:00–16:00 Release coats, Iva',
      'gel 19:20–22:40',
      '◆ 11:40 Bag down by: Outer skin',
      'Outer skin: gel Fri 26 Mar 19:20 to 22:40 (nobody in the shop for all or some of it); off from Sun 28 Mar 06:00; taken off Mon 29 Mar 07:30',
      '▲ Fri 26 08:00 Lay up outer skin (none)',
    ],
  },
  shopping: {
    name: 'Shopping list',
    ids: ['shopping-list'],
    lines: [
      // One ply of 45° on a roll of 1250 mm takes more than its area, and 0.25 m2 are over for a repair:
      // 9.5 m x 1.25 m = 11.88 m2.
      'Glass 2/2 twill 300 g/m2 , 9.5 m off a roll 1250 mm wide 11.88 m² 11.88 m² (127.8 ft²)',
      'PVC foam 80 kg/m3, 10 mm , 3 sheets of 1000 x 1220 mm 3.66 m² 3.66 m² (39.4 ft²)',
      'Orrin 40 hardener, slow , 0.260 kg on the mix cards, 0.390 kg over 0.65 kg 0.65 kg (1.4 lb)',
    ],
  },
  holds: {
    name: 'Hold points',
    ids: ['holds'],
    lines: [
      '2 Fri 26 Mar 11:40 Bag down: Outer skin Full vacuum; lose 40 mbar in 5 min at most',
      '6 Tue 30 Mar 15:00 Colour signed? Answered in writing, signed by the client',
      'Weighed, photographed, wrapped, cradle on; bake 60 °C agreed in writing',
      '9 Wed 7 Apr 17:00 Weigh after: Saltmarsh Paint, 3 working days Expected 8.40 kg, painted',
      '10 Fri 9 Apr 18:00 Unveiling Part clean, fixed, covered',
    ],
  },
  plies: {
    name: 'Ply book',
    ids: ['ply-book'],
    lines: [
      'Mark the 0 line on the mould before the first ply.',
      // The side of a square of 2.4 m2 is 1549 mm, with 35 mm of run past the trim line at each edge.
      '2 Outer skin Zone 1 Glass 2/2 twill 300 g/m2 +45° mould 1619 × 1619',
      '3 Inner skin Zone 1 Glass 2/2 twill 300 g/m2 0° bag 1619 × 1619',
    ],
  },
  bags: {
    name: 'Bag stacks',
    ids: ['bag-stacks'],
    lines: [
      'Glass 2/2 twill 300 g/m2, 45°: ply 2',
      'Ports: 2, gauge away from them',
      'Tape: 10.1 m, pleats at the corners',
    ],
  },
  day: {
    name: 'Days',
    ids: [25, 26, 27, 28, 29, 30, 31].map((day) => `day-2027-03-${day}`),
    lines: ['13:00–16:00', 'Release coats', 'Iva'],
  },
  go: {
    name: 'Go or no-go',
    ids: ['go-skin'],
    lines: [
      'First mix Fri 26 Mar 08:00. All ticked, or nobody mixes.',
      'Plies counted: 2 pieces, numbers 1, 2 of the ply book; dry, in order, 0 line marked',
      'Bag goes down by 11:40 Fri 26 Mar: everyone knows the time',
      'Humidity under 68 %; coldest spot of the mould 18 °C or more',
      'Resin weighed into 3 cups; hardener not',
    ],
  },
  mix: {
    name: 'Mix cards',
    ids: ['mix-skin'],
    lines: [
      '1 08:00 09:35 333.4 g Outer skin 420.1 418.4 and 421.8\u00a0g',
      'Together 1000.2 g 1260.3 g',
    ],
  },
  cure: {
    name: 'Cure cards',
    ids: ['cure-skin'],
    lines: [
      'Bag down by 11:40 Fri 26 Mar real',
      '19:20 Gel from here on: try the smear. Nobody in the shop',
      '22:40 Latest gel. Nobody in the shop: pump, logger and alarm stay on; smear read Mon 29 Mar 07:30',
    ],
  },
  painter: {
    name: 'Painter’s handover',
    ids: ['painter-outside-1'],
    lines: [
      'In Mon 5 Apr 08:00, back Wed 7 Apr 17:00.',
      'Bake asked for 60 °C Hottest in service 50 °C',
      'No silicone near this part. Ask before any bake: no proven temperature yet.',
    ],
  },
};

describe('every kind of sheet', () => {
  it.each(SHEET_KINDS)('%s is chosen by its name and prints its lines', (kind) => {
    const { name, ids, lines } = PRINTED[kind];
    expect(SHEETS[kind].name).toBe(name);
    const { sheets } = buildSheets(outcome, kind);
    expect(sheets.map((sheet) => sheet.id)).toEqual(ids);
    for (const line of lines) expect(textOf(sheets[0]!.body)).toContain(line);
  });
});
