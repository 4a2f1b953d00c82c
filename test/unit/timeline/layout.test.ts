import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { GRAINS, type Grain } from '../../../app/timeline/captions.ts';
import { insideX } from '../../../app/timeline/boxes.ts';
import { placeInLines } from '../../../app/timeline/inLine.ts';
import type { TimelineItem, TimelineRow } from '../../../app/timeline/items.ts';
import { layoutTimeline, type TimelineLayout } from '../../../app/timeline/layout.ts';
import type { RowId } from '../../../app/timeline/rows.ts';
import { timeScale } from '../../../app/timeline/scale.ts';
import { forAll, tally } from '../../support/draws.ts';
import { captionsOf, clashes } from '../../support/timeline-boxes.ts';

const DAYS = 30;
const world = { start: 0, end: DAYS * 1440, folds: [], stripPx: 26 };
const measure = (text: string, bold: boolean): number => text.length * (bold ? 7 : 6.5);
const ROWS: readonly RowId[] = ['ready', 'skin', 'core', 'inner', 'fair'];

const captionOf = (texts: readonly string[], worth: number) => ({ texts, worth });

function itemOf(
  id: string,
  span: { readonly start: number; readonly minutes: number },
  name: string,
  more: Partial<TimelineItem> = {},
): TimelineItem {
  const { start } = span;
  const end = Math.min(start + span.minutes, world.end);
  const worth = more.critical ? 65 : 50;
  const texts = captionOf([`08:00 ${name}`, name], worth);
  return {
    ...{ id, name, start, end, type: 'work', kind: 'trim', rows: ['ready'], spoken: name },
    ...{ stretches: [{ start, end }], latestStart: null, floatHours: 12, critical: false },
    course: 'to-come',
    ...{ pinned: false, minor: false, shape: null, starts: null },
    captions: { whole: texts, week: texts, day: texts },
    ...more,
  };
}

function cureOf(id: string, start: number, rows: readonly RowId[]): TimelineItem {
  const gel = Math.min(start + 300, world.end - 1);
  const off = Math.min(start + 1500, world.end);
  const batches = [
    { number: 1, start, end: start + 40, words: ['cup 1: mix 08:00, use by 08:40', '08:00'] },
    { number: 2, start: start + 50, end: start + 90, words: ['cup 2: mix 08:50'] },
  ];
  const shape = {
    ...{ open: { start, end: gel }, gelled: { start: gel, end: off }, off, batches },
    ...{ untilSandable: off + 200, bagBy: start + 200, infused: false },
  };
  return itemOf(id, { start, minutes: 1400 }, 'mix 08:00, bag by 11:00', {
    ...{ type: 'cure', kind: 'cure', rows, shape },
  });
}

const rowOf = (id: RowId, items: readonly TimelineItem[]): TimelineRow => ({
  row: { id, title: id, under: '', material: null, joint: null },
  items: items.map((item) => (item.shape ? item : { ...item, rows: [id] })),
});

const anyItem = fc.record({
  start: fc.integer({ min: 0, max: world.end - 1 }),
  minutes: fc.integer({ min: 0, max: 5000 }),
  name: fc.string({ minLength: 1, maxLength: 40 }),
});
const anyRow = fc.array(anyItem, { maxLength: 30 });
const anyPart = fc
  .tuple(
    fc.array(anyRow, { minLength: ROWS.length, maxLength: ROWS.length }),
    fc.integer({ min: 0, max: world.end - 3000 }),
    fc.boolean(),
  )
  .map(([lists, cured, merged]): TimelineRow[] =>
    lists.map((list, i) => {
      const items = list.map((one, j) =>
        itemOf(`${i}.${j}`, one, one.name, { critical: j === 3, minor: j === 4 }),
      );
      const cures =
        ROWS[i] === 'skin'
          ? [cureOf('cure:skin', cured, merged ? ['skin', 'core'] : ['skin'])]
          : ROWS[i] === 'inner'
            ? [cureOf('cure:inner', cured + 1500, ['inner'])]
            : [];
      return rowOf(ROWS[i]!, [...items, ...cures]);
    }),
  );

const anyView = fc.record({
  rows: anyPart,
  width: fc.integer({ min: 300, max: 40_000 }),
  grain: fc.constantFrom<Grain>(...GRAINS),
  unit: fc.constantFrom(1, 2),
});
type View = typeof anyView extends fc.Arbitrary<infer T> ? T : never;
const layoutOf = ({ rows, width, grain, unit }: View): TimelineLayout =>
  layoutTimeline(rows, {
    ...{ scale: timeScale(world, width / world.end), grain, measure, unit },
    ...{ zone: 'UTC', selected: null },
  });

describe('placing bars and words', () => {
  test('no bar and no words cover what is not theirs, at any grain and size of text', () => {
    const seen = tally('words', 'merged', 'cups');
    forAll(
      fc.property(anyView, (view) => {
        const { rows } = layoutOf(view);
        expect(clashes(rows)).toEqual([]);
        for (const { what } of captionsOf(rows))
          seen.saw(what.startsWith('cup') ? 'cups' : 'words');
        if (rows.some(({ items }) => items.some(({ item }) => item.rows.length > 1))) {
          seen.saw('merged');
        }
      }),
      { seed: 1, seen },
    );
  });

  test('every stage has its bar, and no words reach out of the drawing', () => {
    forAll(
      fc.property(anyView, (view) => {
        const { rows } = layoutOf(view);
        const ids = (list: readonly string[]) => [...list].sort();
        expect(ids(rows.flatMap(({ items }) => items.map(({ item }) => item.id)))).toEqual(
          ids(view.rows.flatMap(({ items }) => items.map(({ id }) => id))),
        );
        for (const caption of captionsOf(rows)) {
          expect(caption.x).toBeGreaterThanOrEqual(0);
          expect(caption.x + caption.width).toBeLessThanOrEqual(view.width + 1);
        }
      }),
      { seed: 2 },
    );
  });

  test('rows follow without a gap, and what begins in a row stays in the rows of its bag', () => {
    forAll(
      fc.property(anyView, (view) => {
        const { rows, height } = layoutOf(view);
        let y = 0;
        for (const row of rows) {
          expect(row.y).toBeCloseTo(y);
          y += row.height;
          for (const { item, box } of row.items) {
            const last = rows.find(({ row: one }) => one.id === item.rows.at(-1))!;
            expect(box.y).toBeGreaterThanOrEqual(row.y);
            expect(box.y + box.height).toBeLessThanOrEqual(last.y + last.height + 0.001);
          }
        }
        expect(height).toBeCloseTo(y);
      }),
      { seed: 3 },
    );
  });
});

