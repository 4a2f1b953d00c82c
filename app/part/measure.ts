/** The step part/: from the build's zones to layups, masses, kit and hours. */
import { clothOf, practiceOf, resinOf } from '../document/library.ts';
import {
  STAGE_KINDS,
  type FullBuild,
  type Library,
  type PartZone,
  type StageKind,
} from '../document/schema.ts';
import { clothUses, cutList } from './cuts.ts';
import { zonesFinished } from '../document/finish.ts';
import { kitLines } from './kit.ts';
import { familiarityFactor, finishingRounds, workOf, workUnderBag } from './labour.ts';
import { processOf } from './process.ts';
import { plyResinGM2, plyThicknessMm } from './laminate.ts';
import { handsToLift, liftedKg } from './lift.ts';
import { insertsKg, rimKg } from './inserts.ts';
import { repairOf, type Repair } from './repair.ts';
import { layupsOf, overlapFactor, type CloseoutStrips } from './layups.ts';
import { sectionsOf } from './sections.ts';
import { fibreFractionOf, stackOf, type StackPly, type ZoneStack } from './stack.ts';
import { insertLayup, repairLayup } from './sideLayups.ts';
import {
  LAYUP_IDS,
  type Layup,
  type MassBreakdown,
  type PartResult,
  type StageWork,
  type ZoneResult,
} from './types.ts';

/**
 * Measures the part: quantities for every later step. A build without zones gives zeros.
 * @throws MissingRow naming table and id when the library lacks a row the build needs.
 */
export function measurePart(build: FullBuild, library: Library): PartResult {
  const matrixKgM3 = resinOf(library, build.resin.system).curedDensityKgM3;
  const sections = sectionsOf(build);
  const stacks = build.part.zones.map((zone) => stackOf(zone, library, matrixKgM3, sections));
  const closeouts = build.part.zones.flatMap(
    (zone) => closeoutStrips(zone, library, matrixKgM3) ?? [],
  );
  const massKg = massOf(stacks, closeouts, build, library, matrixKgM3);
  const zones = stacks.map((stack) => zoneResult(stack, library));
  const lifters = handsToLift(build, massKg, library);
  const repair = repairOf(build, library, zones);
  const pace = familiarityFactor(build, library);
  const layups = inOrder([
    ...layupsOf(stacks, closeouts, pace, library, processOf(build), sections),
    zones.length > 0 ? insertLayup(build, library, matrixKgM3, pace) : null,
    repairLayup(repair, stacks, library, pace),
  ]);
  const works = worksOf(stacks, build, library, layups);
  for (const kind of LIFTED) works.set(kind, withHands(works.get(kind)!, lifters));
  const repairLaidMinutes = layups.find(({ id }) => id === 'repair')?.personMinutes ?? 0;
  works.set('repair', withRepair(works.get('repair')!, repair, repairLaidMinutes));
  const cloths = clothUses(cutList(build, library));

  return {
    areaM2: sum(stacks.map(({ zone }) => zone.areaM2)),
    edgeM: sum(stacks.map(({ zone }) => zone.edgeM)),
    zones,
    lift: { massKg: liftedKg(massKg), hands: lifters },
    repair,
    repairLaidMinutes,
    layups,
    massKg,
    countedMassKg: countedMass(massKg, build.part.targetIncludes),
    kitFor: (bags, batches, hardeners, fillerKg) =>
      kitLines({ build, library, stacks, layups, cloths }, bags, batches, hardeners, fillerKg),
    workFor: (kind) => works.get(kind)!,
    workUnder: (kind, own) => workUnderBag(works.get(kind)!, own, stacks, build, library),
  };
}

