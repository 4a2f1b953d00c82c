import { describe, expect, it } from 'vitest';
import { bagStack } from '../../../app/part/bag-stack.ts';
import { clothUses, cutList } from '../../../app/part/cuts.ts';
import { learnedRate, learnedRates } from '../../../app/part/learn.ts';
import { lighterOptions } from '../../../app/part/lighter.ts';
import { measurePart } from '../../../app/part/measure.ts';
import { orderCsv, orderLines } from '../../../app/part/order.ts';
import type { KitLine } from '../../../app/part/types.ts';
import { buildSchema } from '../../../app/document/schema.ts';
import { build, library, zone } from './fixtures.ts';

const strips = {
  widthMm: 60,
  plies: [
    { cloth: 'carbon-twill-200', angleDeg: 45 },
    { cloth: 'carbon-twill-200', angleDeg: -45 },
  ],
};

describe('the ply book', () => {
  const two = [
    zone({ id: 'a', name: 'A', closeout: strips }),
    zone({ id: 'b', name: 'B', areaM2: 2 }),
  ];
  const book = cutList(build(two), library);

  it('numbers plies in the order of laying', () => {
    expect(book.map((cut) => [cut.number, cut.layup, cut.zoneName, cut.face])).toEqual([
      [1, 'skin', 'A', 'mould side'],
      [2, 'skin', 'B', 'mould side'],
      [3, 'inner', 'A', 'bag side'],
      [4, 'inner', 'B', 'bag side'],
      [5, 'closeout', 'A', 'bag side'],
      [6, 'closeout', 'A', 'bag side'],
    ]);
  });

  it('overlaps and staggers only plies in more than one piece', () => {
    const [one, wide] = book;
    expect(one).toMatchObject({ overlapMm: 0, staggerMm: 0 });
    expect(wide!.pieces.length).toBe(2);
    expect(wide).toMatchObject({ overlapMm: 25, staggerMm: 0 });
    expect(book[3]).toMatchObject({ overlapMm: 25, staggerMm: 75 });
  });

  it('cuts to the run past the trim line, and says when the size was guessed', () => {
    expect(book[0]!.sizeMm).toEqual([1070, 1070]);
    expect(book[0]!.sizeAssumed).toBe(true);
    const [sized] = cutList(build([zone({ sizeM: [2, 0.5] })]), library);
    expect(sized).toMatchObject({ sizeMm: [2070, 570], sizeAssumed: false });
  });

  it('takes more of the roll on the bias', () => {
    const used = (angleDeg: number): number =>
      clothUses(
        cutList(
          build([zone({ outer: [{ cloth: 'carbon-twill-200', angleDeg }], inner: [] })]),
          library,
        ),
      )[0]!.lengthMm;
    expect(used(45)).toBeGreaterThan(used(0) * 1.2);
    expect(used(90)).toBeCloseTo(used(0), 9);
  });

  it('finds cloth for whatever is asked, a closeout wider than the roll or a hall', () => {
    const wide = { widthMm: 1500, plies: strips.plies };
    const huge = [
      zone({ areaM2: 1000, edgeM: 1000, closeout: strips, outer: strips.plies }),
      zone({ id: 'b', closeout: wide }),
    ];
    const cuts = cutList(build(huge), library);
    for (const { pieces } of cuts) expect(pieces.length).toBeGreaterThan(0);
    const [use] = clothUses(cuts);
    const laidM2 = 2 * 1000 + 1000 + 1 + 1 + 4 * 1.5 * 2 + 1000 * 0.06 * 2;
    expect((use!.lengthMm * 1.27) / 1000).toBeGreaterThan(laidM2);
    expect((use!.lengthMm * 1.27) / 1000).toBeLessThan(laidM2 * 1.6);
  });

  it('refuses sizes that no shop has as a slip of the unit', () => {
    const slip = structuredClone(build([zone()]));
    slip.part.zones[0]!.areaM2 = 2_000_000;
    expect(buildSchema.safeParse(slip).error?.issues[0]?.path.join('.')).toBe(
      'part.zones.0.areaM2',
    );
  });

  it('cuts a long narrow zone on the bias in lanes, not in bands', () => {
    const outer = [{ cloth: 'carbon-twill-200', angleDeg: 45 }];
    const [cut] = cutList(build([zone({ sizeM: [3, 0.3], outer, inner: [] })]), library);
    expect(cut!.laneDeg).toBe(45);
    const laid = cut!.pieces.reduce((sum, piece) => sum + piece.alongMm, 0);
    expect(laid - (cut!.pieces.length - 1) * 25).toBeCloseTo(3070, 6);
  });
});

