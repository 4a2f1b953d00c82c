/** The laminations of the part: what could be cured on its own, with resin and hands. */
import { practiceIf, practiceOf } from '../document/library.ts';
import type { Library, Process } from '../document/schema.ts';
import { labourById, shapedFactor } from './labour.ts';
import type { StackPly, ZoneStack } from './stack.ts';
import { layupName } from '../messages/layups.ts';
import { bandOf, jointOf, laminateOf, sectionPlace, type Sections } from './sections.ts';
import { LAYUP_IDS, type Layup, type LayupId, type LayupPlace, type Section } from './types.ts';

/** What one zone brings to one layup. */
interface Share {
  readonly areaM2: number;
  readonly plyAreaM2: number;
  readonly plies: number;
  readonly edgeM: number;
  /** Resin that ends in the layup, trimmings included, g. */
  readonly resinG: number;
  /** By area; and by ply, in proportion to its area. */
  readonly handsMinutes: number;
  readonly plyMinutes: number;
  readonly vertical: boolean;
  readonly thicknessMm: number;
}

/**
 * Layups that hold something, chain order first, then those made on the trimmed part.
 * @param pace hands-on time against a crew that knows such parts
 * @param sections that skins are laid in, each a layup of its own
 * @throws MissingRow when a labour or practice row is absent.
 */
export function layupsOf(
  stacks: readonly ZoneStack[],
  closeouts: readonly CloseoutStrips[],
  pace: number,
  library: Library,
  process: Process = 'bagged',
  sections: Sections = { skin: 1, inner: 1 },
): Layup[] {
  const layups: Layup[] = [];
  for (const id of LAYUP_IDS) {
    const section = sectionOf(id, stacks, sections, library);
    if (section === 'none') continue;
    const shares =
      id === 'closeout'
        ? closeouts.map((strips) => closeoutShare(strips, library))
        : stacks.flatMap((stack) => shareOf(laminateOf(id), stack, section, library) ?? []);
    const way = { pace, library, process, section, splitSkin: sections.skin > 1 };
    if (shares.length > 0) layups.push(toLayup(id, shares, way));
  }
  return layups;
}

/** What section of its skin a layup is: null for one that is laid in one, `none` for one that is not laid at all. */
function sectionOf(
  id: LayupId,
  stacks: readonly ZoneStack[],
  sections: Sections,
  library: Library,
): Section | null | 'none' {
  const place = sectionPlace(id);
  if (!place) return null;
  const { of, number } = place;
  const plies = ({ plies: all }: ZoneStack): number =>
    all.filter((ply) => ply.layup === of && ply.whole).length;
  const own = stacks.filter((stack) => plies(stack) > 0);
  const count = own.length > 0 ? sections[of] : 1;
  if (number > count) return 'none';
  if (count === 1) return null;
  const joints = number === 1 ? [] : own;
  return {
    of,
    number,
    count,
    jointM: sum(joints.map(({ zone }) => jointOf(zone))),
    bandM2: sum(joints.map((stack) => bandOf(stack.zone, plies(stack), count, library))),
  };
}

/** Strips that close the edge of one zone. */
export interface CloseoutStrips {
  readonly plies: readonly StackPly[];
  readonly widthMm: number;
  readonly edgeM: number;
  readonly vertical: boolean;
  readonly shape: 'flat' | 'single' | 'double';
}

const LAYUP_ROWS: Readonly<Record<LayupId, string>> = {
  skin: 'layup',
  'skin-2': 'layup',
  'skin-3': 'layup',
  local: 'layup',
  core: 'layup-core',
  inner: 'layup',
  'inner-2': 'layup',
  'inner-3': 'layup',
  'local-after': 'layup',
  closeout: 'layup-strips',
  inserts: 'layup-inserts',
  repair: 'layup-repair',
};

const PLACES: Readonly<Record<LayupId, LayupPlace>> = {
  inserts: 'beside',
  skin: 'chain',
  'skin-2': 'chain',
  'skin-3': 'chain',
  local: 'chain',
  core: 'chain',
  inner: 'chain',
  'inner-2': 'chain',
  'inner-3': 'chain',
  repair: 'after-demould',
  'local-after': 'after-trim',
  closeout: 'after-trim',
};