/** Strips of one zone, or null where the edge stays open. Laid by hand, they hold more resin. */
function closeoutStrips(
  zone: PartZone,
  library: Library,
  matrixKgM3: number,
): CloseoutStrips | null {
  const { closeout } = zone;
  if (!closeout || closeout.plies.length === 0 || zone.edgeM === 0) return null;
  const handFraction = practiceOf(library)('closeout-fibre-fraction');
  const areaM2 = (closeout.widthMm / 1000) * zone.edgeM;
  const plies = closeout.plies.map((ply): StackPly => {
    const cloth = clothOf(library, ply.cloth);
    const fraction = Math.min(handFraction, cloth.fibreFraction);
    const { arealGM2, fibreDensityKgM3 } = cloth;
    return {
      layup: 'closeout',
      cloth,
      angleDeg: ply.angleDeg,
      areaM2,
      whole: false,
      doubledM2: 0,
      thicknessMm: plyThicknessMm(arealGM2, fibreDensityKgM3, fraction),
      fibreGM2: arealGM2,
      resinGM2: plyResinGM2(arealGM2, fibreDensityKgM3, fraction, matrixKgM3),
    };
  });
  const { widthMm } = closeout;
  return { plies, widthMm, edgeM: zone.edgeM, vertical: zone.vertical, shape: zone.shape };
}

function zoneResult(stack: ZoneStack, library: Library): ZoneResult {
  const { zone, plies, core } = stack;
  const massKg = sum(Object.values(zoneMass(stack, library)));
  const whole = plies.filter((ply) => ply.whole);
  return {
    zone,
    thicknessMm: sum(whole.map((ply) => ply.thicknessMm)) + (core?.thicknessMm ?? 0),
    skinsMm: { outer: skinMm(whole, 'skin'), inner: skinMm(whole, 'inner') },
    fibreFraction: fibreFractionOf(whole),
    arealKgM2: massKg / zone.areaM2,
    massKg,
  };
}

const skinMm = (plies: readonly StackPly[], layup: StackPly['layup']): number =>
  sum(plies.filter((ply) => ply.layup === layup).map((ply) => ply.thicknessMm));

/** Kinds of stage in which the whole part is lifted. */
const LIFTED = ['demould', 'dry-fit', 'wrap', 'drive'] as const;

const withHands = (work: StageWork, hands: number): StageWork => ({
  ...work,
  peopleMin: Math.max(work.peopleMin, hands),
  peopleMax: Math.max(work.peopleMax, hands),
});

const inOrder = (layups: readonly (Layup | null)[]): Layup[] =>
  layups
    .filter((layup) => layup !== null)
    .sort((a, b) => LAYUP_IDS.indexOf(a.id) - LAYUP_IDS.indexOf(b.id));

/** Looking over and marking, then what is expected to be mended; plies are laid in a stage of their own. */
function withRepair(work: StageWork, repair: Repair | null, laidMinutes: number): StageWork {
  if (!repair || work.personMinutes <= 0) return { ...work, personMinutes: 0 };
  return { ...work, personMinutes: work.personMinutes + Math.max(0, repair.minutes - laidMinutes) };
}

/** Laid mass of one ply, joint overlaps in it, trimmings off it, kg. */
function laidKg(ply: StackPly, gM2: number, library: Library): number {
  return ((ply.areaM2 + ply.doubledM2) * overlapFactor(ply, library) * gM2) / 1000;
}

/** A core face under no skin is not wetted. */
function coreResinGM2(plies: readonly StackPly[], core: NonNullable<ZoneStack['core']>): number {
  const hasInner = plies.some((ply) => ply.layup === 'inner');
  return core.outerUptakeGM2 + (hasInner ? core.innerUptakeGM2 : 0);
}

/** Mass of the shell of one zone by component, joint overlaps in it, kg. */
export type ZoneMass = Pick<MassBreakdown, 'fibre' | 'resin' | 'core' | 'coreResin'>;