describe('the bag stack', () => {
  const full = build([
    zone({ closeout: strips, local: [{ cloth: 'carbon-twill-200', place: 'between' }] }),
  ]);
  const part = measurePart(full, library);

  it('lies on mould, release and what is cured below', () => {
    const stack = bagStack(full, library, part, ['core', 'inner']);
    expect(stack.layers.map((layer) => layer.kind)).toEqual([
      'mould',
      'release',
      'cured',
      'cured',
      'core',
      'ply',
      'peel-ply',
      'film',
      'breather',
      'bag',
    ]);
    expect(stack.layers.find((layer) => layer.kind === 'ply')!.plies).toEqual([3]);
  });

  it('over an edge it lies on the trimmed part, and is small', () => {
    const stack = bagStack(full, library, part, ['closeout']);
    expect(stack.layers[0]).toMatchObject({ kind: 'cured', name: 'Trimmed part, prepared' });
    expect(stack.areaM2).toBeCloseTo(0.24, 9);
    expect(stack.ports).toBe(1);
  });

  it('has a port for every two square metres', () => {
    const wide = build([zone({ areaM2: 5 })]);
    expect(bagStack(wide, library, measurePart(wide, library), ['skin']).ports).toBe(3);
  });
});

describe('orders', () => {
  const line = (changes: Partial<KitLine>): KitLine => ({
    id: 'x',
    name: 'X',
    group: 'consumable',
    quantity: 5,
    unit: 'kg',
    costMinor: 1000,
    leadDays: 3,
    supplier: null,
    provenance: { kind: 'demo', source: 'invented' },
    step: 1,
    ...changes,
  });
  const order = (changes: Partial<KitLine>, held: number, day: string | null = '2027-05-13') =>
    orderLines([line(changes)], [{ row: 'x', quantity: held }], () => day, '2027-05-01')[0]!;

  it('come to what the shelf lacks, in what can be bought', () => {
    expect(order({}, 1.5)).toMatchObject({ toOrder: 4, inStock: 1.5, costMinor: 800 });
    expect(order({}, 9)).toMatchObject({ toOrder: 0, costMinor: 0, orderBy: null });
  });

  it('go out the lead time before, on a working day', () => {
    expect(order({}, 0).orderBy).toBe('2027-05-10');
    // Thursday less 4 days is a Sunday: Friday.
    expect(order({ leadDays: 4 }, 0).orderBy).toBe('2027-05-07');
    expect(order({ leadDays: 5 }, 0).orderBy).toBe('2027-05-07');
    expect(order({}, 0, null).orderBy).toBeNull();
    expect(order({ leadDays: 14 }, 0)).toMatchObject({ orderBy: '2027-04-29', late: true });
    // Over the end of a February with a leap day.
    expect(order({ leadDays: 5 }, 0, '2028-03-04').orderBy).toBe('2028-02-28');
  });

  it('refuse a shelf of less than nothing, in the list and in the document', () => {
    expect(() => order({}, -1)).toThrow('stock of x: found -1, expected 0 or more');
    const document = { ...structuredClone(build([zone()])), stock: [{ row: 'x', quantity: -1 }] };
    expect(buildSchema.safeParse(document).success).toBe(false);
  });

  it('print as CSV with both unit systems and nothing a spreadsheet would run', () => {
    const orders = orderLines(
      [
        line({ id: 'a', name: '=HYPERLINK("x")', quantity: 4.5359237 }),
        line({ id: 'b', name: 'Cups, "small"', unit: 'piece', quantity: 3 }),
      ],
      [],
      () => null,
      '2027-05-01',
    );
    const rows = orderCsv(orders, 'JPY').split('\r\n');
    expect(rows).toHaveLength(4);
    expect(rows[1]).toContain(`"'=HYPERLINK(""x"")"`);
    expect(rows[1]).toContain(',4.54,kg,10.00,lb,');
    expect(rows[2]).toContain('"Cups, ""small""",consumable,3.00,piece,,,');
    expect(rows[2]).toMatch(/,1000,$/);
    expect(orderCsv(orders, 'EUR', { separator: ';', decimal: ',' })).toContain(
      ';4,54;kg;10,00;lb;',
    );
  });
});

