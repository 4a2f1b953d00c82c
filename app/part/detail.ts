/** The laminate of each zone in detail: layers, thickness, fibre, mass by component and its spread. */
import { practiceOf, resinOf } from '../document/library.ts';
import type { FullBuild, Library, PartZone } from '../document/schema.ts';
import { fibreFractionOf, stackOf, type StackPly, type ZoneStack } from './stack.ts';
import type { LayupId, MassBreakdown, PartResult } from './types.ts';
import { massInState, weightRows } from './weight.ts';

/** One layer of the cross-section, mould face at 0. */
export interface SectionLayer {
  readonly kind: 'ply' | 'core';
  readonly layup: LayupId;
  readonly name: string;
  /** null for the core. */
  readonly angleDeg: number | null;
  readonly fromMm: number;
  readonly toMm: number;
  /** Share of the zone that it covers, 0 to 1. */
  readonly cover: number;
}

export interface ZoneDetail {
  readonly zoneId: string;
  /** In order from the mould; plies added after demould come last. */
  readonly layers: readonly SectionLayer[];
  readonly thicknessMm: {
    readonly outer: number;
    readonly core: number;
    readonly inner: number;
    readonly total: number;
  };
  /** Fibre volume fraction of the face, 0 without plies. */
  readonly fibreFraction: { readonly outer: number; readonly inner: number };
  /** g/m2 averaged over the zone, local plies included, closeout, fairing and paint left out. */
  readonly arealGM2: {
    readonly fibre: number;
    readonly resin: number;
    readonly core: number;
    readonly coreResin: number;
  };
}

/**
 * Layers, thickness, fibre fraction and mass of every zone.
 * @param library must hold every cloth and core that the zones name
 * @throws MissingRow
 */
export function zoneDetails(build: FullBuild, library: Library): ZoneDetail[] {
  const matrixKgM3 = resinOf(library, build.resin.system).curedDensityKgM3;
  return build.part.zones.map((zone) => zoneDetail(stackOf(zone, library, matrixKgM3)));
}

/** Layups on the mould side of the core. */
const OUTER_SIDE: ReadonlySet<LayupId> = new Set(['skin', 'local']);

function zoneDetail(stack: ZoneStack): ZoneDetail {
  const { zone, plies, core } = stack;
  const outer = plies.filter((ply) => OUTER_SIDE.has(ply.layup));
  const inner = plies.filter((ply) => !OUTER_SIDE.has(ply.layup));
  const thick = (list: readonly StackPly[]): number =>
    list.reduce((total, ply) => total + (ply.whole ? ply.thicknessMm : 0), 0);
  const average = (pick: (ply: StackPly) => number): number =>
    plies.reduce((total, ply) => total + pick(ply) * (ply.areaM2 / zone.areaM2), 0);
  const coreMm = core?.thicknessMm ?? 0;
  const wetted = core ? core.outerUptakeGM2 + (inner.length > 0 ? core.innerUptakeGM2 : 0) : 0;
  return {
    zoneId: zone.id,
    layers: sectionLayers(zone, outer, core, inner),
    thicknessMm: {
      outer: thick(outer),
      core: coreMm,
      inner: thick(inner),
      total: thick(outer) + coreMm + thick(inner),
    },
    fibreFraction: { outer: fibreFractionOf(outer), inner: fibreFractionOf(inner) },
    arealGM2: {
      fibre: average((ply) => ply.fibreGM2),
      resin: average((ply) => ply.resinGM2),
      core: core?.massGM2 ?? 0,
      coreResin: wetted,
    },
  };
}

function sectionLayers(
  zone: PartZone,
  outer: readonly StackPly[],
  core: ZoneStack['core'],
  inner: readonly StackPly[],
): SectionLayer[] {
  let atMm = 0;
  const layer = (
    thicknessMm: number,
    rest: Omit<SectionLayer, 'fromMm' | 'toMm'>,
  ): SectionLayer => {
    const fromMm = atMm;
    atMm += thicknessMm;
    return { ...rest, fromMm, toMm: atMm };
  };
  const plyLayer = (ply: StackPly): SectionLayer =>
    layer(ply.thicknessMm, {
      kind: 'ply',
      layup: ply.layup,
      name: ply.cloth.name,
      angleDeg: ply.angleDeg,
      cover: Math.min(1, ply.areaM2 / zone.areaM2),
    });
  const coreLayer = core
    ? [{ kind: 'core', layup: 'core', name: core.row.name, angleDeg: null, cover: 1 } as const]
    : [];
  return [
    ...outer.map(plyLayer),
    ...coreLayer.map((rest) => layer(core!.thicknessMm, rest)),
    ...inner.map(plyLayer),
  ];
}

/** A mass as hand work leaves it: usual, and the light and heavy end, kg. */
export interface MassRange {
  readonly lowKg: number;
  readonly usualKg: number;
  readonly highKg: number;
}

/** The part's mass at each state in which it can be weighed, against the target. */
export interface WeightStatement {
  readonly shell: MassRange;
  readonly faired: MassRange;
  readonly painted: MassRange;
  readonly target: {
    readonly massKg: number;
    readonly includes: FullBuild['part']['targetIncludes'];
    /** Usual mass over the target; negative below it. */
    readonly overKg: number;
    /** `met`: even the heavy end is within; `missed`: even the light end is over. */
    readonly verdict: 'met' | 'likely' | 'unlikely' | 'missed';
  } | null;
}

/**
 * Weight with the spread that hand work brings: resin content either way, fairing and paint more so.
 * The spreads add up, since the same hands lay every zone.
 * @param fillerKg filler of the route, beyond the part's own fairing, kg
 * @throws MissingRow
 */
export function weightStatement(
  build: FullBuild,
  part: PartResult,
  library: Library,
  fillerKg = 0,
): WeightStatement {
  const practice = practiceOf(library);
  const resinSpread = practice('hand-resin-spread');
  const coatSpread = practice('fairing-spread');
  const { resin, coreResin, closeout, paint }: MassBreakdown = part.massKg;
  const rows = weightRows(part.massKg, fillerKg);
  const range = (usualKg: number, eitherWayKg: number): MassRange => ({
    lowKg: usualKg - eitherWayKg,
    usualKg,
    highKg: usualKg + eitherWayKg,
  });
  const fairing = part.massKg.fairing + fillerKg;
  const shellSpread = (resin + coreResin + closeout / 2) * resinSpread;
  const shell = range(massInState(rows, 'shell'), shellSpread);
  const faired = range(massInState(rows, 'faired'), shellSpread + fairing * coatSpread);
  const painted = range(massInState(rows, 'painted'), shellSpread + (fairing + paint) * coatSpread);
  const { targetMassKg, targetIncludes } = build.part;
  if (targetMassKg === null) return { shell, faired, painted, target: null };
  const counted = { shell, faired, painted }[targetIncludes];
  return {
    shell,
    faired,
    painted,
    target: {
      massKg: targetMassKg,
      includes: targetIncludes,
      overKg: shownKg(counted.usualKg) - targetMassKg,
      verdict: verdict(counted, targetMassKg),
    },
  };
}

/** To the hundredth that is shown, so that the difference is that of the figures shown. */
const shownKg = (massKg: number): number => Math.round(massKg * 100) / 100;

function verdict(mass: MassRange, targetKg: number): 'met' | 'likely' | 'unlikely' | 'missed' {
  if (mass.highKg <= targetKg) return 'met';
  if (mass.lowKg > targetKg) return 'missed';
  return mass.usualKg <= targetKg ? 'likely' : 'unlikely';
}
