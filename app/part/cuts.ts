/** The cut list: every ply with its size, cut into pieces that come off the roll. */
import { memoByObject, memoByObjects } from '../document/memo.ts';
import { clothOf, practiceOf } from '../document/library.ts';
import type { ClothRow, FullBuild, Library, PartZone, Ply } from '../document/schema.ts';
import { laneLengthMm, nestStrips, type StripNest } from './nest.ts';
import { packOnRoll, type Rectangle, type RollUse } from './pack.ts';
import { sectionIds, sectionsOf, sidesOf, stepMm, type Sections } from './sections.ts';
import type { LayupId } from './types.ts';

/** One piece of a ply, as cut: across and along the roll. */
export interface CutPiece {
  readonly acrossMm: number;
  readonly alongMm: number;
}

/** One ply of the book, in the order in which it is laid. */
export interface CutPly {
  readonly number: number;
  readonly layup: LayupId;
  readonly zoneId: string;
  readonly zoneName: string;
  readonly cloth: ClothRow;
  /** Of the warp, from the 0 line, anticlockwise seen from the mould's open side. */
  readonly angleDeg: number;
  /** Face of the part that the ply is nearer to. */
  readonly face: 'mould side' | 'bag side';
  /** Finished size along and across the 0 line with the run past the trim line, mm. */
  readonly sizeMm: readonly [number, number];
  readonly sizeAssumed: boolean;
  readonly pieces: readonly CutPiece[];
  /** Overlap where pieces meet, mm; 0 for a ply in one piece. */
  readonly overlapMm: number;
  /** How far its joints stand from those of the first jointed ply in the zone, mm. */
  readonly staggerMm: number;
  /** How far it lies over the section laid before it, mm; 0 where it does not. */
  readonly lapsMm: number;
  /** Cut in lanes across the roll at this angle to its length; null: square to the roll. */
  readonly laneDeg: number | null;
}

const ORDER = ['skin', 'local', 'inner', 'local-after', 'closeout'] as const;
type Laminate = (typeof ORDER)[number];
const MOULD_SIDE: ReadonlySet<LayupId> = new Set(['skin', 'local']);

/** One section of a laminate; a laminate that is laid in one is the first of one. */
interface CutSection {
  readonly layup: LayupId;
  readonly laminate: Laminate;
  readonly number: number;
  readonly count: number;
}

function sectionsIn(laminate: Laminate, sections: Sections): CutSection[] {
  const count = laminate === 'skin' || laminate === 'inner' ? sections[laminate] : 1;
  const ids =
    laminate === 'skin' || laminate === 'inner' ? sectionIds(laminate, count) : [laminate];
  return ids.map((layup, i) => ({ layup, laminate, number: i + 1, count }));
}

/**
 * Every ply of the part numbered in the order of laying: layup by layup, first plies everywhere, then
 * second ones.
 * @throws MissingRow
 */
export const cutList = (build: Pick<FullBuild, 'part'>, library: Library): readonly CutPly[] =>
  cutsOf(build.part, library);

const cutsOf = memoByObjects((part: FullBuild['part'], library: Library): readonly CutPly[] => {
  const jointed = new Map<string, number>();
  let number = 0;
  const sections = sectionsOf({ part });
  return ORDER.flatMap((laminate) => sectionsIn(laminate, sections)).flatMap((section) => {
    const perZone = part.zones.map((zone) => pliesIn(section, zone));
    const deepest = Math.max(0, ...perZone.map((plies) => plies.length));
    return Array.from({ length: deepest }, (_, i) =>
      part.zones.flatMap((zone, z) => {
        const ply = perZone[z]![i];
        if (!ply) return [];
        const whole = perZone[z]!.filter((one) => coversAll(one, zone));
        const depth = { at: whole.indexOf(ply), of: whole.length };
        const cut = cutPly(section, zone, ply, depth, library);
        const key = `${zone.id}/${section.laminate === 'closeout'}/${section.number}`;
        const joints = jointed.get(key) ?? 0;
        if (cut.overlapMm > 0) jointed.set(key, joints + 1);
        const step = cut.overlapMm > 0 ? joints * practiceOf(library)('ply-stagger-mm') : 0;
        number += 1;
        return [{ ...cut, number, staggerMm: step }];
      }),
    ).flat();
  });
});

type LaidPly = Ply & { readonly areaM2?: number | undefined };

