/** A measured surface as an edit of its zone. */
import type { MeshMeasure } from './measure.ts';
import { measured } from '../shape-edit.ts';
import { inUnit, type MeshUnit } from './units.ts';
import { formatBoth } from '../../units/convert.ts';
import { change, type Change } from '../../document/edit/change.ts';
import { setIn, type Draft } from '../../document/edit/path.ts';

/**
 * Area, edge and shape of the zone from the mesh, read in the unit that was confirmed. A solid has no
 * free edge to give: the zone keeps its own.
 * @param zone place of the zone in the part, from 0
 * @param name of the zone, for the undo list
 */
export function setAreaFromMesh(
  document: Draft,
  zone: number,
  measure: MeshMeasure,
  unit: MeshUnit,
  name: string,
): Change {
  const { areaM2, edgeM } = inUnit(measure, unit);
  const path = `part.zones[${zone}]`;
  let next = setIn(document, `${path}.areaM2`, measured(areaM2));
  if (!measure.closed) next = setIn(next, `${path}.edgeM`, measured(edgeM));
  next = setIn(next, `${path}.shape`, measure.shape);
  // A length and girth typed before belong to another area.
  next = setIn(next, `${path}.sizeM`, undefined);
  return change(`${name}: ${formatBoth(areaM2, 'areaM2')} from a mesh`, next);
}