/** Id of the labour row of a layup: a core bond and edge strips go at their own pace. */
export const layupRow = (id: LayupId): string => LAYUP_ROWS[id];

function shareOf(
  id: LayupId,
  whole: ZoneStack,
  section: Section | null,
  library: Library,
): Share | null {
  if (id === 'core') return coreShare(whole, library);
  const stack = section ? stackInSection(whole, id, section) : whole;
  const plies = stack.plies.filter((ply) => ply.layup === id);
  if (plies.length === 0) return null;
  const { zone, core, trimM } = { trimM: stack.zone.edgeM, ...stack };
  const areaM2 = Math.max(...plies.map((ply) => (ply.whole ? zone.areaM2 : ply.areaM2)));
  const cut = plies.map((ply) => cutAreaM2(ply, trimM, library));
  const plyAreaM2 = sum(cut);
  const uptakeG = id === 'inner' && core ? core.innerUptakeGM2 * zone.areaM2 : 0;
  return {
    areaM2,
    plyAreaM2,
    plies: plies.length,
    edgeM: plies.some((ply) => ply.whole) ? zone.edgeM : 4 * Math.sqrt(areaM2),
    resinG: sum(plies.map((ply, i) => ply.resinGM2 * cut[i]!)) + uptakeG,
    handsMinutes: areaMinutes(id, areaM2, zone, library),
    plyMinutes: plyMinutes(id, plyAreaM2, zone, library),
    vertical: zone.vertical,
    thicknessMm: sum(plies.map((ply) => ply.thicknessMm)),
  };
}

/**
 * What one section lays of a zone: an even share of what covers all of it, and from the second on the overlap over
 * the section before; patches go down with the first. Its bag runs along its own joints as well.
 */
function stackInSection(
  { zone, plies, core }: ZoneStack,
  id: LayupId,
  { number, count }: Section,
): ZoneStack & { readonly trimM: number } {
  const own = plies.filter((ply) => ply.layup === id && (ply.whole || number === 1));
  const trimM = zone.edgeM / count;
  const jointsM = (2 * (count - 1) * jointOf(zone)) / count;
  return {
    zone: { ...zone, areaM2: zone.areaM2 / count, edgeM: trimM + jointsM },
    plies: own.map((ply) =>
      ply.whole
        ? {
            ...ply,
            areaM2: ply.areaM2 / count,
            doubledM2: number === 1 ? 0 : ply.doubledM2 / (count - 1),
          }
        : ply,
    ),
    core,
    trimM,
  };
}

function coreShare({ zone, core }: ZoneStack, library: Library): Share | null {
  if (!core) return null;
  return {
    areaM2: zone.areaM2,
    plyAreaM2: 0,
    plies: 0,
    edgeM: zone.edgeM,
    resinG: core.outerUptakeGM2 * zone.areaM2,
    handsMinutes: areaMinutes('core', zone.areaM2, zone, library),
    plyMinutes: 0,
    vertical: zone.vertical,
    thicknessMm: core.thicknessMm,
  };
}

function closeoutShare(strips: CloseoutStrips, library: Library): Share {
  const areaM2 = (strips.widthMm / 1000) * strips.edgeM;
  const plyAreaM2 = areaM2 * strips.plies.length;
  return {
    areaM2,
    plyAreaM2,
    plies: strips.plies.length,
    edgeM: strips.edgeM,
    resinG: areaM2 * sum(strips.plies.map((ply) => ply.resinGM2)),
    handsMinutes: areaMinutes('closeout', areaM2, strips, library),
    plyMinutes: plyMinutes('closeout', plyAreaM2, strips, library),
    vertical: strips.vertical,
    thicknessMm: sum(strips.plies.map((ply) => ply.thicknessMm)),
  };
}

/** Area of cloth laid for one ply: overlaps at roll joints, and the run past the trim line, m2. */
function cutAreaM2(ply: StackPly, edgeM: number, library: Library): number {
  const practice = practiceOf(library);
  const overlapped = (ply.areaM2 + ply.doubledM2) * overlapFactor(ply, library);
  return ply.whole ? overlapped + (edgeM * practice('ply-excess-mm')) / 1000 : overlapped;
}

