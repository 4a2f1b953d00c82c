/** What lies in the shop, by line of the kit. */
import type { KitLine } from '../part/types.ts';
import { bothWords } from './plyBook.ts';
import { change, type Change } from '../document/edit/change.ts';
import type { Draft } from '../document/edit/path.ts';

/** The document with what is in stock of a line; null takes the entry out. */
export function putStock(document: Draft, line: KitLine, quantity: number | null): Change {
  const others = (document.stock ?? []).filter((entry) => entry.row !== line.id);
  const said = quantity === null ? 'none said' : bothWords(quantity, line.unit);
  return change(`In stock: ${line.name}, ${said}`, {
    ...document,
    stock: quantity === null ? others : [...others, { row: line.id, quantity }],
  });
}