describe('words give way in order of worth', () => {
  const only = (rows: TimelineRow[], selected: string | null, width = 900) =>
    layoutTimeline(rows, {
      ...{ scale: timeScale(world, width / world.end), grain: 'whole', measure, unit: 1 },
      ...{ zone: 'UTC', selected },
    });
  const crowd = (selected: string | null) =>
    only(
      [
        rowOf('ready', [
          itemOf('plain', { start: 20_000, minutes: 60 }, 'A long name of a stage'),
          itemOf('sharp', { start: 20_400, minutes: 60 }, 'Another long name', { critical: true }),
          itemOf('left', { start: 14_000, minutes: 60 }, 'In the way on the left'),
        ]),
      ],
      selected,
    );
  const textOf = (layout: TimelineLayout, id: string) =>
    layout.rows[0]!.items.find(({ item }) => item.id === id)!.caption?.text ?? null;

  test('where one must go, the critical one stays', () => {
    expect(textOf(crowd(null), 'sharp')).toBe('08:00 Another long name');
    expect(textOf(crowd(null), 'plain')).toBeNull();
  });

  test('what a person has picked is named before all else', () => {
    expect(textOf(crowd('plain'), 'plain')).toBe('A long name of a stage');
    // Its neighbour is in the way: the words stand beyond it.
    const [, plain, sharp] = crowd('plain').rows[0]!.items;
    expect(plain!.caption!.x).toBeGreaterThan(sharp!.box.x + sharp!.box.width);
    expect(sharp!.caption?.text).not.toBe('A long name of a stage');
  });

  test('where the fullest words find no room, fewer are taken', () => {
    const layout = only(
      [rowOf('ready', [itemOf('one', { start: 20_000, minutes: 60 }, 'Trim to line')])],
      null,
      // 12 letters fit beside the bar, 18 do not.
      200,
    );
    expect(textOf(layout, 'one')).toBe('Trim to line');
  });

  test('one bag over two layups is one block through both rows', () => {
    const { rows } = only(
      [rowOf('skin', [cureOf('cure:skin', 1000, ['skin', 'core'])]), rowOf('core', [])],
      null,
    );
    const [skin, core] = rows;
    const { box } = skin!.items[0]!;
    expect(box.y).toBeGreaterThan(skin!.y);
    expect(box.y + box.height).toBeGreaterThan(core!.y + core!.height / 2);
  });
});

describe('words inside a wide shape', () => {
  const shape = { x: 100, y: 0, width: 400, height: 20 };
  const caption = { text: '', x: 105, y: 0, width: 80, height: 16, inside: true, bold: false };

  test('stay in the window while their shape does, and never leave the shape', () => {
    expect(insideX(caption, shape, 0)).toBe(105);
    expect(insideX(caption, shape, 300)).toBe(305);
    expect(insideX(caption, shape, 480)).toBe(415);
    expect(insideX({ ...caption, inside: false }, shape, 300)).toBe(105);
  });
});

describe('sentences over moments', () => {
  const room = { width: 600, lines: 2, gap: 6, measure };
  const wish = (id: string, x: number, worth: number, text: string) => ({
    ...{ id, x, worth, texts: [text], bold: false },
  });

  test('never cover each other nor reach out, whatever their moments', () => {
    const seen = tally('left', 'second line', 'dropped');
    const anyWish = fc.record({
      x: fc.integer({ min: 0, max: 600 }),
      worth: fc.integer({ min: 0, max: 9 }),
      text: fc.string({ minLength: 1, maxLength: 60 }),
    });
    forAll(
      fc.property(fc.array(anyWish, { maxLength: 12 }), (drawn) => {
        const wishes = drawn.map((one, i) => wish(String(i), one.x, one.worth, one.text));
        const placed = placeInLines(wishes, room);
        if (placed.length < wishes.length) seen.saw('dropped');
        placed.forEach((a, i) => {
          expect(a.x).toBeGreaterThanOrEqual(0);
          expect(a.x + a.width).toBeLessThanOrEqual(600);
          if (a.line === 1) seen.saw('second line');
          if (a.x < wishes[Number(a.id)]!.x) seen.saw('left');
          for (const b of placed.slice(i + 1)) {
            const isApart = a.line !== b.line || a.x >= b.x + b.width || b.x >= a.x + a.width;
            expect(isApart).toBe(true);
          }
        });
      }),
      { seed: 4, seen },
    );
  });

  test('the one of most worth stands at its moment', () => {
    const placed = placeInLines(
      [wish('low', 100, 1, 'x'.repeat(60)), wish('high', 110, 9, 'Unveiling')],
      { ...room, lines: 1 },
    );
    expect(placed.map(({ id, x }) => [id, x])).toEqual([['high', 116]]);
  });
});