describe('rates that learn', () => {
  const row = library.labour.find((one) => one.id === 'trim')!;
  const worked = (ratio: number, count: number) =>
    Array.from({ length: count }, () => ({ plannedMinutes: 100, workedMinutes: 100 * ratio }));

  it('leave the table alone without records', () => {
    expect(learnedRate(row, 'one', [], 3)).toMatchObject({ factor: 1, row });
  });

  it('move towards what was worked, the further the more records there are', () => {
    const factor = (count: number): number => learnedRate(row, 'one', worked(2, count), 3).factor;
    expect(factor(3)).toBeCloseTo(Math.SQRT2, 9);
    expect(factor(1)).toBeLessThan(factor(3));
    expect(factor(60)).toBeGreaterThan(1.9);
    const learned = learnedRate(row, 'one', worked(2, 3), 3).row;
    expect(learned.minutesPerEdgeM).toBeCloseTo(row.minutesPerEdgeM * Math.SQRT2, 9);
    expect(learned).toMatchObject({ provenance: { kind: 'measured' }, revision: row.revision + 1 });
  });

  it('go to the row that the stage was planned by', () => {
    const finished = (stage: string, kind: 'layup' | 'trim') => ({
      stage,
      kind,
      plannedMinutes: 60,
      workedMinutes: 90,
    });
    const rates = learnedRates(library, 'one', [
      finished('layup:skin', 'layup'),
      finished('layup:core', 'layup'),
      finished('layup:closeout', 'layup'),
      finished('trim', 'trim'),
    ]);
    expect(rates.map((rate) => [rate.row.id, rate.records])).toEqual([
      ['layup', 1],
      ['layup-core', 1],
      ['layup-strips', 1],
      ['trim', 1],
    ]);
  });

  it('are not thrown by one slip, by zeros, or by work that scatters without leaning', () => {
    expect(learnedRate(row, 'one', worked(1000, 1), 3).factor).toBeLessThan(1.5);
    expect(learnedRate(row, 'one', worked(0, 5), 3)).toMatchObject({ factor: 1, records: 0 });
    const scattered = learnedRate(row, 'one', [...worked(2, 10), ...worked(0.5, 10)], 3);
    expect(scattered.factor).toBeCloseTo(1, 9);
    expect(scattered.spread).toBeGreaterThan(row.spread);
  });
});

describe('what would be lighter', () => {
  const heavy = build([
    zone({
      outer: [{ cloth: 'carbon-twill-200' }, { cloth: 'carbon-twill-200', angleDeg: 45 }],
      core: { material: 'pvc-80', thicknessMm: 10, treatment: 'scored' },
    }),
  ]);
  const options = new Map(
    lighterOptions(heavy, library, 3, 8).map((option) => [option.id, option]),
  );

  it('saves what the other build weighs less', () => {
    const drilled = options.get('core-drilled')!;
    expect(drilled.massKg).toBeCloseTo((190 - 430) / 1000, 9);
    expect(drilled.stiffness).toBeCloseTo(1, 9);
    for (const option of options.values()) {
      if (!option.build) continue;
      const saved =
        measurePart(option.build, library).countedMassKg -
        measurePart(heavy, library).countedMassKg;
      expect(option.massKg).toBeCloseTo(saved, 9);
    }
  });

  it('lists the greatest saving first, and never a heavier part', () => {
    const masses = [...options.values()].map((option) => option.massKg);
    expect(masses).toEqual(masses.toSorted((a, b) => a - b));
    expect(Math.max(...masses)).toBeLessThan(0);
  });

  it('says what stiffness a thinner core or a ply less costs', () => {
    expect(options.get('core-thinner')!.stiffness).toBeLessThan(0.75);
    expect(options.get('fewer-outer')!.stiffness).toBeLessThan(0.9);
    expect(options.get('film-wet-out')!).toMatchObject({ build: null });
    expect(options.get('film-wet-out')!.personMinutes).toBeGreaterThan(0);
  });

  it('keeps cores out that could not do the job', () => {
    expect(options.has('core-pvc-60')).toBe(true);
    expect(options.has('core-eps-20')).toBe(false);
    const hot = build([zone()], { part: { zones: [], serviceMaxC: 72 } });
    expect(lighterOptions(hot, library, 3, 8).map((option) => option.id)).not.toContain(
      'core-pvc-60',
    );
  });
});
