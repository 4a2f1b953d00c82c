/** The stack of a zone, face by face, with what each layer weighs and how thick it cures. */
import { clothOf, coreOf } from '../document/library.ts';
import type { ClothRow, CoreRow, Library, PartZone, Ply } from '../document/schema.ts';
import { plyResinGM2, plyThicknessMm } from './laminate.ts';
import { doubledOf, type Sections } from './sections.ts';
import type { LayupId } from './types.ts';

/** One ply as it lies in the zone. */
export interface StackPly {
  readonly layup: LayupId;
  readonly cloth: ClothRow;
  readonly angleDeg: number;
  /** Area covered: the zone's, or a local ply's own, m2. */
  readonly areaM2: number;
  /** True when it covers the whole zone. */
  readonly whole: boolean;
  /** What lies double on top of that area, at the joints between sections of its skin, m2. */
  readonly doubledM2: number;
  readonly thicknessMm: number;
  readonly fibreGM2: number;
  readonly resinGM2: number;
}

/** The core as it lies in the zone. */
export interface StackCore {
  readonly row: CoreRow;
  readonly thicknessMm: number;
  readonly massGM2: number;
  /** Resin taken by the mould-side face and the kerfs, g/m2. */
  readonly outerUptakeGM2: number;
  /** Resin taken by the face under the inner skin, g/m2. */
  readonly innerUptakeGM2: number;
}

export interface ZoneStack {
  readonly zone: PartZone;
  /** From the mould outwards: outer skin, locals between, inner skin, locals added after. */
  readonly plies: readonly StackPly[];
  readonly core: StackCore | null;
}

const LOCAL_LAYUP = {
  outer: 'skin',
  between: 'local',
  inner: 'inner',
  after: 'local-after',
} as const satisfies Record<PartZone['local'][number]['place'], LayupId>;

/**
 * The stack of one zone, closeout left out: masses in g/m2, thicknesses in mm.
 * @param matrixKgM3 density of the cured resin
 * @param sections that its skins are laid in; absent: nothing is asked of what lies double at their joints
 * @throws MissingRow when the library lacks a cloth or the core
 */
export function stackOf(
  zone: PartZone,
  library: Library,
  matrixKgM3: number,
  sections?: Sections,
): ZoneStack {
  const lay = (ply: Ply, layup: LayupId, areaM2 = zone.areaM2): StackPly =>
    stackPly(clothOf(library, ply.cloth), ply.angleDeg, layup, areaM2, zone.areaM2, matrixKgM3);
  const locals = (place: keyof typeof LOCAL_LAYUP): StackPly[] =>
    zone.local
      .filter((ply) => ply.place === place)
      .map((ply) => lay(ply, LOCAL_LAYUP[place], ply.areaM2));

  const plies = [
    ...zone.outer.map((ply) => lay(ply, 'skin')),
    ...locals('outer'),
    ...locals('between'),
    ...zone.inner.map((ply) => lay(ply, 'inner')),
    ...locals('inner'),
    ...locals('after'),
  ];
  return {
    zone,
    plies: sections ? plies.map((ply) => jointed(ply, zone, sections, library)) : plies,
    core: zone.core ? stackCore(coreOf(library, zone.core.material), zone.core) : null,
  };
}

/** A ply over the whole zone overlaps itself at each joint; a patch lies in one section. */
function jointed(ply: StackPly, zone: PartZone, sections: Sections, library: Library): StackPly {
  const { layup, whole } = ply;
  const count = layup === 'skin' || layup === 'inner' ? sections[layup] : 1;
  return count > 1 && whole ? { ...ply, doubledM2: doubledOf(zone, count, library) } : ply;
}

/** A cloth without a fibre fraction would be infinitely thick; the part's checks report it. */
const LEAST_FRACTION = 0.02;

function stackPly(
  cloth: ClothRow,
  angleDeg: number,
  layup: LayupId,
  areaM2: number,
  zoneAreaM2: number,
  matrixKgM3: number,
): StackPly {
  const { arealGM2, fibreDensityKgM3 } = cloth;
  const fibreFraction = Math.max(cloth.fibreFraction, LEAST_FRACTION);
  return {
    layup,
    cloth,
    angleDeg,
    areaM2,
    whole: areaM2 >= zoneAreaM2,
    doubledM2: 0,
    thicknessMm: plyThicknessMm(arealGM2, fibreDensityKgM3, fibreFraction),
    fibreGM2: arealGM2,
    resinGM2: plyResinGM2(arealGM2, fibreDensityKgM3, fibreFraction, matrixKgM3),
  };
}

function stackCore(row: CoreRow, core: NonNullable<PartZone['core']>): StackCore {
  return {
    row,
    thicknessMm: core.thicknessMm,
    massGM2: row.densityKgM3 * core.thicknessMm,
    outerUptakeGM2: row.uptakeGM2[core.treatment],
    innerUptakeGM2: row.uptakeGM2.plain,
  };
}

/** Fibre volume over laminate volume, 0 to 1, core left out; 0 without plies. */
export function fibreFractionOf(plies: readonly StackPly[]): number {
  let fibreMm = 0;
  let laminateMm = 0;
  for (const ply of plies) {
    fibreMm += ply.thicknessMm * ply.cloth.fibreFraction;
    laminateMm += ply.thicknessMm;
  }
  return laminateMm > 0 ? fibreMm / laminateMm : 0;
}
