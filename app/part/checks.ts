/**
 * What in the part does not go together, or is out of the usual range, as findings of each zone and of
 * the whole part. Limits are rows of the library.
 */
import { coreOf, mouldOf, practiceOf, releaseOf, resinOf } from '../document/library.ts';
import type {
  CoreRow,
  Finding,
  FullBuild,
  Library,
  MouldRow,
  PartZone,
} from '../document/schema.ts';
import { finding } from '../messages/findings.ts';
import { processOf } from './process.ts';
import { stackOf, type ZoneStack } from './stack.ts';

/** A finding about the part, and the zone that it is about. */
export interface PartCheck {
  /** null: the whole part. */
  readonly zoneId: string | null;
  readonly finding: Finding;
}

/** All facts of a build, in the order of its zones, the whole part last. @throws MissingRow */
export function partChecks(build: FullBuild, library: Library): PartCheck[] {
  const matrixKgM3 = resinOf(library, build.resin.system).curedDensityKgM3;
  const stacks = build.part.zones.map((zone) => stackOf(zone, library, matrixKgM3));
  const facts = stacks.flatMap((stack) => [
    ...laminateFacts(stack, build, library),
    ...roomFacts(stack),
    ...coreFacts(stack, build, library),
    ...releaseFacts(stack.zone, build, library),
  ]);
  return [...facts, ...mouldFacts(stacks, build, library)];
}

const inZone = ({ id }: PartZone, findings: readonly Finding[]): PartCheck[] =>
  findings.map((one) => ({ zoneId: id, finding: one }));

function laminateFacts(
  { zone, plies, core }: ZoneStack,
  build: FullBuild,
  library: Library,
): PartCheck[] {
  if (plies.length === 0 && !core) {
    return inZone(zone, [finding('zone-empty', { zone: zone.name })]);
  }
  const practice = practiceOf(library);
  const low = practice('fibre-fraction-hand-min');
  const high = practice('fibre-fraction-hand-max');
  const cloths = new Map(plies.map((ply) => [ply.cloth.id, ply.cloth]));
  const findings = [...cloths.values()].flatMap((cloth): Finding[] => {
    const { fibreFraction } = cloth;
    const names = { cloth: cloth.name, clothId: cloth.id, zone: zone.name };
    const args = { ...names, fibreFraction, low, high, process: processOf(build) };
    if (fibreFraction >= 1) return [finding('laminate-dry', args)];
    if (fibreFraction > high) return [finding('fibre-fraction-high', args)];
    // A veil is meant to be resin rich.
    const poor = fibreFraction < low && cloth.weave !== 'veil';
    return poor ? [finding('fibre-fraction-low', args)] : [];
  });
  return inZone(zone, findings);
}

function roomFacts({ zone, plies, core }: ZoneStack): PartCheck[] {
  const findings: Finding[] = [];
  const { gapMm } = zone;
  const stackMm =
    plies.reduce((total, ply) => total + ply.thicknessMm, 0) + (core?.thicknessMm ?? 0);
  if (gapMm !== null && stackMm > gapMm) {
    findings.push(finding('core-over-gap', { zone: zone.name, stackMm, gapMm }));
  }
  const faces = [
    zone.outer.map((ply) => `${ply.cloth} ${ply.angleDeg}`),
    zone.inner.map((ply) => `${ply.cloth} ${ply.angleDeg}`).toReversed(),
  ];
  if (!core && plies.length > 1 && faces[0]!.join() !== faces[1]!.join() && zone.shape === 'flat') {
    const counts = { outerPlies: zone.outer.length, innerPlies: zone.inner.length };
    findings.push(finding('skins-uneven', { zone: zone.name, ...counts }));
  }
  return inZone(zone, findings);
}

function coreFacts({ zone, core }: ZoneStack, build: FullBuild, library: Library): PartCheck[] {
  if (!core) return [];
  const { row, thicknessMm } = core;
  const named = { core: row.name, coreId: row.id };
  const findings: Finding[] = [];
  const styrene = resinOf(library, build.resin.system).hazards.includes('styrene');
  const solvent = releaseOf(library, build.mould.release).hazards.includes('solvent');
  if (styrene && !row.takesStyrene) {
    const args = { ...named, zone: zone.name };
    findings.push(finding('styrene-dissolves', args, { severity: 'stop' }));
  } else if (solvent && !row.takesStyrene) findings.push(finding('solvent-core', named));
  findings.push(...thicknessFindings(zone, row, thicknessMm, library));
  findings.push(...loadFindings(zone, row, build));
  if (hasOpenKerfs(zone)) {
    const extraKg = ((core.outerUptakeGM2 - row.uptakeGM2.drilled) * zone.areaM2) / 1000;
    findings.push(finding('core-kerfs-open', { zone: zone.name, extraKg }));
  }
  return inZone(zone, findings);
}

