/** What to buy or take from stock for the whole build. */
import { kitLineId } from '../document/ids.ts';
import {
  clothOf,
  coreOf,
  hardenerOf,
  mouldOf,
  practiceIf,
  practiceOf,
  releaseOf,
  resinOf,
} from '../document/library.ts';
import type { ConsumableRow, FullBuild, Library, PartZone, Process } from '../document/schema.ts';
import { exact } from '../units/words.ts';
import type { ClothUse } from './cuts.ts';
import { zonesFinished } from '../document/finish.ts';
import { fillWayOf } from './filling.ts';
import { insertClothM2, rimKg } from './inserts.ts';
import { mouldAreaM2 } from './labour.ts';
import { machinedBy } from './machining.ts';
import { processBeside, processOf, timesInBag } from './process.ts';
import { coatedAgainM2 } from './sectionWork.ts';
import type { ZoneStack } from './stack.ts';
import type { KitLine, Layup } from './types.ts';

/** Everything the kit is counted from. */
export interface KitBasis {
  readonly build: FullBuild;
  readonly library: Library;
  readonly stacks: readonly ZoneStack[];
  readonly layups: readonly Layup[];
  readonly cloths: readonly ClothUse[];
}

/**
 * The kit for a number of bagged cures and mixed batches. Empty without zones.
 * @param hardeners of each layup, by layup id; the build's own where it names none
 * @param fillerKg filler that the route asks for beyond the fairing of the part, kg
 * @throws MissingRow
 */
export function kitLines(
  basis: KitBasis,
  bags: number,
  batches: number,
  hardeners: Readonly<Record<string, string>> = {},
  fillerKg = 0,
): KitLine[] {
  if (basis.stacks.length === 0) return [];
  return [
    ...clothLines(basis),
    ...coreLines(basis),
    ...resinLines(basis, hardeners),
    ...consumableLines(basis, bags, batches, fillerKg),
    ...mouldLines(basis),
  ];
}

/** Cloth is bought off the roll by the tenth of a metre, with enough of each for one repair. */
function clothLines({ cloths, build, library }: KitBasis): KitLine[] {
  const spareM2 = practiceIf(library, 'spare-cloth-m2') ?? 0;
  const inserts = insertClothM2(build);
  const laid = new Set(cloths.map(({ cloth }) => cloth.id));
  const others = [...inserts.keys()]
    .filter((id) => !laid.has(id))
    .map((id) => ({ cloth: clothOf(library, id), lengthMm: 0 }));
  return [...cloths, ...others].map(({ cloth, lengthMm }) => {
    const insertsM2 = inserts.get(cloth.id) ?? 0;
    const spareMm = ((spareM2 + insertsM2) * 1e6) / cloth.rollWidthMm;
    const rollM = roundedUp((lengthMm + spareMm) / 1000, 10);
    const quantity = (rollM * cloth.rollWidthMm) / 1000;
    return {
      id: cloth.id,
      name: cloth.name,
      group: 'cloth',
      quantity,
      unit: 'm2',
      costMinor: costOf(quantity, cloth),
      leadDays: cloth.leadDays,
      supplier: cloth.supplier,
      provenance: cloth.provenance,
      step: cloth.rollWidthMm / 10_000,
      detail: `${exact(rollM)} m off a roll ${cloth.rollWidthMm} mm wide`,
    };
  });
}

function coreLines({ stacks, library }: KitBasis): KitLine[] {
  const needs = new Map<string, { material: string; thicknessMm: number; areaM2: number }>();
  for (const { zone } of stacks) {
    if (!zone.core) continue;
    const { material, thicknessMm } = zone.core;
    const key = kitLineId({ kind: 'core', material, thicknessMm });
    const areaM2 = (needs.get(key)?.areaM2 ?? 0) + zone.areaM2;
    needs.set(key, { material, thicknessMm, areaM2 });
  }
  const waste = practiceOf(library)('core-waste-share');
  return [...needs].map(([id, need]) => {
    const row = coreOf(library, need.material);
    const [widthMm, lengthMm] = row.sheetMm;
    const sheetM2 = (widthMm * lengthMm) / 1e6;
    const sheets = roundedUp((need.areaM2 * (1 + waste)) / sheetM2, 1);
    const quantity = sheets * sheetM2;
    return {
      id,
      name: `${row.name}, ${exact(need.thicknessMm)} mm`,
      group: 'core',
      quantity,
      unit: 'm2',
      costMinor: costOf((quantity * need.thicknessMm) / 1000, row),
      leadDays: row.leadDays,
      supplier: row.supplier,
      provenance: row.provenance,
      step: sheetM2,
      detail: `${sheets} ${sheets === 1 ? 'sheet' : 'sheets'} of ${lengthMm} x ${widthMm} mm`,
    };
  });
}

