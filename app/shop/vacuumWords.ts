/** How far a bag may be pulled: styrene boils, and a light core creeps. */
import { coreOf } from '../document/library.ts';
import { FULL_VACUUM_KPA } from '../part/checks.ts';
import type { CureSheetData, SheetData } from './sheetData.ts';
import { fixed } from './words.ts';

/** Most that the bag of a cure may be pulled below atmosphere, kPa; null: all that the pump gives. */
function mostKPa({ build, cures, resin, detail, practice }: SheetData, cure: CureSheetData) {
  const until = cures.slice(0, cures.indexOf(cure) + 1);
  const onCore = until.some(({ layups }) => layups.some(({ hasCore }) => hasCore));
  const cores = build.part.zones.flatMap(({ core }) =>
    core && onCore ? [coreOf(detail.library, core.material).maxVacuumKPa] : [],
  );
  const styrene = resin?.hazards.includes('styrene') ? [practice('styrene-vacuum-kpa')] : [];
  const least = Math.min(FULL_VACUUM_KPA, ...cores, ...styrene);
  return least < FULL_VACUUM_KPA ? least : null;
}

/** `Full vacuum`, or `Vacuum 650 mbar below atmosphere and no more` where resin or core takes no more. */
export function vacuumWords(facts: SheetData, cure: CureSheetData): string {
  const most = mostKPa(facts, cure);
  return most === null
    ? 'Full vacuum'
    : `Vacuum ${fixed(most * 10, 0)} mbar below atmosphere and no more`;
}