function zoneMass({ zone, plies, core }: ZoneStack, library: Library): ZoneMass {
  const ofCore = (gM2: number): number => (zone.areaM2 * gM2) / 1000;
  return {
    fibre: sum(plies.map((ply) => laidKg(ply, ply.fibreGM2, library))),
    resin: sum(plies.map((ply) => laidKg(ply, ply.resinGM2, library))),
    core: core ? ofCore(core.massGM2) : 0,
    coreResin: core ? ofCore(coreResinGM2(plies, core)) : 0,
  };
}

/** What each zone brings to the shell, in the order of the zones. @throws MissingRow */
export function massByZone(build: FullBuild, library: Library): ZoneMass[] {
  const matrixKgM3 = resinOf(library, build.resin.system).curedDensityKgM3;
  const sections = sectionsOf(build);
  return build.part.zones.map((zone) =>
    zoneMass(stackOf(zone, library, matrixKgM3, sections), library),
  );
}

function massOf(
  stacks: readonly ZoneStack[],
  closeouts: readonly CloseoutStrips[],
  build: FullBuild,
  library: Library,
  matrixKgM3: number,
): MassBreakdown {
  const zones = stacks.map((stack) => zoneMass(stack, library));
  const inserts = insertsKg(build, library, matrixKgM3);
  const rounds = finishingRounds(build, library);
  const roundKg = (stage: 'fair' | 'prime'): number =>
    sum(rounds.filter(({ row }) => row.stage === stage).map((round) => round.massKg));
  return {
    fibre: inserts.fibre + sum(zones.map(({ fibre }) => fibre)),
    resin: inserts.resin + sum(zones.map(({ resin }) => resin)),
    core: sum(zones.map(({ core }) => core)),
    coreResin: sum(zones.map(({ coreResin }) => coreResin)),
    closeout: closeoutKg(stacks, closeouts, build, library),
    fairing: roundKg('fair'),
    paint: roundKg('prime') + topcoatKg(build, library),
  };
}

function closeoutKg(
  stacks: readonly ZoneStack[],
  closeouts: readonly CloseoutStrips[],
  build: FullBuild,
  library: Library,
): number {
  const strips = closeouts.flatMap((closeout) => closeout.plies);
  const fillerKgM = practiceOf(library)('edge-filler-kg-m');
  const rebatedM = sum(stacks.map(({ zone, core }) => (core && zone.closeout ? zone.edgeM : 0)));
  return (
    sum(strips.map((ply) => (ply.areaM2 * (ply.fibreGM2 + ply.resinGM2)) / 1000)) +
    (build.part.edge?.rim ? rimKg(build, rebatedM, library) : fillerKgM * rebatedM)
  );
}

/** Colour coats of the painted zones, put on outside or in the shop, kg. */
function topcoatKg(build: FullBuild, library: Library): number {
  const practice = practiceOf(library);
  const areaM2 = sum(zonesFinished(build, ['painted']).map((zone) => zone.areaM2));
  return areaM2 * practice('surfaces-painted') * practice('paint-kg-m2');
}

function countedMass(mass: MassBreakdown, includes: FullBuild['part']['targetIncludes']): number {
  const shell = mass.fibre + mass.resin + mass.core + mass.coreResin + mass.closeout;
  if (includes === 'shell') return shell;
  return shell + mass.fairing + (includes === 'painted' ? mass.paint : 0);
}

function worksOf(
  stacks: readonly ZoneStack[],
  build: FullBuild,
  library: Library,
  layups: PartResult['layups'],
): Map<StageKind, StageWork> {
  const plyAreaM2 = stacks.map(({ plies }) => sum(plies.map((ply) => ply.areaM2 + ply.doubledM2)));
  const works = new Map<StageKind, StageWork>();
  for (const kind of STAGE_KINDS) {
    const work = workOf(kind, stacks, plyAreaM2, build, library);
    const wetMinutes = sum(layups.map((layup) => layup.personMinutes));
    works.set(kind, kind === 'layup' ? { ...work, personMinutes: wetMinutes } : work);
  }
  return works;
}

const sum = (values: readonly number[]): number => values.reduce((total, v) => total + v, 0);
