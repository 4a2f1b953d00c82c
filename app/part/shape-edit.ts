/** A simple shape as an edit of its zone. */
import { change, type Change } from '../document/edit/change.ts';
import { setIn, type Draft } from '../document/edit/path.ts';
import { formatBoth } from '../units/convert.ts';
import type { Shape } from './shapes.ts';

/** A measure to four figures: no surface is known more finely. */
export const measured = (value: number): number => Number(value.toPrecision(4));

/**
 * Area and edge of the zone from a shape; a rectangle gives its length and girth too.
 * @param zone place of the zone in the part, from 0
 * @param reach area, m2, and free edge, m, of the shape
 * @param name of the zone, for the undo list
 */
export function setAreaFromShape(
  document: Draft,
  zone: number,
  shape: Shape,
  reach: { areaM2: number; edgeM: number },
  name: string,
): Change {
  const path = `part.zones[${zone}]`;
  let next = setIn(document, `${path}.areaM2`, measured(reach.areaM2));
  next = setIn(next, `${path}.edgeM`, measured(reach.edgeM));
  const size = shape.kind === 'rectangle' ? [shape.lengthM, shape.girthM] : undefined;
  next = setIn(next, `${path}.sizeM`, size);
  return change(`${name}: ${formatBoth(reach.areaM2, 'areaM2')} from its shape`, next);
}