/** Resin once, and every hardener for the layups that are mixed with it; enough over for one repair. */
function resinLines(
  { build, library, layups }: KitBasis,
  hardeners: Readonly<Record<string, string>>,
): KitLine[] {
  const resin = resinOf(library, build.resin.system);
  const mixedG = new Map<string, number>();
  const spareG = (practiceIf(library, 'spare-resin-kg') ?? 0) * 1000;
  for (const layup of layups) {
    // What a repair takes is what lies over for it.
    if (layup.id === 'repair' && spareG >= layup.mixedG) continue;
    const id = hardeners[layup.id] ?? build.resin.hardener;
    mixedG.set(id, (mixedG.get(id) ?? 0) + layup.mixedG);
  }
  const first = [...mixedG].find(([, mass]) => mass > 0);
  if (first) mixedG.set(first[0], first[1] + spareG);
  const mixes = [...mixedG]
    .filter(([, mass]) => mass > 0)
    .map(([id, mass]) => {
      const hardener = hardenerOf(library, { system: resin.id, hardener: id });
      const resinKg = roundedUp(mass / 1000 / (1 + hardener.partsPer100ByMass / 100), 10);
      return { hardener, resinKg };
    });
  if (mixes.length === 0) return [];
  const resinKg = mixes.reduce((sum, mix) => sum + mix.resinKg, 0);
  return [
    { row: resin, id: resin.id, quantity: roundedUp(resinKg, 10) },
    ...mixes.map(({ hardener, resinKg: own }) => ({
      row: hardener,
      id: kitLineId({ kind: 'hardener', resin: resin.id, hardener: hardener.id }),
      quantity: roundedUp((own * hardener.partsPer100ByMass) / 100, 100),
    })),
  ].map(({ row, id, quantity }) => ({
    id,
    name: row.name,
    group: 'resin',
    quantity,
    unit: 'kg',
    costMinor: costOf(quantity, row),
    leadDays: row.leadDays,
    supplier: row.supplier,
    provenance: row.provenance,
    step: 0.01,
  }));
}

function consumableLines(
  basis: KitBasis,
  bags: number,
  batches: number,
  fillerKg: number,
): KitLine[] {
  const { build, library } = basis;
  const planned = fillWayOf(build, library)?.row;
  const filler =
    planned ?? library.consumables.find((row) => row.use === 'filler' && row.unit === 'kg');
  const process = processOf(build);
  const bagged = baggedReach(basis.layups, reachOf(build.part.zones), bags);
  return library.consumables
    .map((row) => {
      const fill = row.filling && fillWayOf(build, library);
      if (row.filling && fill?.row.id !== row.id) return consumableLine(row, 0);
      if (row.use === 'sealer') return consumableLine(row, sealerKg(basis, row));
      if (row.use === 'edge-filler') {
        return consumableLine(row, build.part.edge?.rim ? 0 : row.perEdgeM * filledEdgeM(basis));
      }
      if (row.use === 'potting') {
        return consumableLine(row, rimKg(build, filledEdgeM(basis), library) * POTTING_OVER);
      }
      const zones = zonesFinished(build, row.finishes);
      const extra = row === filler ? fillerKg : 0;
      const lifted = fill ? 1 + fill.laterShare * (fill.lifts - 1) : 1;
      if (zones.length === 0) return consumableLine(row, extra);
      const reach = row.everyBag ? inBags(row, process, bagged) : { ...reachOf(zones), bags: 1 };
      const raw =
        row.perM2 * lifted * reach.areaM2 +
        row.perEdgeM * reach.edgeM +
        row.perBatch * batches +
        row.fixed * reach.bags +
        extra;
      return consumableLine(row, raw);
    })
    .filter((line) => line.quantity > 0);
}

/** Seal coats over the mould and its flange; none on a mould that stands sealed. */
function sealerKg({ build, library, stacks }: KitBasis, row: ConsumableRow): number {
  if (build.mould.sealed) return 0;
  return (
    row.perM2 * mouldOf(library, build.mould.material).sealCoats * mouldAreaM2(stacks, library)
  );
}

/** Potting that stays in cups and is sanded off. */
const POTTING_OVER = 1.15;

/** Edge whose core is cut back and filled, m. */
const filledEdgeM = ({ stacks }: KitBasis): number =>
  stacks.reduce((sum, { zone, core }) => sum + (core && zone.closeout ? zone.edgeM : 0), 0);

const reachOf = (zones: readonly PartZone[]): { areaM2: number; edgeM: number } => ({
  areaM2: zones.reduce((total, zone) => total + zone.areaM2, 0),
  edgeM: zones.reduce((total, zone) => total + zone.edgeM, 0),
});

interface Reach {
  readonly areaM2: number;
  readonly edgeM: number;
  readonly bags: number;
}

