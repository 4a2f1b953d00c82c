/** Inserts and potted rims: how many, how heavy, in how many lifts. */
import { clothOf, practiceIf, practiceOf } from '../document/library.ts';
import type { FullBuild, Library } from '../document/schema.ts';
import { plyResinGM2 } from './laminate.ts';

type Of = Pick<FullBuild, 'part'>;

export const insertCount = ({ part }: Of): number =>
  part.inserts.reduce((sum, { count }) => sum + count, 0);

/** Cloth laid for all inserts, by cloth, m2. */
export function insertClothM2({ part }: Of): ReadonlyMap<string, number> {
  const areas = new Map<string, number>();
  for (const { cloth, count, areaM2, plies } of part.inserts) {
    areas.set(cloth, (areas.get(cloth) ?? 0) + count * areaM2 * plies);
  }
  return areas;
}

/** What the inserts weigh, less the core that they take the place of, kg. */
export function insertsKg(build: Of, library: Library, matrixKgM3: number) {
  const laid = [...insertClothM2(build)].map(([id, m2]) => {
    const { arealGM2, fibreDensityKgM3, fibreFraction } = clothOf(library, id);
    const resinGM2 = plyResinGM2(arealGM2, fibreDensityKgM3, fibreFraction, matrixKgM3);
    return { fibre: (m2 * arealGM2) / 1000, resin: (m2 * resinGM2) / 1000 };
  });
  return {
    fibre: laid.reduce((sum, { fibre }) => sum + fibre, 0),
    resin: laid.reduce((sum, { resin }) => sum + resin, 0),
  };
}

/** Potting in the rim of a part, kg; 0 without one. */
export function rimKg({ part }: Of, edgeM: number, library: Library): number {
  const rim = part.edge?.rim ?? null;
  const densityKgM3 = practiceIf(library, 'rim-density');
  if (rim === null || densityKgM3 === null) return 0;
  return (edgeM * rim.widthMm * rim.depthMm * densityKgM3) / 1e6;
}

/** Lifts that a rim is poured in, so that none runs hot. @throws MissingRow */
export const rimLifts = (depthMm: number, library: Library): number =>
  Math.ceil(depthMm / practiceOf(library)('rim-lift-mm'));