/**
 * Laid area over net area of a ply, 1 or more: neighbouring widths off the roll overlap.
 * @throws MissingRow when the library lacks the overlap
 */
export function overlapFactor(ply: StackPly, library: Library): number {
  return 1 + practiceOf(library)('ply-overlap-mm') / ply.cloth.rollWidthMm;
}

type Where = { readonly shape: 'flat' | 'single' | 'double'; readonly vertical: boolean };

function areaMinutes(id: LayupId, areaM2: number, where: Where, library: Library): number {
  const row = labourById(library, layupRow(id));
  return row.minutesPerM2 * areaM2 * shapedFactor(row, where);
}

function plyMinutes(id: LayupId, plyAreaM2: number, where: Where, library: Library): number {
  const row = labourById(library, layupRow(id));
  return row.minutesPerPlyM2 * plyAreaM2 * shapedFactor(row, where);
}

/**
 * A large ply takes less for its square metre than a small one: its minutes grow with its area to a power
 * of the row. The rate stands for a ply of 1 m2.
 */
const sizeFactor = (exponent: number, plyAreaM2: number, plies: number): number =>
  plies > 0 && plyAreaM2 > 0 ? (plyAreaM2 / plies) ** (exponent - 1) : 1;

interface Way {
  readonly pace: number;
  readonly library: Library;
  readonly process: Process;
  readonly section: Section | null;
  /** The outer skin is laid in sections: nothing goes down wet with all of it. */
  readonly splitSkin: boolean;
}

/** Plies that resin is drawn into under a mesh of their own. */
const UNDER_MESH: ReadonlySet<LayupId> = new Set(['skin', 'inner', 'local-after']);
/** What lies under the mesh of a skin, where it is infused. */
const WITH_SKIN: ReadonlySet<LayupId> = new Set(['local', 'core']);

/** Resin that is mixed for a layup: what stays in it, what goes into bleed or mesh and lines, what is left over. */
function mixedFor(
  id: LayupId,
  resinG: number,
  areaM2: number,
  { library, process }: Pick<Way, 'library' | 'process'>,
): number {
  const practice = practiceOf(library);
  const isDrawn = process === 'infused' && (UNDER_MESH.has(id) || WITH_SKIN.has(id));
  const beyondGM2 = !isDrawn
    ? practice('bleed-g-m2')
    : UNDER_MESH.has(id)
      ? practice('infusion-mesh-resin-g-m2')
      : 0;
  const left = practice(isDrawn ? 'infusion-left-share' : 'cup-loss-share');
  return (resinG + beyondGM2 * areaM2) / (1 - left);
}

function toLayup(id: LayupId, shares: readonly Share[], way: Way): Layup {
  const { pace, library, section, splitSkin } = way;
  const row = labourById(library, layupRow(id));
  const total = (pick: (share: Share) => number): number => sum(shares.map(pick));
  const areaM2 = total((s) => s.areaM2);
  const edgeM = total((s) => s.edgeM);
  const plyAreaM2 = total((s) => s.plyAreaM2);
  const plies = Math.max(...shares.map((s) => s.plies));
  const resinG = total((s) => s.resinG);
  return {
    id,
    name: layupName(id, section !== null),
    place: PLACES[id],
    areaM2,
    plyAreaM2,
    plies,
    edgeM,
    mixedG: mixedFor(id, resinG, areaM2, way),
    personMinutes:
      pace *
      (row.setupMinutes +
        total((s) => s.handsMinutes) +
        total((s) => s.plyMinutes) * sizeFactor(row.plyExponent, plyAreaM2, plies) +
        row.minutesPerEdgeM * edgeM),
    setupMinutes: pace * row.setupMinutes,
    partOf:
      id === 'local' && !splitSkin && practiceIf(library, 'local-plies-with-skin') === 1
        ? 'skin'
        : null,
    section,
    peopleMin: row.peopleMin,
    peopleMax: row.peopleMax,
    infused: way.process === 'infused' && PLACES[id] === 'chain' && plies > 0,
    hasCore: id === 'core',
    vertical: shares.some((s) => s.vertical),
    thicknessMm: Math.max(...shares.map((s) => s.thicknessMm)),
  };
}

const sum = (values: readonly number[]): number => values.reduce((total, v) => total + v, 0);