/** Area and edge under the bags in the mould, those of a section only as big as it, and under those beside it, each as big as its edge or patch. */
function baggedReach(
  layups: readonly Layup[],
  whole: { areaM2: number; edgeM: number },
  bags: number,
): { readonly inMould: Reach; readonly beside: Reach } {
  const small = layups.filter((layup) => layup.place !== 'chain').slice(0, bags);
  const inMould = bags - small.length;
  const sections = layups.filter(({ section }) => section !== null).slice(0, inMould);
  const big = inMould - sections.length;
  const ofSections = (of: 'areaM2' | 'edgeM'): number =>
    sections.reduce((total, layup) => total + layup[of], 0);
  return {
    inMould: {
      areaM2: big * whole.areaM2 + ofSections('areaM2'),
      edgeM: big * whole.edgeM + ofSections('edgeM'),
      bags: inMould,
    },
    beside: {
      areaM2: small.reduce((total, layup) => total + layup.areaM2, 0),
      edgeM: small.reduce((total, layup) => total + layup.edgeM, 0),
      bags: small.length,
    },
  };
}

/** What of all bags a row lies in, as often as it lies there. */
function inBags(
  row: ConsumableRow,
  process: Process,
  { inMould, beside }: ReturnType<typeof baggedReach>,
): Reach {
  const [there, here] = [timesInBag(row, process), timesInBag(row, processBeside(process))];
  const sum = (of: keyof Reach): number => there * inMould[of] + here * beside[of];
  return { areaM2: sum('areaM2'), edgeM: sum('edgeM'), bags: sum('bags') };
}

function consumableLine(row: ConsumableRow, raw: number): KitLine {
  const quantity = row.unit === 'piece' ? roundedUp(raw, 1) : roundedUp(raw, 10);
  return {
    id: row.id,
    name: row.name,
    group: 'consumable',
    quantity,
    unit: row.unit,
    costMinor: costOf(quantity, row),
    leadDays: row.leadDays,
    supplier: row.supplier,
    provenance: row.provenance,
    step: row.unit === 'piece' ? 1 : 0.1,
  };
}

function mouldLines({ build, library, stacks, layups }: KitBasis): KitLine[] {
  const areaM2 = roundedUp(mouldAreaM2(stacks, library), 10);
  const release = releaseOf(library, build.mould.release);
  // The price of a square metre is that of all its coats; a section gets one more.
  const againM2 = layups.reduce(
    (total, layup) => total + coatedAgainM2(layup, build, library) / release.coats,
    0,
  );
  const releaseM2 = roundedUp(areaM2 + againM2, 10);
  const lines: KitLine[] = [
    {
      id: release.id,
      name: release.name,
      group: 'release',
      quantity: releaseM2,
      unit: 'm2',
      costMinor: costOf(releaseM2, release),
      leadDays: release.leadDays,
      supplier: release.supplier,
      provenance: release.provenance,
      step: 0.1,
    },
  ];
  const mould = mouldOf(library, build.mould.material);
  const line = (
    id: string,
    name: string,
    priceMinor: number,
    leadDays: number | null,
  ): KitLine => ({
    id,
    name,
    group: 'mould',
    quantity: areaM2,
    unit: 'm2',
    costMinor: Math.round(areaM2 * priceMinor),
    leadDays,
    supplier: mould.supplier,
    provenance: mould.provenance,
    step: 0.1,
  });
  if (build.mould.sealed) return lines;
  if (mould.blankMinorPerM2 > 0) {
    lines.push(
      line(
        kitLineId({ kind: 'mould', mould: mould.id, of: 'blank' }),
        `${mould.name}: mould blank`,
        mould.blankMinorPerM2,
        mould.blankLeadDays,
      ),
    );
  }
  const by = machinedBy(build);
  const { machiningMinor } = build.mould;
  const rated = by === 'outside' && mould.machiningMinorPerM2 > 0;
  if (by === 'outside' || by === 'house') {
    if (machiningMinor === null && !rated) return lines;
    // The days of machining are planned with its stage.
    const own = line(
      kitLineId({ kind: 'mould', mould: mould.id, of: 'machining' }),
      `${mould.name}: machining`,
      mould.machiningMinorPerM2,
      0,
    );
    lines.push(machiningMinor === null ? own : { ...own, costMinor: Math.round(machiningMinor) });
  }
  return lines;
}

/** Price of a quantity in whole minor units; null where the row has none. */
const costOf = (quantity: number, row: { readonly priceMinor: number | null }): number | null =>
  row.priceMinor === null || row.priceMinor === 0 ? null : Math.round(quantity * row.priceMinor);

/** Rounded up to a whole number of `1 / steps`; a hair over a step is that step. */
const roundedUp = (value: number, steps: number): number => Math.ceil(value * steps - 1e-9) / steps;