function pliesOf(layup: Laminate, zone: PartZone): readonly LaidPly[] {
  const local = (place: string): LaidPly[] => zone.local.filter((ply) => ply.place === place);
  switch (layup) {
    case 'skin':
      return [...zone.outer, ...local('outer')];
    case 'local':
      return local('between');
    case 'inner':
      return [...zone.inner, ...local('inner')];
    case 'local-after':
      return local('after');
    case 'closeout':
      return zone.edgeM > 0 ? (zone.closeout?.plies ?? []) : [];
  }
}

const coversAll = ({ areaM2 }: LaidPly, zone: PartZone): boolean =>
  areaM2 === undefined || areaM2 >= zone.areaM2;

/** Patches go down with the first section. */
const pliesIn = ({ laminate, number }: CutSection, zone: PartZone): readonly LaidPly[] =>
  pliesOf(laminate, zone).filter((ply) => number === 1 || coversAll(ply, zone));

/** Where a ply lies among those that cover all of a zone: from 0; -1 for a patch. */
interface Depth {
  readonly at: number;
  readonly of: number;
}

function cutPly(
  section: CutSection,
  zone: PartZone,
  ply: LaidPly,
  depth: Depth,
  library: Library,
): Omit<CutPly, 'number' | 'staggerMm'> {
  const cloth = clothOf(library, ply.cloth);
  const practice = practiceOf(library);
  const overlapMm = practice('ply-overlap-mm');
  const { layup, laminate, number, count } = section;
  const strip = laminate === 'closeout';
  const whole = strip ? stripSize(zone) : sheetSize(zone, ply, practice('ply-excess-mm'));
  const inSections = count > 1 && depth.at >= 0;
  const sizeMm = inSections ? sectionSize(whole, section, zone, depth, library) : whole;
  const cut = strip
    ? cutStrip(sizeMm, ply.angleDeg, cloth, overlapMm, practice('strip-max-mm'))
    : cheapestCut(sizeMm, ply.angleDeg, cloth, overlapMm);
  return {
    layup,
    zoneId: zone.id,
    zoneName: zone.name,
    cloth,
    angleDeg: ply.angleDeg,
    face: MOULD_SIDE.has(laminate) ? 'mould side' : 'bag side',
    sizeMm,
    sizeAssumed: zone.sizeM === null && !strip,
    pieces: cut.pieces,
    lapsMm: inSections && number > 1 ? overlapMm : 0,
    laneDeg: cut.laneDeg,
    overlapMm: cut.pieces.length > 1 ? overlapMm : 0,
  };
}

interface Cut {
  readonly pieces: readonly CutPiece[];
  readonly laneDeg: number | null;
}

/** A strip along an edge, in lengths that the roll gives and two hands manage. */
function cutStrip(
  [lengthMm, widthMm]: readonly [number, number],
  angleDeg: number,
  cloth: ClothRow,
  overlapMm: number,
  handsMm: number,
): Cut {
  const bias = angleDeg % 90 !== 0;
  const laneMm = bias ? laneLengthMm(widthMm, angleDeg, cloth.rollWidthMm) : Infinity;
  const lengths = stripLengths(lengthMm, Math.min(handsMm, laneMm), overlapMm);
  if (lengths.length === 0) {
    return { pieces: cutSheet([lengthMm, widthMm], angleDeg, cloth, overlapMm), laneDeg: null };
  }
  return {
    pieces: lengths.map((alongMm) => ({ acrossMm: widthMm, alongMm })),
    laneDeg: bias ? Math.abs(angleDeg) : null,
  };
}

/** A narrow sheet on the bias may cost less cloth in lanes than in roll-wide bands. */
function cheapestCut(
  sizeMm: readonly [number, number],
  angleDeg: number,
  cloth: ClothRow,
  overlapMm: number,
): Cut {
  const bands = { pieces: cutSheet(sizeMm, angleDeg, cloth, overlapMm), laneDeg: null };
  if (angleDeg % 90 === 0) return bands;
  const [lengthMm, girthMm] = sizeMm;
  const along = lengthMm >= girthMm;
  const laneDeg = along ? Math.abs(angleDeg) : 90 - Math.abs(angleDeg);
  const [longMm, wideMm] = along ? [lengthMm, girthMm] : [girthMm, lengthMm];
  const laneMm = laneLengthMm(wideMm, laneDeg, cloth.rollWidthMm);
  const lengths = stripLengths(longMm, laneMm, overlapMm);
  const nest = nestStrips(lengths, wideMm, laneDeg, cloth.rollWidthMm);
  if (!nest || lengths.length === 0) return bands;
  if (nest.lengthMm * cloth.rollWidthMm >= clothArea(bands.pieces)) return bands;
  return { pieces: lengths.map((alongMm) => ({ acrossMm: wideMm, alongMm })), laneDeg };
}

