/** A measured surface as an edit of its zone. */
import type { MeshMeasure } from '../../app/part/mesh/measure.ts';
import { inUnit, type MeshUnit } from '../../app/part/mesh/units.ts';
import { sayBoth } from '../../app/units/convert.ts';
import type { Change } from '../edit/change.ts';
import { setIn, type Draft } from '../edit/path.ts';

const rounded = (value: number): number => Number(value.toPrecision(4));

/**
 * Area, edge and shape of the zone from the mesh, read in the unit that was confirmed. A solid has no
 * free edge to give: the zone keeps its own.
 */
export function takeMesh(
  document: Draft,
  zone: number,
  measure: MeshMeasure,
  unit: MeshUnit,
  name: string,
): Change {
  const { areaM2, edgeM } = inUnit(measure, unit);
  const path = `part.zones[${zone}]`;
  let next = setIn(document, `${path}.areaM2`, rounded(areaM2));
  if (!measure.closed) next = setIn(next, `${path}.edgeM`, rounded(edgeM));
  next = setIn(next, `${path}.shape`, measure.shape);
  // A length and girth typed before belong to another area.
  next = setIn(next, `${path}.sizeM`, undefined);
  return {
    label: `${name}: ${sayBoth(areaM2, 'areaM2')} from a mesh`.slice(0, 120),
    document: next,
  };
}
