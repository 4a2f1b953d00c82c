import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Lane, Mark, TimelineItem } from '../../../app/timeline/items.ts';
import { layoutTimeline, ROW_HEIGHT, type PlacedItem } from '../../../app/timeline/layout.ts';
import type { MomentKey } from '../../../app/shop/sheetData.ts';
import { timeScale } from '../../../app/timeline/scale.ts';
import { forAll } from '../../support/draws.ts';

const DAYS = 30;
const world = { start: 0, end: DAYS * 1440 };
const measure = (text: string, bold: boolean): number => text.length * (bold ? 7 : 6.5);

const itemOf = (id: string, start: number, minutes: number, name: string): TimelineItem => ({
  id,
  type: 'work',
  kind: 'trim',
  label: `${name} · 12 h`,
  short: name,
  spoken: name,
  start,
  end: Math.min(start + minutes, world.end),
  stretches: [{ start, end: Math.min(start + minutes, world.end) }],
  latestStart: null,
  latestEnd: null,
  floatHours: 12,
  critical: id.endsWith('7'),
  minor: id.endsWith('3'),
});

const markOf = (key: MomentKey, at: number): Mark => ({
  id: key,
  cure: 'skin',
  key,
  label: key,
  at,
  iso: '2027-04-19T08:00+01:00',
});

const anyItem = fc.record({
  start: fc.integer({ min: 0, max: world.end - 1 }),
  minutes: fc.integer({ min: 0, max: 5000 }),
  name: fc.string({ minLength: 1, maxLength: 40 }),
});
const anyLane = fc
  .array(anyItem, { maxLength: 40 })
  .map((list): TimelineItem[] =>
    list.map((one, i) => itemOf(`s${i}`, one.start, one.minutes, one.name)),
  );

interface Extent {
  readonly from: number;
  readonly to: number;
}
const bar = (placed: PlacedItem): Extent => ({ from: placed.x, to: placed.x + placed.width });
const overlap = (a: Extent, b: Extent): number => Math.min(a.to, b.to) - Math.max(a.from, b.from);

function rowsOf(items: readonly PlacedItem[]): PlacedItem[][] {
  const rows = new Map<number, PlacedItem[]>();
  for (const item of items) rows.set(item.y, [...(rows.get(item.y) ?? []), item]);
  return [...rows.values()];
}

/** Boxes of a row that must keep clear of each other: bars, and labels that stand beside them. */
function clashes(row: readonly PlacedItem[]): string[] {
  const boxes = row.flatMap((item) => {
    const own = [{ what: `bar ${item.item.id}`, of: item.item.id, ...bar(item) }];
    if (item.label && !item.label.inside) {
      const { x, width } = item.label;
      own.push({ what: `label ${item.item.id}`, of: item.item.id, from: x, to: x + width });
    }
    return own;
  });
  return boxes.flatMap((a, i) =>
    boxes
      .slice(i + 1)
      .filter((b) => overlap(a, b) > 0.001)
      .map((b) => `${a.what} over ${b.what}`),
  );
}

describe('placing bars and labels', () => {
  const anyView = fc.record({
    lanes: fc.array(anyLane, { minLength: 1, maxLength: 4 }),
    width: fc.integer({ min: 300, max: 40_000 }),
    wantedHeight: fc.integer({ min: 0, max: 600 }),
  });
  const layoutOf = (view: { lanes: TimelineItem[][]; width: number; wantedHeight: number }) =>
    layoutTimeline(
      view.lanes.map((items, i): Lane => ({ id: `lane${i}`, name: '', items, marks: [] })),
      { scale: timeScale(world, view.width / world.end), measure, wantedHeight: view.wantedHeight },
    );

  test('no bar and no label covers another one of its row', () => {
    forAll(
      fc.property(anyView, (view) => {
        for (const lane of layoutOf(view).lanes) {
          for (const row of rowsOf(lane.items)) expect(clashes(row)).toEqual([]);
        }
      }),
      { seed: 1 },
    );
  });

  test('every item has its bar, and nothing reaches out of the drawing', () => {
    forAll(
      fc.property(anyView, (view) => {
        const layout = layoutOf(view);
        const placed = layout.lanes.flatMap((lane) => lane.items);
        expect(placed.map(({ item }) => item.id).sort()).toEqual(
          view.lanes
            .flat()
            .map((item) => item.id)
            .sort(),
        );
        for (const { label } of placed) {
          if (!label) continue;
          expect(label.x).toBeGreaterThanOrEqual(0);
          expect(label.x + label.width).toBeLessThanOrEqual(view.width + 1);
        }
      }),
      { seed: 2 },
    );
  });

  test('rows lie inside their lane, lanes follow without a gap', () => {
    forAll(
      fc.property(anyView, (view) => {
        let y = 0;
        for (const lane of layoutOf(view).lanes) {
          expect(lane.y).toBe(y);
          y += lane.height;
          for (const item of lane.items) {
            expect(item.y).toBeGreaterThanOrEqual(lane.y);
            expect(item.y + ROW_HEIGHT).toBeLessThanOrEqual(y);
          }
        }
      }),
      { seed: 3 },
    );
  });

  test('more height never costs a label', () => {
    const items = Array.from({ length: 12 }, (_, i) =>
      itemOf(`t${10 * i}`, i * 700, 300, 'Lay up skin'),
    );
    const labels = [0, 60, 120, 200, 400].map(
      (wantedHeight) =>
        layoutOf({ lanes: [items], width: 800, wantedHeight }).lanes[0]!.items.filter(
          ({ label }) => label !== null,
        ).length,
    );
    expect(labels).toEqual([...labels].sort((a, b) => a - b));
    expect(labels.at(-1)).toBe(12);
  });

  test('where one label must go, the critical one stays', () => {
    const plain = itemOf('s1', 1000, 60, 'A long name of a stage');
    const critical = itemOf('s7', 1400, 60, 'Another long name');
    const [lane] = layoutOf({ lanes: [[plain, critical]], width: 2000, wantedHeight: 0 }).lanes;
    const label = (id: string) => lane!.items.find(({ item }) => item.id === id)!.label;
    expect(label('s7')).not.toBeNull();
    expect(label('s1')).toBeNull();
  });
});

describe('moments of a cure', () => {
  const layout = (marks: Mark[], width: number) =>
    layoutTimeline([{ id: 'cures', name: '', items: [itemOf('c', 0, 3000, 'Skin')], marks }], {
      scale: timeScale(world, width / world.end),
      measure,
      wantedHeight: 200,
    }).lanes[0]!;

  test('of moments too close to tell apart the gel stays', () => {
    const { marks } = layout([markOf('bagBy', 5000), markOf('gel', 5060)], 800);
    expect(marks.map(({ mark }) => mark.key)).toEqual(['gel']);
  });

  test('stand in order of time, words never over a shape', () => {
    const all = [markOf('gel', 2000), markOf('debagFrom', 4000), markOf('sandFrom', 9000)];
    const { marks } = layout(all, 6000);
    expect(marks.map(({ mark }) => mark.key)).toEqual(['gel', 'debagFrom', 'sandFrom']);
    for (const { label } of marks) {
      if (!label) continue;
      for (const other of marks) {
        expect(other.x < label.x || other.x > label.x + label.width).toBe(true);
      }
    }
  });
});