/**
 * Length and girth of one section of a ply, mm: an even share of the longer side, the run past the trim line at the
 * ends of the part alone. What one section's ply lacks at a staggered joint the next one's has, and its overlap.
 */
function sectionSize(
  [lengthMm, girthMm]: readonly [number, number],
  { number, count }: CutSection,
  zone: PartZone,
  { at, of }: Depth,
  library: Library,
): [number, number] {
  const practice = practiceOf(library);
  const evenMm = (Math.max(...sidesOf(zone)) * 1000) / count;
  const stepsMm = ((of - 1) / 2 - at) * stepMm(zone, of, count, library);
  const [first, last] = [number === 1, number === count];
  const ends = (first ? 1 : 0) + (last ? 1 : 0);
  const alongMm = Math.max(
    1,
    evenMm +
      (last ? 0 : stepsMm) +
      (first ? 0 : practice('ply-overlap-mm') - stepsMm) +
      ends * practice('ply-excess-mm'),
  );
  return lengthMm >= girthMm ? [alongMm, girthMm] : [lengthMm, alongMm];
}

/** Length and girth of a sheet, mm: the zone's with its run past the trim line, or a patch's square. */
function sheetSize(zone: PartZone, ply: LaidPly, excessMm: number): [number, number] {
  if (ply.areaM2 !== undefined && ply.areaM2 < zone.areaM2) {
    const sideMm = Math.sqrt(ply.areaM2) * 1000;
    return [sideMm, sideMm];
  }
  const [lengthM, girthM] = sidesOf(zone);
  return [lengthM * 1000 + 2 * excessMm, girthM * 1000 + 2 * excessMm];
}

const stripSize = (zone: PartZone): [number, number] => [zone.edgeM * 1000, zone.closeout!.widthMm];

/** Least length of a strip; a shorter rest is shared with its neighbour. */
const LEAST_STRIP_MM = 200;

/**
 * Splits an edge into strips no longer than a limit that overlap where they meet.
 * @param edgeMm length of the edge
 * @param limitMm longest strip
 * @param overlapMm overlap of neighbouring strips
 * @returns lengths of the strips, mm; empty when the limit is shorter than two overlaps
 */
export function stripLengths(edgeMm: number, limitMm: number, overlapMm: number): number[] {
  if (edgeMm <= 0 || limitMm <= 0 || limitMm < 2 * overlapMm) return [];
  const lengths: number[] = [];
  let restMm = edgeMm;
  while (restMm > limitMm) {
    const nextRest = restMm - (limitMm - overlapMm);
    const takenMm = nextRest < LEAST_STRIP_MM ? Math.max(restMm / 2, overlapMm * 2) : limitMm;
    lengths.push(takenMm);
    restMm -= takenMm - overlapMm;
  }
  lengths.push(restMm);
  return lengths;
}

type Point = readonly [number, number];

/**
 * Cuts a sheet into widths off the roll that overlap where they meet. A balanced cloth at 90 degrees may
 * be cut as at 0.
 * The sheet is given as length and girth, mm.
 * @param angleDeg of the warp to the length, degrees
 * @param overlapMm overlap of neighbouring widths
 */
export function cutSheet(
  [lengthMm, girthMm]: readonly [number, number],
  angleDeg: number,
  cloth: Pick<ClothRow, 'rollWidthMm' | 'e1GPa' | 'e2GPa'>,
  overlapMm: number,
): CutPiece[] {
  const balanced = cloth.e1GPa !== null && cloth.e1GPa === cloth.e2GPa;
  const straight = bands([lengthMm, girthMm], angleDeg, cloth.rollWidthMm, overlapMm);
  if (!balanced || angleDeg % 90 !== 0) return straight;
  const turned = bands([lengthMm, girthMm], angleDeg + 90, cloth.rollWidthMm, overlapMm);
  return clothArea(turned) < clothArea(straight) ? turned : straight;
}

