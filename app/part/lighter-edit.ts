/** A lighter option as an edit of the document as typed: only what it changes is written. */
import type { PartZone } from '../document/schema.ts';
import type { LighterOption } from './lighter.ts';
import { change, type Change } from '../document/edit/change.ts';
import { setIn, type Draft } from '../document/edit/path.ts';

/**
 * A lighter option as an edit of the document as it was typed.
 * @param zones of the build before the change
 * @returns null for an option of method, which changes nothing in the document
 */
export function applyLighterOption(
  document: Draft,
  zones: readonly PartZone[],
  option: LighterOption,
): Change | null {
  if (!option.build) return null;
  let next = document;
  option.build.part.zones.forEach((zone, i) => {
    const was = zones[i]!;
    const path = `part.zones[${i}]`;
    for (const side of ['outer', 'inner'] as const) {
      if (zone[side] !== was[side]) next = setIn(next, `${path}.${side}`, zone[side]);
    }
    if (!zone.core || !was.core) return;
    for (const key of ['material', 'thicknessMm', 'treatment'] as const) {
      if (zone.core[key] !== was.core[key]) {
        next = setIn(next, `${path}.core.${key}`, zone.core[key]);
      }
    }
  });
  return change(`Lighter: ${option.label}`, next);
}
