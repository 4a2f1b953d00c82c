/** What covers what in a drawn timeline: for tests that nothing does. */
import { intersects, type Box } from '../../app/timeline/boxes.ts';
import type { PlacedRow } from '../../app/timeline/layout.ts';

interface Named extends Box {
  readonly what: string;
}

export function captionsOf(rows: readonly PlacedRow[]): (Named & { readonly own: string })[] {
  return rows.flatMap(({ items, batches }) => [
    ...items.flatMap(({ item, caption }) =>
      caption ? [{ ...caption, what: `words ${item.id}`, own: item.id }] : [],
    ),
    ...batches.flatMap(({ batch, caption }) =>
      caption ? [{ ...caption, what: `cup ${batch.number}`, own: '' }] : [],
    ),
  ]);
}

/** Words over words, words over a shape that is not theirs, a bar over a bar of the same row. */
export function clashes(rows: readonly PlacedRow[]): string[] {
  const words = captionsOf(rows);
  const bars = rows.flatMap(({ items }) => items);
  const out: string[] = [];
  words.forEach((a, i) => {
    for (const b of words.slice(i + 1)) if (intersects(a, b)) out.push(`${a.what} over ${b.what}`);
    for (const { item, box } of bars) {
      if (item.id !== a.own && intersects(a, box)) out.push(`${a.what} over ${item.id}`);
    }
  });
  for (const { items } of rows) {
    const byHand = items.filter(({ item }) => !item.shape);
    byHand.forEach((a, i) => {
      for (const b of byHand.slice(i + 1)) {
        if (intersects(a.box, b.box)) out.push(`${a.item.id} over ${b.item.id}`);
      }
    });
  }
  return out;
}