const clothArea = (pieces: readonly CutPiece[]): number =>
  pieces.reduce((sum, piece) => sum + piece.acrossMm * piece.alongMm, 0);

function bands(
  [lengthMm, girthMm]: readonly [number, number],
  angleDeg: number,
  rollWidthMm: number,
  overlapMm: number,
): CutPiece[] {
  const angle = (angleDeg * Math.PI) / 180;
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  // Sheet corners seen from the roll: x across it, y along it.
  const corners: Point[] = [
    [0, 0],
    [lengthMm, 0],
    [lengthMm, girthMm],
    [0, girthMm],
  ].map(([u, v]) => [v! * c - u! * s, u! * c + v! * s]);
  const xs = corners.map(([x]) => x);
  const [fromMm, toMm] = [Math.min(...xs), Math.max(...xs)];
  const acrossMm = toMm - fromMm;
  // On a tape narrower than two overlaps, neighbours overlap by half.
  const step = Math.max(rollWidthMm - overlapMm, rollWidthMm / 2);
  const count =
    acrossMm <= rollWidthMm + 1e-6 ? 1 : Math.ceil((acrossMm - rollWidthMm) / step - 1e-9) + 1;
  return Array.from({ length: count }, (_, i) => {
    const left = fromMm + i * step;
    const piece = clip(clip(corners, left, 1), left + rollWidthMm, -1);
    const across = piece.map(([x]) => x);
    const along = piece.map(([, y]) => y);
    return {
      acrossMm: Math.max(...across) - Math.min(...across),
      alongMm: Math.max(...along) - Math.min(...along),
    };
  });
}

/** The part of a convex polygon on one side of a line along the roll. */
function clip(polygon: readonly Point[], atX: number, side: 1 | -1): Point[] {
  const kept: Point[] = [];
  polygon.forEach((from, i) => {
    const to = polygon[(i + 1) % polygon.length]!;
    const [inFrom, inTo] = [(from[0] - atX) * side >= 0, (to[0] - atX) * side >= 0];
    if (inFrom) kept.push(from);
    if (inFrom !== inTo) {
      const share = (atX - from[0]) / (to[0] - from[0]);
      kept.push([atX, from[1] + share * (to[1] - from[1])]);
    }
  });
  return kept;
}

/** What one cloth takes off its roll. */
export interface ClothUse {
  readonly cloth: ClothRow;
  readonly sheets: RollUse;
  /** One nest for each width and angle of strip. */
  readonly strips: readonly StripNest[];
  /** Off the roll, sheets and strips together, mm. */
  readonly lengthMm: number;
}

/** What each cloth takes off its roll, in the order in which cloths are met; mm. */
export const clothUses = memoByObject((cuts: readonly CutPly[]): readonly ClothUse[] => {
  const cloths = new Map(cuts.map((cut) => [cut.cloth.id, cut.cloth]));
  return [...cloths.values()].map((cloth) => {
    const own = cuts.filter((cut) => cut.cloth.id === cloth.id);
    const square = own.filter((cut) => cut.laneDeg === null);
    const sheets = packOnRoll(square.flatMap(rectangles), cloth.rollWidthMm);
    const strips = stripNests(own, cloth.rollWidthMm);
    const lengthMm = sheets.lengthMm + strips.reduce((sum, nest) => sum + nest.lengthMm, 0);
    return { cloth, sheets, strips, lengthMm };
  });
});

const rectangles = (cut: CutPly): Rectangle[] =>
  cut.pieces.map((piece, i) => ({ ...piece, id: `${cut.number}.${i + 1}` }));

/** Strips at +45 and -45 nest alike, so they share lanes. */
function stripNests(cuts: readonly CutPly[], rollWidthMm: number): StripNest[] {
  const groups = new Map<string, { widthMm: number; laneDeg: number; lengths: number[] }>();
  for (const { laneDeg, pieces } of cuts) {
    if (laneDeg === null) continue;
    for (const { acrossMm, alongMm } of pieces) {
      const key = `${acrossMm}/${laneDeg}`;
      const group = groups.get(key) ?? { widthMm: acrossMm, laneDeg, lengths: [] };
      group.lengths.push(alongMm);
      groups.set(key, group);
    }
  }
  return [...groups.values()].flatMap(
    ({ widthMm, laneDeg, lengths }) => nestStrips(lengths, widthMm, laneDeg, rollWidthMm) ?? [],
  );
}
