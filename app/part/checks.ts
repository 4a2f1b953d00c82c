/**
 * What in the part does not go together, or is out of the usual range. Facts with their numbers; the
 * judge turns them into findings. Limits are rows of the library.
 */
import {
  coreOf,
  hardenerOf,
  mouldOf,
  practiceOf,
  releaseOf,
  resinOf,
} from '../document/library.ts';
import type { CoreRow, FullBuild, Library, MouldRow, PartZone } from '../document/schema.ts';
import type { PartCode } from '../messages/codes.ts';
import { stackOf, type ZoneStack } from './stack.ts';

export interface PartCheck {
  readonly code: PartCode;
  readonly severity: 'stop' | 'warn' | 'note';
  /** null: the whole part. */
  readonly zoneId: string | null;
  readonly message: string;
  readonly numbers: Readonly<Record<string, number | string>>;
}

/** All facts of a build, in the order of its zones, the whole part last. @throws MissingRow */
export function partChecks(build: FullBuild, library: Library): PartCheck[] {
  const matrixKgM3 = resinOf(library, build.resin.system).curedDensityKgM3;
  const stacks = build.part.zones.map((zone) => stackOf(zone, library, matrixKgM3));
  const facts = stacks.flatMap((stack) => [
    ...laminateFacts(stack, library),
    ...roomFacts(stack),
    ...coreFacts(stack, build, library),
    ...releaseFacts(stack.zone, build, library),
  ]);
  return [...facts, ...mouldFacts(stacks, build, library)];
}

const percent = (share: number): string => `${Math.round(share * 100)} %`;
const mm = (value: number): string => `${Number(value.toFixed(1))} mm`;

function laminateFacts({ zone, plies, core }: ZoneStack, library: Library): PartCheck[] {
  const zoneId = zone.id;
  if (plies.length === 0 && !core) {
    const message = `${zone.name} has neither plies nor core.`;
    return [{ code: 'zone-empty', severity: 'stop', zoneId, message, numbers: {} }];
  }
  const practice = practiceOf(library);
  const low = practice('fibre-fraction-hand-min');
  const high = practice('fibre-fraction-hand-max');
  const cloths = new Map(plies.map((ply) => [ply.cloth.id, ply.cloth]));
  return [...cloths.values()].flatMap((cloth): PartCheck[] => {
    const fraction = cloth.fibreFraction;
    const numbers = { cloth: cloth.id, fibreFraction: fraction, low, high };
    const said = `${cloth.name} in ${zone.name} at ${percent(fraction)} fibre by volume`;
    const usual = `Hand work under a bag gives ${percent(low)} to ${percent(high)}.`;
    if (fraction >= 1) {
      const message = `${said} holds no resin. ${usual}`;
      return [{ code: 'laminate-dry', severity: 'stop', zoneId, message, numbers }];
    }
    if (fraction > high) {
      const message = `${said} is more than hand work reaches. ${usual}`;
      return [{ code: 'fibre-fraction-high', severity: 'warn', zoneId, message, numbers }];
    }
    // A veil is meant to be resin rich.
    if (fraction < low && cloth.weave !== 'veil') {
      const message = `${said} is more resin than cloth needs. ${usual}`;
      return [{ code: 'fibre-fraction-low', severity: 'warn', zoneId, message, numbers }];
    }
    return [];
  });
}

function roomFacts({ zone, plies, core }: ZoneStack): PartCheck[] {
  const facts: PartCheck[] = [];
  const stackMm =
    plies.reduce((total, ply) => total + ply.thicknessMm, 0) + (core?.thicknessMm ?? 0);
  if (zone.gapMm !== null && stackMm > zone.gapMm) {
    facts.push({
      code: 'core-over-gap',
      severity: 'stop',
      zoneId: zone.id,
      message: `${zone.name} builds up to ${mm(stackMm)}; there is room for ${mm(zone.gapMm)}.`,
      numbers: { stackMm, gapMm: zone.gapMm },
    });
  }
  const faces = [
    zone.outer.map((ply) => `${ply.cloth} ${ply.angleDeg}`),
    zone.inner.map((ply) => `${ply.cloth} ${ply.angleDeg}`).toReversed(),
  ];
  if (!core && plies.length > 1 && faces[0]!.join() !== faces[1]!.join() && zone.shape === 'flat') {
    facts.push({
      code: 'skins-uneven',
      severity: 'note',
      zoneId: zone.id,
      message: `${zone.name} is flat, without core, and its two halves differ: it may bow on cure.`,
      numbers: { outerPlies: zone.outer.length, innerPlies: zone.inner.length },
    });
  }
  return facts;
}

