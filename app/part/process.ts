/** How cloth gets its resin, and what of the library changes with it. */
import { memoByObject } from '../document/memo.ts';
import { practiceOf } from '../document/library.ts';
import type { ClothRow, ConsumableRow, FullBuild, Library, Process } from '../document/schema.ts';

/** Rows of practice: fibre fraction of a process over that of wet cloth under a bag. */
export const FIBRE_SHARE = {
  hand: 'fibre-share-hand',
  infused: 'fibre-share-infused',
} as const satisfies Record<Exclude<Process, 'bagged'>, string>;

/** A document without a process lays up wet under a bag, as all of earlier versions do. */
export const processOf = ({
  part,
}: {
  readonly part: Pick<FullBuild['part'], 'process'>;
}): Process => part.process ?? 'bagged';

/** Mat and veil take as much resin by hand as under a bag. */
const isRandom = ({ weave }: ClothRow): boolean => /\b(mat|veil)\b/i.test(weave);

/**
 * A cloth row as the process leaves it. A fraction that the shop measured stands as it is. Moduli fall with the
 * fibre, and are not counted higher where there is more of it.
 */
function clothBy(cloth: ClothRow, share: number): ClothRow {
  if (cloth.provenance.kind === 'measured' || isRandom(cloth)) return cloth;
  const softer = (modulus: number | null): number | null =>
    modulus === null ? null : modulus * Math.min(1, share);
  return {
    ...cloth,
    fibreFraction: Math.min(0.9, cloth.fibreFraction * share),
    e1GPa: softer(cloth.e1GPa),
    e2GPa: softer(cloth.e2GPa),
    g12GPa: softer(cloth.g12GPa),
  };
}

/** Usual ranges of hand work under a bag, which move with the process. */
const LIMITS: ReadonlySet<string> = new Set(['fibre-fraction-hand-min', 'fibre-fraction-hand-max']);

/** Bagging material of a process, over that of a wet layup under one bag; peel ply goes on everything. */
const OF_EVERY_BAG: Readonly<Record<Process, (use: ConsumableRow['use']) => number>> = {
  bagged: () => 1,
  hand: (use) => (use === 'peel-ply' ? 1 : 0),
  // Two bags, one over the other; nothing bleeds into a breather.
  infused: (use) => (use === 'breather' ? 0 : use === 'bag-film' || use === 'sealant-tape' ? 2 : 1),
};

type BagRow = Pick<ConsumableRow, 'use' | 'processes'>;

/** How often a row of bagging material lies in one bag of a process, over a wet layup under one bag; 0: not at all. */
export const timesInBag = (row: BagRow, process: Process): number =>
  (row.processes?.includes(process) ?? true) ? OF_EVERY_BAG[process](row.use) : 0;

/** What is not laid in the mould, strips and patches, is laid by hand under a bag where the part is infused. */
export const processBeside = (process: Process): Process =>
  process === 'infused' ? 'bagged' : process;

/** Rows that the build takes: for its bags in the mould or beside it, and for the bench. */
const consumablesBy = ({ consumables }: Library, process: Process): Library['consumables'] =>
  consumables.filter((row) =>
    [process, processBeside(process)].some((one) =>
      row.everyBag ? timesInBag(row, one) > 0 : (row.processes?.includes(one) ?? true),
    ),
  );

const librariesBy = memoByObject((library: Library) => {
  const known = new Map<Process, Library>();
  return (process: Process): Library => {
    const same = known.get(process);
    if (same) return same;
    const changed = byProcess(library, process);
    known.set(process, changed);
    return changed;
  };
});

function byProcess(library: Library, process: Process): Library {
  const consumables = consumablesBy(library, process);
  if (process === 'bagged') return { ...library, consumables };
  const share = practiceOf(library)(FIBRE_SHARE[process]);
  return {
    ...library,
    consumables,
    cloths: library.cloths.map((cloth) => clothBy(cloth, share)),
    practice: library.practice.map((row) =>
      LIMITS.has(row.id) ? { ...row, value: row.value * share } : row,
    ),
  };
}

/**
 * The rows as the build's process has them: fibre fractions, and what lies on the cloth.
 * @throws MissingRow when the library lacks the row of the process
 */
export const libraryFor = (
  build: { readonly part: Pick<FullBuild['part'], 'process'> },
  library: Library,
): Library => librariesBy(library)(processOf(build));
