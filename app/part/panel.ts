/** Deflection of a zone under a hand and a sanding block, by plate theory with its real laminate. */
import { practiceOf, resinOf } from '../document/library.ts';
import type { FullBuild, Library, PartZone } from '../document/schema.ts';
import { couplingFactor, type Patch } from './coupled.ts';
import { simplySupportedMm, type PlateStiffness } from './plate.ts';
import { stackOf, type StackCore, type StackPly, type ZoneStack } from './stack.ts';
import { laminateStiffness, type Lamina } from './stiffness.ts';

/** Young's modulus of a foam from its shear modulus, at a Poisson ratio of 0.3. */
const FOAM_E_OVER_G = 2.6;

/**
 * Bending and shear stiffness of a zone where no local ply lies, by width; null when a cloth or the
 * core has no modulus in the library.
 */
export function zoneStiffness(stack: ZoneStack): PlateStiffness | null {
  const { core } = stack;
  const [outer, inner] = facesOf(stack.plies);
  const [below, above] = [laminae(outer), laminae(inner)];
  const middle = core ? coreLamina(core) : [];
  if (outer.length + inner.length === 0 || !below || !above || !middle) return null;
  const { reducedD } = laminateStiffness([...below, ...middle, ...above]);
  const armMm = faceDistanceMm(stack);
  return {
    dx: reducedD.xx,
    dy: reducedD.yy,
    dxy: reducedD.xy + 2 * reducedD.ss,
    dxs: reducedD.xs,
    dys: reducedD.ys,
    // d2 G / c by width (Allen 1969), d between the middles of the faces.
    shear:
      core && armMm !== null
        ? (armMm * armMm * core.row.shearModulusMPa!) / core.thicknessMm
        : null,
  };
}

function laminae(plies: readonly StackPly[]): Lamina[] | null {
  const list: Lamina[] = [];
  for (const { cloth, angleDeg, thicknessMm } of plies) {
    const { e1GPa, e2GPa, g12GPa, nu12 } = cloth;
    if (e1GPa === null || e2GPa === null || g12GPa === null || nu12 === null) return null;
    const [e1MPa, e2MPa, g12MPa] = [e1GPa * 1000, e2GPa * 1000, g12GPa * 1000];
    list.push({ thicknessMm, angleDeg, e1MPa, e2MPa, g12MPa, nu12 });
  }
  return list;
}

function coreLamina({ row, thicknessMm }: StackCore): Lamina[] | null {
  if (row.shearModulusMPa === null) return null;
  const g12MPa = row.shearModulusMPa;
  const e = FOAM_E_OVER_G * g12MPa;
  return [{ thicknessMm, angleDeg: 0, e1MPa: e, e2MPa: e, g12MPa, nu12: 0.3 }];
}

/** Between the middles of the two faces, mm; null for a stack that is no sandwich. */
function faceDistanceMm({ plies, core }: ZoneStack): number | null {
  const [outer, inner] = facesOf(plies);
  if (!core || outer.length === 0 || inner.length === 0) return null;
  return core.thicknessMm + (thicknessOf(outer) + thicknessOf(inner)) / 2;
}

/** Plies that cover the whole zone, on either side of the core. */
function facesOf(plies: readonly StackPly[]): [StackPly[], StackPly[]] {
  const whole = plies.filter((ply) => ply.whole);
  const outer = whole.filter((ply) => ply.layup === 'skin' || ply.layup === 'local');
  return [outer, whole.filter((ply) => !outer.includes(ply))];
}

/**
 * Plate theory leaves out what a plate gains by stretching. At one thickness it overstates a plate whose
 * edges may draw in by a sixth (circular plate, Timoshenko and Woinowsky-Krieger, art. 100, from memory);
 * beyond that its figure says nothing, least of all of a curved panel.
 */
const theoryEndsMm = ({ plies, core }: ZoneStack): number =>
  thicknessOf(plies.filter((ply) => ply.whole)) + (core?.thicknessMm ?? 0);

const thicknessOf = (plies: readonly StackPly[]): number =>
  plies.reduce((total, ply) => total + ply.thicknessMm, 0);

export interface Deflection {
  readonly bendingMm: number;
  readonly shearMm: number;
  readonly totalMm: number;
}

export interface PanelCheck {
  readonly zoneId: string;
  /** The flat panel it is taken for, simply supported all round, mm. */
  readonly sidesMm: readonly [number, number];
  /** True when the sides were derived from the area, not typed. */
  readonly sidesAssumed: boolean;
  /** Bending stiffness along the 0 line and across it, by width, N m. */
  readonly bendingNm: readonly [number, number];
  /** Under each load; null where it lies beyond plate theory. */
  readonly hand: Deflection | null;
  readonly block: Deflection | null;
  /** Plate theory holds up to this deflection, mm. */
  readonly theoryMm: number;
  /** The load under which it gives more. */
  readonly worse: 'hand' | 'block';
  /** Times softer under a hand because its skins lie askew, on the safe side; 1 without coupling. */
  readonly coupling: number;
  /** Shear in the core round the hand, and what it takes; null without core or strength. */
  readonly coreShear: { readonly stressMPa: number; readonly strengthMPa: number } | null;
  readonly limitMm: number;
  readonly holds: boolean;
}

/**
 * The core's shear grows with the coupling too, for the moments move: a first-order shear calculation
 * of askew carbon on soft foam gave up to 1.4 times the shear of the part taken alone.
 */
const MOST_SHEAR_COUPLING = 1.5;

/**
 * Deflection of a zone under a hand and under a sanding block; null when the stiffness is unknown.
 * @throws MissingRow
 */