function coreFacts({ zone, core }: ZoneStack, build: FullBuild, library: Library): PartCheck[] {
  if (!core) return [];
  const { row, thicknessMm } = core;
  const fact = (
    code: PartCode,
    severity: PartCheck['severity'],
    message: string,
    numbers: PartCheck['numbers'],
  ): PartCheck => ({ code, severity, zoneId: zone.id, message, numbers });
  const facts: PartCheck[] = [];

  const styrene = resinOf(library, build.resin.system).hazards.includes('styrene');
  if (styrene && !row.takesStyrene) {
    const message = `Styrene in the resin dissolves ${row.name} in ${zone.name}. Take epoxy or another core.`;
    facts.push(fact('styrene-dissolves', 'stop', message, { core: row.id }));
  } else if (
    !row.takesStyrene &&
    releaseOf(library, build.mould.release).hazards.includes('solvent')
  ) {
    const message = `Release and wiping solvents attack ${row.name}: let them flash off, wipe the skin and never the core.`;
    facts.push(fact('solvent-core', 'note', message, { core: row.id }));
  }
  facts.push(...thicknessFacts(zone, row, thicknessMm, library, fact));
  facts.push(...loadFacts(zone, row, build, fact));
  const extraKg = ((core.outerUptakeGM2 - row.uptakeGM2.drilled) * zone.areaM2) / 1000;
  if (zone.core!.treatment === 'scored' || zone.core!.treatment === 'grooved') {
    const message = `Open kerfs in ${zone.name} drink about ${extraKg.toFixed(1)} kg more resin than drilled core.`;
    facts.push(fact('core-kerfs-open', 'note', message, { extraKg }));
  }
  return facts;
}

type MakeFact = (
  code: PartCode,
  severity: PartCheck['severity'],
  message: string,
  numbers: PartCheck['numbers'],
) => PartCheck;

function thicknessFacts(
  zone: PartZone,
  row: CoreRow,
  thicknessMm: number,
  library: Library,
  fact: MakeFact,
): PartCheck[] {
  const facts: PartCheck[] = [];
  const leastRadiusMm = practiceOf(library)('bend-radius-thicknesses') * thicknessMm;
  const cut = zone.core!.treatment === 'scored' || zone.core!.treatment === 'grooved';
  if (zone.radiusMm !== null && zone.radiusMm < leastRadiusMm && !cut) {
    const message = `${mm(thicknessMm)} ${row.name} bends cold to a radius of about ${mm(leastRadiusMm)}; ${zone.name} asks ${mm(zone.radiusMm)}. Score it, warm it or take thinner layers.`;
    facts.push(
      fact('core-bend-tight', 'warn', message, { radiusMm: zone.radiusMm, leastRadiusMm }),
    );
  }
  if (row.thicknessesMm.length > 0 && !row.thicknessesMm.includes(thicknessMm)) {
    const message = `${row.name} is stocked in ${row.thicknessesMm.join(', ')} mm, not in ${mm(thicknessMm)}.`;
    facts.push(fact('core-thickness-odd', 'note', message, { thicknessMm }));
  }
  return facts;
}

/** Vacuum of a good pump, kPa below the room. */
const FULL_VACUUM_KPA = 95;

function loadFacts(zone: PartZone, row: CoreRow, build: FullBuild, fact: MakeFact): PartCheck[] {
  const facts: PartCheck[] = [];
  const bakes = build.outside.flatMap((party) => party.bakeC ?? []);
  const hottestC = Math.max(build.part.serviceMaxC, ...bakes);
  if (hottestC > row.maxC) {
    const message = `${row.name} in ${zone.name} takes ${row.maxC} °C; bake or service reaches ${hottestC} °C.`;
    facts.push(fact('heat-over-limit', 'stop', message, { maxC: row.maxC, hottestC }));
  }
  if (row.maxVacuumKPa < FULL_VACUUM_KPA) {
    const message = `${row.name} in ${zone.name} creeps above ${row.maxVacuumKPa} kPa of vacuum, sooner when warm: throttle the pump.`;
    facts.push(fact('vacuum-crushes-core', 'warn', message, { maxVacuumKPa: row.maxVacuumKPa }));
  }
  return facts;
}

