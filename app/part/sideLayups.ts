/** Layups that lie on no other: inserts on a flat beside the chain, and the patch of a repair. */
import { clothOf, practiceIf, practiceOf } from '../document/library.ts';
import type { FullBuild, Library } from '../document/schema.ts';
import { LAYUP_NAMES } from '../messages/layups.ts';
import { insertClothM2, insertCount, insertsKg } from './inserts.ts';
import { labourById } from './labour.ts';
import { plyThicknessMm } from './laminate.ts';
import { layupRow } from './layups.ts';
import type { Repair } from './repair.ts';
import type { StackPly, ZoneStack } from './stack.ts';
import type { Layup } from './types.ts';

interface Side {
  readonly id: 'inserts' | 'repair';
  readonly place: Layup['place'];
  readonly areaM2: number;
  readonly plyAreaM2: number;
  readonly plies: number;
  readonly resinG: number;
  readonly thicknessMm: number;
  /** Person-minutes beside the set-up. */
  readonly minutes: number;
}

/** Released flat that one bag covers, over the area of the inserts on it. */
const FLAT_OVER_INSERTS = 2;

/** Inserts of solid laminate, all of them under one bag on a released flat; null where there are none. */
export function insertLayup(
  build: FullBuild,
  library: Library,
  matrixKgM3: number,
  pace: number,
): Layup | null {
  const count = insertCount(build);
  if (count === 0) return null;
  const { inserts } = build.part;
  const areaM2 = inserts.reduce((sum, one) => sum + one.count * one.areaM2, 0);
  return sideLayup(
    {
      id: 'inserts',
      place: 'beside',
      areaM2,
      plyAreaM2: [...insertClothM2(build).values()].reduce((sum, m2) => sum + m2, 0),
      plies: Math.max(...inserts.map(({ plies }) => plies)),
      resinG: insertsKg(build, library, matrixKgM3).resin * 1000,
      thicknessMm: Math.max(
        ...inserts.map(({ cloth, plies }) => {
          const { arealGM2, fibreDensityKgM3, fibreFraction } = clothOf(library, cloth);
          return plies * plyThicknessMm(arealGM2, fibreDensityKgM3, fibreFraction);
        }),
      ),
      minutes: count * (practiceIf(library, 'insert-lay-minutes') ?? 0),
    },
    areaM2 * FLAT_OVER_INSERTS,
    library,
    pace,
  );
}

/** Plies of the outer skin over a scarfed patch, where the plan has a cure for it. */
export function repairLayup(
  repair: Repair | null,
  stacks: readonly ZoneStack[],
  library: Library,
  pace: number,
): Layup | null {
  const areaM2 = practiceOf(library)('repair-patch-m2');
  const skins = stacks.map(({ plies }) => plies.filter(({ layup }) => layup === 'skin'));
  const plies = skins.reduce<readonly StackPly[]>(
    (most, own) => (own.length > most.length ? own : most),
    [],
  );
  if (!repair?.cures || plies.length === 0) return null;
  const plyAreaM2 = areaM2 * plies.length;
  return sideLayup(
    {
      id: 'repair',
      place: 'after-demould',
      areaM2,
      plyAreaM2,
      plies: plies.length,
      resinG: areaM2 * plies.reduce((sum, ply) => sum + ply.resinGM2, 0),
      thicknessMm: plies.reduce((sum, ply) => sum + ply.thicknessMm, 0),
      minutes: labourById(library, layupRow('repair')).minutesPerPlyM2 * plyAreaM2,
    },
    areaM2,
    library,
    pace,
  );
}

function sideLayup(side: Side, bagM2: number, library: Library, pace: number): Layup {
  const { minutes, resinG, ...rest } = side;
  const row = labourById(library, layupRow(side.id));
  const practice = practiceOf(library);
  return {
    ...rest,
    name: LAYUP_NAMES[side.id],
    edgeM: 4 * Math.sqrt(bagM2),
    mixedG: (resinG + practice('bleed-g-m2') * side.areaM2) / (1 - practice('cup-loss-share')),
    personMinutes: pace * (row.setupMinutes + minutes),
    setupMinutes: pace * row.setupMinutes,
    peopleMin: row.peopleMin,
    peopleMax: row.peopleMax,
    partOf: null,
    section: null,
    infused: false,
    hasCore: false,
    vertical: false,
  };
}