export function panelCheck(zone: PartZone, build: FullBuild, library: Library): PanelCheck | null {
  const stack = stackIn(zone, build, library);
  const plate = zoneStiffness(stack);
  if (!plate) return null;
  const sidesMm = panelSidesMm(zone, library);
  const loads = { hand: handLoad(library), block: blockLoad(sidesMm, library) };
  const [hand, block] = [loads.hand, loads.block].map((load) => giveUnder(plate, sidesMm, load));
  const theoryMm = theoryEndsMm(stack);
  const believed = (give: Deflection): Deflection | null =>
    give.totalMm <= theoryMm ? give : null;
  const limitMm = practiceOf(library)('deflection-limit-mm');
  return {
    zoneId: zone.id,
    sidesMm,
    sidesAssumed: zone.sizeM === null,
    bendingNm: [plate.dx / 1000, plate.dy / 1000],
    hand: believed(hand!),
    block: believed(block!),
    theoryMm,
    worse: block!.totalMm >= hand!.totalMm ? 'block' : 'hand',
    coupling: couplingFactor(plate, ...sidesMm, loads.hand),
    coreShear: coreShearUnderHand(stack, library),
    limitMm,
    // Beyond its range plate theory overstates, so what it finds within the limit holds in any case.
    holds: Math.max(hand!.totalMm, block!.totalMm) <= limitMm,
  };
}

/** A load on a rectangle at the middle of the panel. */
type PatchLoad = Patch & { readonly kind: 'patch'; readonly loadN: number };

/** Plate theory with the coupling on the safe side, also outside the range in which it holds. */
function giveUnder(
  plate: PlateStiffness,
  sidesMm: readonly [number, number],
  load: PatchLoad,
): Deflection {
  const { bendingMm, shearMm } = simplySupportedMm(plate, ...sidesMm, load);
  const coupling = couplingFactor(plate, ...sidesMm, load);
  const bent = bendingMm * coupling;
  const sheared = shearMm * Math.min(coupling, MOST_SHEAR_COUPLING);
  return { bendingMm: bent, shearMm: sheared, totalMm: bent + sheared };
}

/**
 * Deflection of a zone's panel under a load of one's own; null when the stiffness is unknown or the
 * answer lies beyond plate theory.
 * @throws MissingRow
 */
export function deflectionUnder(
  load: PatchLoad,
  zone: PartZone,
  build: FullBuild,
  library: Library,
): Deflection | null {
  const stack = stackIn(zone, build, library);
  const plate = zoneStiffness(stack);
  if (!plate) return null;
  const give = giveUnder(plate, panelSidesMm(zone, library), load);
  return give.totalMm <= theoryEndsMm(stack) ? give : null;
}

const stackIn = (zone: PartZone, build: FullBuild, library: Library): ZoneStack =>
  stackOf(zone, library, resinOf(library, build.resin.system).curedDensityKgM3);

/** The load of the hand, carried off through the core all round its square: P / (4 s d). */
function coreShearUnderHand(stack: ZoneStack, library: Library): PanelCheck['coreShear'] {
  const strengthMPa = stack.core?.row.shearStrengthMPa ?? null;
  const armMm = faceDistanceMm(stack);
  if (strengthMPa === null || armMm === null) return null;
  const practice = practiceOf(library);
  const stressMPa = practice('hand-load-n') / (4 * practice('hand-side-mm') * armMm);
  return { stressMPa, strengthMPa };
}

/** The flat panel that bends like the zone: curvature shortens what bends freely. */
function panelSidesMm(zone: PartZone, library: Library): [number, number] {
  const side = Math.sqrt(zone.areaM2);
  const [length, girth] = zone.sizeM ?? [side, side];
  const share = practiceOf(library)(`panel-share-${zone.shape}`);
  return [length * share * 1000, girth * share * 1000];
}

function handLoad(library: Library): PatchLoad {
  const practice = practiceOf(library);
  const side = practice('hand-side-mm');
  return { kind: 'patch', loadN: practice('hand-load-n'), sideAMm: side, sideBMm: side };
}

function blockLoad([aMm, bMm]: readonly [number, number], library: Library): PatchLoad {
  const practice = practiceOf(library);
  const sideAMm = Math.min(practice('block-length-mm'), aMm);
  const sideBMm = Math.min(practice('block-width-mm'), bMm);
  const loadN = (practice('block-pressure-kpa') / 1000) * sideAMm * sideBMm;
  return { kind: 'patch', loadN, sideAMm, sideBMm };
}

/** Most local plies proposed before a thicker core is the better answer. */
const MOST_LOCAL_PLIES = 6;

/**
 * Local plies between the skins that bring a zone within its limit: cloth of the outer skin, at 0 and
 * 45 in turn. Empty when it holds already, null when that many plies do not help or stiffness is unknown.
 */
export function pliesToStiffen(
  zone: PartZone,
  build: FullBuild,
  library: Library,
): PartZone['local'] | null {
  const cloth = zone.outer.at(-1)?.cloth ?? zone.inner.at(-1)?.cloth;
  if (cloth === undefined) return null;
  for (let count = 0; count <= MOST_LOCAL_PLIES; count++) {
    const added = Array.from({ length: count }, (_, i) => ({
      cloth,
      angleDeg: i % 2 === 0 ? 0 : 45,
      place: 'between' as const,
    }));
    const check = panelCheck({ ...zone, local: [...zone.local, ...added] }, build, library);
    if (check === null) return null;
    if (check.holds) return added;
  }
  return null;
}