function releaseFacts(zone: PartZone, build: FullBuild, library: Library): PartCheck[] {
  const release = releaseOf(library, build.mould.release);
  if (release.shapes.includes(zone.shape)) return [];
  const message = `${release.name} lies on ${release.shapes.join(' or ')} only; ${zone.name} is curved both ways.`;
  return [
    {
      code: 'release-not-for-shape',
      severity: 'stop',
      zoneId: zone.id,
      message,
      numbers: { release: release.id, shape: zone.shape },
    },
  ];
}

function mouldFacts(stacks: readonly ZoneStack[], build: FullBuild, library: Library): PartCheck[] {
  if (stacks.length === 0) return [];
  const mould = mouldOf(library, build.mould.material);
  const styrene = resinOf(library, build.resin.system).hazards.includes('styrene');
  const whole = { zoneId: null };
  const facts: PartCheck[] = [];
  if (styrene && !mould.takesStyrene) {
    const message = `Styrene in the resin dissolves the mould, ${mould.name}, through any pinhole in its coat.`;
    const numbers = { mould: mould.id };
    const severity = build.mould.sealed ? 'warn' : 'stop';
    facts.push({ ...whole, code: 'styrene-dissolves', severity, message, numbers });
  }
  if (styrene) {
    const maxKPa = practiceOf(library)('styrene-vacuum-kpa');
    const message = `Styrene boils under full vacuum: hold ${maxKPa} kPa at most.`;
    const numbers = { maxVacuumKPa: maxKPa };
    facts.push({ ...whole, code: 'styrene-vacuum', severity: 'warn', message, numbers });
  }
  return [...facts, ...heatOnMould(stacks, build, library, mould)];
}

/** The warmest the shop can make the mould: the tent's reach, but not above the hardener's hottest post-cure. */
function heatOnMould(
  stacks: readonly ZoneStack[],
  build: FullBuild,
  library: Library,
  mould: MouldRow,
): PartCheck[] {
  const { tent, temperatureC } = build.room;
  if (!tent) return [];
  const facts: PartCheck[] = [];
  const limitC = build.mould.maxC ?? mould.maxC;
  if (tent.maxC > limitC) {
    const message = `The tent reaches ${tent.maxC} °C; the mould, ${mould.name}, takes ${limitC} °C.`;
    const numbers = { tentC: tent.maxC, limitC };
    facts.push({ code: 'heat-over-limit', severity: 'note', zoneId: null, message, numbers });
  }
  const postCureC = hardenerOf(library, build.resin).postCure.map((step) => step.temperatureC);
  const warmC = Math.min(tent.maxC, limitC, Math.max(...postCureC, temperatureC.day));
  const spanMm = Math.max(
    ...stacks.map(({ zone }) => Math.max(...(zone.sizeM ?? [Math.sqrt(zone.areaM2)])) * 1000),
  );
  const growthMm = mould.growthPerK * spanMm * Math.max(0, warmC - temperatureC.day);
  const limitMm = practiceOf(library)('growth-limit-mm');
  const carbon = stacks.some(({ plies }) => plies.some((ply) => ply.cloth.fibre === 'carbon'));
  if (carbon && growthMm > limitMm) {
    const message = `On the mould at ${warmC} °C, ${mould.name} grows ${mm(growthMm)} over ${Math.round(spanMm)} mm and carbon does not: it may lock. Post-cure off the mould, on supports.`;
    const numbers = { growthMm, limitMm, spanMm, warmC };
    facts.push({ code: 'mould-growth', severity: 'warn', zoneId: null, message, numbers });
  }
  return facts;
}

/** Lowest temperature that any core of the part takes, C; null without core. @throws MissingRow */
export function coreLimitC(build: FullBuild, library: Library): number | null {
  const limits = build.part.zones.flatMap((zone) =>
    zone.core ? [coreOf(library, zone.core.material).maxC] : [],
  );
  return limits.length > 0 ? Math.min(...limits) : null;
}