const hasOpenKerfs = ({ core }: PartZone): boolean =>
  core?.treatment === 'scored' || core?.treatment === 'grooved';

function thicknessFindings(
  zone: PartZone,
  row: CoreRow,
  thicknessMm: number,
  library: Library,
): Finding[] {
  const findings: Finding[] = [];
  const { radiusMm } = zone;
  const leastRadiusMm = practiceOf(library)('bend-radius-thicknesses') * thicknessMm;
  if (radiusMm !== null && radiusMm < leastRadiusMm && !hasOpenKerfs(zone)) {
    const args = { core: row.name, thicknessMm, zone: zone.name, radiusMm, leastRadiusMm };
    findings.push(finding('core-bend-tight', args));
  }
  const stockedMm = row.thicknessesMm;
  if (stockedMm.length > 0 && !stockedMm.includes(thicknessMm)) {
    findings.push(finding('core-thickness-odd', { core: row.name, stockedMm, thicknessMm }));
  }
  return findings;
}

/** Vacuum of a good pump, kPa below the room. */
export const FULL_VACUUM_KPA = 95;

function loadFindings(zone: PartZone, row: CoreRow, build: FullBuild): Finding[] {
  const findings: Finding[] = [];
  const named = { core: row.name, zone: zone.name };
  const bakes = build.outside.flatMap((party) => party.bakeC ?? []);
  const hottestC = Math.max(build.part.serviceMaxC, ...bakes);
  if (hottestC > row.maxC) {
    const args = { heat: 'of-use', ...named, hottestC, maxC: row.maxC } as const;
    findings.push(finding('heat-over-limit', args, { severity: 'stop' }));
  }
  const { maxVacuumKPa } = row;
  if (maxVacuumKPa < FULL_VACUUM_KPA) {
    findings.push(finding('vacuum-crushes-core', { ...named, maxVacuumKPa }));
  }
  return findings;
}

function releaseFacts(zone: PartZone, build: FullBuild, library: Library): PartCheck[] {
  const { id, name, shapes } = releaseOf(library, build.mould.release);
  if (shapes.includes(zone.shape)) return [];
  const args = { release: name, releaseId: id, shapes, zone: zone.name, shape: zone.shape };
  return inZone(zone, [finding('release-not-for-shape', args)]);
}

function mouldFacts(stacks: readonly ZoneStack[], build: FullBuild, library: Library): PartCheck[] {
  if (stacks.length === 0) return [];
  const mould = mouldOf(library, build.mould.material);
  const styrene = resinOf(library, build.resin.system).hazards.includes('styrene');
  const findings: Finding[] = [];
  if (styrene && !mould.takesStyrene) {
    const severity = build.mould.sealed ? 'warn' : 'stop';
    const args = { mould: mould.name, mouldId: mould.id };
    findings.push(finding('styrene-dissolves', args, { severity }));
  }
  if (styrene) {
    const maxVacuumKPa = practiceOf(library)('styrene-vacuum-kpa');
    findings.push(finding('styrene-vacuum', { maxVacuumKPa }));
  }
  findings.push(...heatOnMould(build, mould));
  return findings.map((one) => ({ zoneId: null, finding: one }));
}

function heatOnMould(build: FullBuild, mould: MouldRow): Finding[] {
  const { tent } = build.room;
  const limitC = build.mould.maxC ?? mould.maxC;
  if (!tent || tent.maxC <= limitC) return [];
  const args = { heat: 'of-tent', mould: mould.name, tentC: tent.maxC, limitC } as const;
  return [finding('heat-over-limit', args, { severity: 'note' })];
}

/** Lowest temperature that any core of the part takes, C; null without core. @throws MissingRow */
export function coreLimitC(build: FullBuild, library: Library): number | null {
  const limits = build.part.zones.flatMap((zone) =>
    zone.core ? [coreOf(library, zone.core.material).maxC] : [],
  );
  return limits.length > 0 ? Math.min(...limits) : null;
}
