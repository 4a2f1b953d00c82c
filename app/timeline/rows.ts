/** The rows of the timeline: the part as it is built up, and which stage stands in which of them. */
import {
  boundaryId,
  isEdgeWait,
  layupOfSurfaceWait,
  readStageId,
  PAINT_WAITS,
  paintWait,
  waitForParty,
} from '../document/ids.ts';
import type { JointState, StageKind, StageResult } from '../document/schema.ts';
import { laminateOf } from '../part/sections.ts';
import type { Layup, LayupId } from '../part/types.ts';
import type { SheetData } from '../shop/sheetData.ts';
import { plural, exact } from '../units/words.ts';

export type RowId = 'ready' | 'mould' | LayupId | 'off' | 'fair' | 'outside' | 'hand-over' | 'own';

/** From top to bottom: in the order in which the part meets them. */
const ROW_ORDER: readonly RowId[] = [
  'ready',
  'mould',
  'inserts',
  'skin',
  'skin-2',
  'skin-3',
  'local',
  'core',
  'inner',
  'inner-2',
  'inner-3',
  'off',
  'repair',
  'local-after',
  'closeout',
  'fair',
  'outside',
  'hand-over',
  'own',
];

/** What a layer of the drawn section is made of. */
export type Material = 'carbon' | 'glass' | 'fibre' | 'foam' | 'wood' | 'cells';

export interface Joint {
  readonly boundary: string;
  /** Of the row above and of this one. */
  readonly before: string;
  readonly after: string;
  readonly state: JointState;
}

export interface PartRow {
  readonly id: RowId;
  readonly title: string;
  readonly under: string;
  /** Null: no layer of the part. */
  readonly material: Material | null;
  /** The joint to the layup above it; null where there is none to choose. */
  readonly joint: Joint | null;
}

const TITLES: Readonly<Record<RowId, string>> = {
  ready: 'Made ready',
  mould: 'Mould',
  inserts: 'Inserts',
  skin: 'Outer skin',
  'skin-2': 'Outer skin 2',
  'skin-3': 'Outer skin 3',
  local: 'Local plies',
  core: 'Core',
  inner: 'Inner skin',
  'inner-2': 'Inner skin 2',
  'inner-3': 'Inner skin 3',
  off: 'Off the mould',
  repair: 'Repair plies',
  'local-after': 'Later plies',
  closeout: 'Closeout',
  fair: 'Fill and fair',
  outside: 'Outside',
  'hand-over': 'Hand over',
  own: 'Other work',
};

/** null: with the layup it belongs to. */
const ROW_OF: Readonly<Record<StageKind, RowId | null>> = {
  'sign-off': 'ready',
  order: 'ready',
  arrival: 'ready',
  'resin-warm': 'ready',
  cutting: 'ready',
  'core-fit': 'ready',
  inserts: 'inserts',
  rehearsal: 'ready',
  'test-panel': 'ready',
  machining: 'mould',
  mould: 'mould',
  seal: 'mould',
  'bag-test': 'mould',
  release: 'mould',
  'mould-heat': 'mould',
  prepare: null,
  'lay-dry': null,
  'drop-test': null,
  layup: null,
  'watched-vacuum': null,
  cure: null,
  'bag-off': null,
  closeout: 'closeout',
  'edge-fill': 'closeout',
  rim: 'closeout',
  'tap-test': 'off',
  'heat-setup': 'off',
  'post-cure': 'off',
  'heat-takedown': 'off',
  demould: 'off',
  repair: 'off',
  trim: 'off',
  'dry-fit': 'closeout',
  'fit-check': 'fair',
  fair: 'fair',
  prime: 'fair',
  wait: 'fair',
  wrap: 'outside',
  drive: 'outside',
  outside: 'outside',
  hardware: 'hand-over',
  'hand-over': 'hand-over',
  own: 'own',
};

/** Kinds that are done on everything under one bag at once. */
const WHOLE_BAG: ReadonlySet<StageKind> = new Set([
  'lay-dry',
  'drop-test',
  'watched-vacuum',
  'cure',
  'bag-off',
]);

/** Waits that belong to an outside party: for its weekday, and for its paint. */
const waitsFor = (party: string): string[] => [
  waitForParty(party),
  ...PAINT_WAITS.map((what) => paintWait(what, party)),
];

/** The rows that a stage lies across: several where one bag holds several layups. */
export function rowsOfStage(facts: SheetData, stage: StageResult): readonly RowId[] {
  const ref = readStageId(stage.id);
  const layup = ref !== null && 'layup' in ref ? ref.layup : null;
  if (stage.kind === 'tap-test' && ref !== null && 'at' in ref && ref.at === 'core')
    return ['core'];
  if (stage.kind === 'wait' && ref !== null && 'for' in ref) {
    if (ref.for === 'seal' || ref.for === 'release') return ['mould'];
    if (ref.for === 'test-panel') return ['ready'];
    if (isEdgeWait(ref.for)) return ['closeout'];
    const dries = layupOfSurfaceWait(ref.for);
    if (dries !== null) return asRows([dries]);
    if (facts.build.outside.some(({ id }) => waitsFor(id).includes(ref.for))) return ['outside'];
    return ['fair'];
  }
  const kind = ROW_OF[stage.kind];
  if (kind !== null && layup === null) return [kind];
  const cure = facts.cures.find(({ id }) => id === stage.cure);
  if (cure && WHOLE_BAG.has(stage.kind)) return asRows(cure.layups.map(({ id }) => id));
  if (cure && stage.kind === 'layup' && layup !== null) {
    return asRows(stretchFrom(facts, stage.cure!, layup));
  }
  if (layup !== null) return asRows([layup]);
  return cure ? asRows(cure.layups.map(({ id }) => id)) : [kind ?? 'own'];
}

