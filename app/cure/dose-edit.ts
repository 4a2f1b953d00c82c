/** The build at another dose of initiator, as an edit of its own frozen resin. */
import { setField, type Change } from '../document/edit/change.ts';
import type { Draft } from '../document/edit/path.ts';
import { useResin } from '../document/edit/resin.ts';
import { doseBetweenId, isDoseBetween } from '../document/ids.ts';
import type { HardenerRow, Library, ResinRow } from '../document/schema.ts';
import { doseForGel, gelAtDose, type InitiatorRange } from './initiator.ts';
import { sheetInUse, withResin } from './sheet-edit.ts';

/** The doses that the maker gives, without those that were read between them. */
export const makersDoses = (resin: ResinRow): ResinRow => ({
  ...resin,
  hardeners: resin.hardeners.filter(({ id }) => !isDoseBetween(id)),
});

/**
 * The build at another dose of initiator: the maker's own sheet where he gives it, else the sheet of
 * the nearest dose with its times in proportion to gel. Null outside the maker's range.
 */
export function setInitiatorDose(
  document: Draft,
  library: Library,
  range: InitiatorRange,
  partsPer100: number,
): Change | null {
  const used = sheetInUse(document, library);
  const gel = gelAtDose(range, partsPer100);
  if (!used || gel === null) return null;
  const nearest = range.points.toSorted(
    (a, b) => Math.abs(a.partsPer100 - partsPer100) - Math.abs(b.partsPer100 - partsPer100),
  )[0]!;
  const said = `${partsPer100} g for 100 g of resin`;
  if (Math.abs(nearest.partsPer100 - partsPer100) < 1e-9) {
    return setField(document, 'resin.hardener', nearest.hardener, 'Initiator', said);
  }
  const near = used.resin.hardeners.find(({ id }) => id === nearest.hardener)!;
  const stretch = gel / nearest.gelMinutes;
  const between: HardenerRow = {
    ...near,
    id: doseBetweenId(partsPer100),
    name: `${near.name.replace(/[,(].*$/, '').trim()}, ${said}`,
    provenance: {
      kind: 'assumed',
      source: 'between the doses of the maker; every time in proportion to gel',
    },
    partsPer100ByMass: partsPer100,
    partsPer100ByVolume: null,
    sheet: near.sheet.map((row) => ({ ...row, minutes: row.minutes * stretch })),
  };
  const hardeners = [...makersDoses(used.resin).hardeners, between];
  const next = withResin(document, { ...used.resin, hardeners }, 'Initiator', said);
  const { document: frozen } = next;
  return {
    ...next,
    document: {
      ...frozen,
      resin: useResin(document.resin, { ...used.resin, hardeners }, between.id),
    },
  };
}

/** Dose that gels in the wanted time, to a twentieth of a gram; null outside the maker's range. */
export function doseFor(range: InitiatorRange, gelMinutes: number): number | null {
  const dose = doseForGel(range, gelMinutes);
  if (dose === null) return null;
  const rounded = Math.round(dose * 20) / 20;
  return Math.min(range.mostPartsPer100, Math.max(range.leastPartsPer100, rounded));
}
