/** The laminations of the part: what could be cured on its own, with resin and hands. */
import { practiceIf, practiceOf } from '../document/library.ts';
import type { Library, Process } from '../document/schema.ts';
import { labourById, shapedFactor } from './labour.ts';
import type { StackPly, ZoneStack } from './stack.ts';
import { LAYUP_NAMES } from '../messages/layups.ts';
import { LAYUP_IDS, type Layup, type LayupId, type LayupPlace } from './types.ts';

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
 * @throws MissingRow when a labour or practice row is absent.
 */
export function layupsOf(
  stacks: readonly ZoneStack[],
  closeouts: readonly CloseoutStrips[],
  pace: number,
  library: Library,
  process: Process = 'bagged',
): Layup[] {
  const layups: Layup[] = [];
  for (const id of LAYUP_IDS) {
    const shares =
      id === 'closeout'
        ? closeouts.map((strips) => closeoutShare(strips, library))
        : stacks.flatMap((stack) => shareOf(id, stack, library) ?? []);
    if (shares.length > 0) layups.push(toLayup(id, shares, { pace, library, process }));
  }
  return layups;
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
  local: 'layup',
  core: 'layup-core',
  inner: 'layup',
  'local-after': 'layup',
  closeout: 'layup-strips',
  inserts: 'layup-inserts',
  repair: 'layup-repair',
};

const PLACES: Readonly<Record<LayupId, LayupPlace>> = {
  inserts: 'beside',
  skin: 'chain',
  local: 'chain',
  core: 'chain',
  inner: 'chain',
  repair: 'after-demould',
  'local-after': 'after-trim',
  closeout: 'after-trim',
};

/** Id of the labour row of a layup: a core bond and edge strips go at their own pace. */
export const layupRow = (id: LayupId): string => LAYUP_ROWS[id];

function shareOf(id: LayupId, stack: ZoneStack, library: Library): Share | null {
  if (id === 'core') return coreShare(stack, library);
  const plies = stack.plies.filter((ply) => ply.layup === id);
  if (plies.length === 0) return null;
  const { zone, core } = stack;
  const areaM2 = Math.max(...plies.map((ply) => ply.areaM2));
  const cut = plies.map((ply) => cutAreaM2(ply, zone.edgeM, library));
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
  const overlapped = ply.areaM2 * overlapFactor(ply, library);
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
}

/** Plies that resin is drawn into under a mesh of their own. */
const UNDER_MESH: ReadonlySet<LayupId> = new Set(['skin', 'inner', 'local-after']);
/** What lies under the mesh of a skin, where it is infused. */
const WITH_SKIN: ReadonlySet<LayupId> = new Set(['local', 'core']);

/** Resin that is mixed for a layup: what stays in it, what goes into bleed or mesh and lines, what is left over. */
function mixedFor(id: LayupId, resinG: number, areaM2: number, { library, process }: Way): number {
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
  const { pace, library } = way;
  const row = labourById(library, layupRow(id));
  const total = (pick: (share: Share) => number): number => sum(shares.map(pick));
  const areaM2 = total((s) => s.areaM2);
  const edgeM = total((s) => s.edgeM);
  const plyAreaM2 = total((s) => s.plyAreaM2);
  const plies = Math.max(...shares.map((s) => s.plies));
  const resinG = total((s) => s.resinG);
  return {
    id,
    name: LAYUP_NAMES[id],
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
    partOf: id === 'local' && practiceIf(library, 'local-plies-with-skin') === 1 ? 'skin' : null,
    peopleMin: row.peopleMin,
    peopleMax: row.peopleMax,
    infused: way.process === 'infused' && PLACES[id] === 'chain' && plies > 0,
    hasCore: id === 'core',
    vertical: shares.some((s) => s.vertical),
    thicknessMm: Math.max(...shares.map((s) => s.thicknessMm)),
  };
}

const sum = (values: readonly number[]): number => values.reduce((total, v) => total + v, 0);