const asRows = (layups: readonly string[]): RowId[] => {
  const rows = ROW_ORDER.filter((row) => layups.includes(row));
  return rows.length > 0 ? rows : ['own'];
};

/** The layups laid wet in one go with this one and after it. */
function stretchFrom(facts: SheetData, cure: string, layup: string): string[] {
  const joints = jointsOf(facts);
  const layups = facts.cures.find(({ id }) => id === cure)?.layups ?? [];
  const from = layups.findIndex(({ id }) => id === layup);
  const stretch = [layup];
  for (let i = from + 1; from >= 0 && i < layups.length; i++) {
    if (joints[boundaryId(layups[i - 1]!.id, layups[i]!.id)] !== 'one-bag') break;
    stretch.push(layups[i]!.id);
  }
  return stretch;
}

/** How the layups are joined in the plan that is drawn. */
const jointsOf = ({ result }: SheetData): Readonly<Record<string, JointState>> =>
  result.routes.find(({ id }) => id === result.route.id)?.joints ?? {};

/** The rows of a build: every layup of the part, and whatever else has a stage. */
export function partRows(facts: SheetData, used: ReadonlySet<RowId>): PartRow[] {
  const { layups } = facts.detail.part;
  return ROW_ORDER.filter((id) => used.has(id) || layups.some((layup) => layup.id === id)).map(
    (id): PartRow => {
      const layup = layups.find((one) => one.id === id);
      return {
        id,
        title: layup?.section?.number === 1 ? `${TITLES[id]} 1` : TITLES[id],
        under: layup ? layupWords(facts, layup) : underOf(facts, id),
        material: layup ? materialOf(facts, layup) : null,
        joint: layup ? jointAbove(facts, layup) : null,
      };
    },
  );
}

function jointAbove(facts: SheetData, layup: Layup): Joint | null {
  const chain = facts.detail.part.layups.filter(({ place }) => place === 'chain');
  const at = chain.findIndex(({ id }) => id === layup.id);
  const before = chain[at - 1];
  if (!before || before.section !== null || layup.section !== null) return null;
  const boundary = boundaryId(before.id, layup.id);
  const state = jointsOf(facts)[boundary] ?? 'apart';
  return { boundary, before: TITLES[before.id], after: TITLES[layup.id], state };
}

function pliesOf(facts: SheetData, layup: Layup) {
  const { zones } = facts.build.part;
  switch (laminateOf(layup.id)) {
    case 'skin':
      return zones.flatMap((zone) => zone.outer);
    case 'inner':
      return zones.flatMap((zone) => zone.inner);
    case 'closeout':
      return zones.flatMap((zone) => zone.closeout?.plies ?? []);
    case 'inserts':
      return facts.build.part.inserts;
    case 'repair':
      return zones.flatMap((zone) => zone.outer);
    default:
      return zones.flatMap((zone) => zone.local);
  }
}

function materialOf(facts: SheetData, layup: Layup): Material {
  if (layup.id === 'core') return CORES[coreOf(facts)?.family ?? 'other'] ?? 'foam';
  const ids = pliesOf(facts, layup).map(({ cloth }) => cloth);
  const fibre = facts.detail.library.cloths.find(({ id }) => ids.includes(id))?.fibre;
  return fibre === 'carbon' || fibre === 'glass' ? fibre : 'fibre';
}

const CORES: Readonly<Record<string, Material>> = {
  pvc: 'foam',
  san: 'foam',
  pet: 'foam',
  xps: 'foam',
  eps: 'foam',
  other: 'foam',
  balsa: 'wood',
  honeycomb: 'cells',
};

function coreOf(facts: SheetData) {
  const id = facts.build.part.zones.find((zone) => zone.core)?.core?.material;
  return facts.detail.library.cores.find((row) => row.id === id) ?? null;
}

function layupWords(facts: SheetData, layup: Layup): string {
  if (layup.id === 'core') {
    const mm = facts.build.part.zones.find((zone) => zone.core)?.core?.thicknessMm ?? null;
    const family = coreOf(facts)?.family ?? 'other';
    const name = family.length <= 3 ? family.toUpperCase() : family;
    return mm === null ? name : `${name} ${exact(mm)} mm`;
  }
  if (layup.id === 'closeout') return 'edge, strips';
  return `${plural(layup.plies, 'ply', 'plies')}, ${materialOf(facts, layup)}`;
}

const UNDER: Partial<Readonly<Record<StageKind, string>>> = {
  'sign-off': 'answers',
  order: 'orders',
  cutting: 'cutting',
  'core-fit': 'core fit',
  inserts: 'inserts',
  machining: 'machining',
  seal: 'seal',
  release: 'release',
  'post-cure': 'post-cure',
  demould: 'demould',
  repair: 'repair',
  trim: 'trim',
  'dry-fit': 'dry fit',
  rim: 'potted rim',
  'fit-check': 'fit check',
  fair: 'fair',
  prime: 'prime',
  hardware: 'hardware',
  'hand-over': 'signatures',
};

/** What is done in a row that is no layup, each kind once. */
function underOf(facts: SheetData, row: RowId): string {
  if (row === 'outside') {
    const parties = facts.build.outside.length;
    return parties === 0 ? '' : plural(parties, 'party', 'parties');
  }
  const kinds = facts.placed.flatMap(({ stage }) =>
    rowsOfStage(facts, stage)[0] === row ? [UNDER[stage.kind] ?? ''] : [],
  );
  return [...new Set(kinds.filter((word) => word !== ''))].slice(0, 3).join(', ');
}
