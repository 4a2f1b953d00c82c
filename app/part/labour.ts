/** Person-minutes of the hands-on stages, from the labour table, shape and what the part needs. */
import { MissingRow, mouldOf, practiceOf, releaseOf } from '../document/library.ts';
import type {
  FinishingRow,
  FullBuild,
  LabourRow,
  Library,
  Provenance,
  StageKind,
} from '../document/schema.ts';
import { zonesFinished } from '../document/finish.ts';
import { fillWayOf, type FillWay } from './filling.ts';
import { insertCount } from './inserts.ts';
import { machinedBy } from './machining.ts';
import type { ZoneStack } from './stack.ts';
import type { Layup, StageWork } from './types.ts';

/** @throws MissingRow */
export function labourById(library: Library, id: string): LabourRow {
  const row = library.labour.find((candidate) => candidate.id === id);
  if (!row) throw new MissingRow('labour', id);
  return row;
}

/** Kinds of stage that a build does without until it takes their row. */
const BY_OFFER: ReadonlySet<StageKind> = new Set([
  'arrival',
  'tap-test',
  'repair',
  'dry-fit',
  'wrap',
  'drive',
  'inserts',
  'edge-fill',
  'rim',
  'lay-dry',
  'drop-test',
]);

/** The labour row of a stage kind; null for a kind that the build has not taken. @throws MissingRow */
const labourIf = (library: Library, kind: StageKind): LabourRow | null =>
  BY_OFFER.has(kind)
    ? (library.labour.find((candidate) => candidate.stage === kind) ?? null)
    : labourOf(library, kind);

/** The first labour row of a stage kind. @throws MissingRow */
function labourOf(library: Library, kind: StageKind): LabourRow {
  const row = library.labour.find((candidate) => candidate.stage === kind);
  if (!row) throw new MissingRow('labour', kind);
  return row;
}

interface Where {
  readonly shape: 'flat' | 'single' | 'double';
  readonly vertical: boolean;
}

/**
 * Person-minutes to set up a bag, or an infusion, over so much of the part.
 * @param id of the labour row
 * @returns null where the build has not taken the row
 */
export function setupMinutesOf(
  library: Library,
  id: string,
  { areaM2, edgeM }: { readonly areaM2: number; readonly edgeM: number },
): number | null {
  const row = library.labour.find((candidate) => candidate.id === id);
  if (!row) return null;
  return row.setupMinutes + row.minutesPerM2 * areaM2 + row.minutesPerEdgeM * edgeM;
}

/** Slower over curves and on upright faces. */
export function shapedFactor(row: LabourRow, where: Where): number {
  return row.shapeFactor[where.shape] * (where.vertical ? row.verticalFactor : 1);
}

/** Hands-on time against a crew that has made parts like this one before. @throws MissingRow */
export function familiarityFactor(build: FullBuild, library: Library): number {
  const { familiarity } = build.part;
  return familiarity === 'usual' ? 1 : practiceOf(library)(`familiarity-${familiarity}`);
}

/**
 * Whose time a kind of stage takes: `skill`: hands that get quicker with practice; `clock`: as long
 * whoever does it, by the clock or at the desk; `none`: nobody of the shop works on it.
 */
const TAKES: Readonly<Record<StageKind, 'skill' | 'clock' | 'none'>> = {
  'sign-off': 'clock',
  order: 'clock',
  arrival: 'clock',
  machining: 'clock',
  mould: 'skill',
  seal: 'skill',
  'bag-test': 'skill',
  'test-panel': 'skill',
  release: 'skill',
  'resin-warm': 'clock',
  'mould-heat': 'none',
  cutting: 'skill',
  'core-fit': 'skill',
  inserts: 'skill',
  rehearsal: 'skill',
  prepare: 'skill',
  'lay-dry': 'skill',
  'drop-test': 'clock',
  layup: 'skill',
  'watched-vacuum': 'clock',
  cure: 'none',
  'bag-off': 'skill',
  'tap-test': 'skill',
  'heat-setup': 'clock',
  'post-cure': 'none',
  'heat-takedown': 'clock',
  demould: 'skill',
  repair: 'skill',
  trim: 'skill',
  'dry-fit': 'skill',
  closeout: 'skill',
  'edge-fill': 'skill',
  rim: 'skill',
  'fit-check': 'skill',
  fair: 'skill',
  prime: 'skill',
  wait: 'none',
  wrap: 'clock',
  drive: 'clock',
  outside: 'none',
  hardware: 'skill',
  'hand-over': 'skill',
  own: 'none',
};

/**
 * Minutes on the clock for a number of people: each pair of hands after the first loses a share to
 * standing in the way.
 * @throws MissingRow
 */
export function crewMinutes(personMinutes: number, people: number, library: Library): number {
  const loss = practiceOf(library)('people-loss-share');
  return (personMinutes / people) * (1 + loss * (people - 1));
}

const NO_WORK: Provenance = { kind: 'common-practice', source: 'no hands-on work' };

/** Core over a curve is fitted on the finished mould; null where the build has not taken that row. */
export const coreOnMouldRow = (library: Library): LabourRow | null =>
  library.labour.find((row) => row.id === 'core-fit-mould') ?? null;

/** True where core is fitted on the mould itself. */
export const fitsCoreOnMould = ({ part }: Pick<FullBuild, 'part'>, library: Library): boolean =>
  coreOnMouldRow(library) !== null && part.zones.some((zone) => zone.core && zone.shape !== 'flat');

/** What of a zone a stage works on. */
function reach(kind: StageKind, { zone, core }: ZoneStack): { areaM2: number; edgeM: number } {
  const all = { areaM2: zone.areaM2, edgeM: zone.edgeM };
  const nothing = { areaM2: 0, edgeM: 0 };
  if (kind === 'core-fit') return core ? all : nothing;
  if (kind === 'closeout' || kind === 'edge-fill' || kind === 'rim')
    return zone.closeout ? { areaM2: 0, edgeM: zone.edgeM } : nothing;
  return all;
}

/**
 * Labour of one stage kind, done once.
 * @param plyAreaM2 cloth laid on a zone, every ply counted, by zone position.
 * @throws MissingRow when a hands-on kind has no labour row.
 */
export function workOf(
  kind: StageKind,
  stacks: readonly ZoneStack[],
  plyAreaM2: readonly number[],
  build: FullBuild,
  library: Library,
): StageWork {
  if (TAKES[kind] === 'none' || stacks.length === 0) return none(kind);
  if (kind === 'fair' || kind === 'prime') return finishingWork(kind, stacks, build, library);
  const row = labourIf(library, kind);
  if (!row) return none(kind);
  const curvedCore = kind === 'core-fit' ? coreOnMouldRow(library) : null;
  let worked = 0;
  let edgeM = 0;
  let touched = false;
  stacks.forEach((stack, i) => {
    const where = reach(kind, stack);
    touched ||= where.areaM2 > 0 || where.edgeM > 0;
    edgeM += where.edgeM;
    const rate = curvedCore && stack.zone.shape !== 'flat' ? curvedCore : row;
    worked +=
      (rate.minutesPerM2 * where.areaM2 + rate.minutesPerPlyM2 * plyAreaM2[i]!) *
      shapedFactor(rate, stack.zone);
  });
  const minutes = row.setupMinutes + worked + row.minutesPerEdgeM * edgeM;
  const factor = TAKES[kind] === 'clock' ? 1 : familiarityFactor(build, library);
  return {
    kind,
    personMinutes: touched ? factor * forTheMould(kind, minutes, stacks, build, library) : 0,
    peopleMin: row.peopleMin,
    peopleMax: row.peopleMax,
    provenance: row.provenance,
  };
}

/**
 * Labour of a stage on what lies under one bag: its fixed part is the same for a patch and a skin, the rest
 * goes by the area and edge of its largest layup. A row that is counted over the part gives the whole.
 */
export function workUnderBag(
  whole: StageWork,
  layups: readonly Pick<Layup, 'areaM2' | 'edgeM'>[],
  stacks: readonly ZoneStack[],
  build: FullBuild,
  library: Library,
): StageWork {
  const row = labourIf(library, whole.kind);
  if (row?.over !== 'bag' || layups.length === 0 || whole.personMinutes === 0) return whole;
  const [areaM2, edgeM] = stacks.reduce(
    ([area, edge], { zone }) => [area + zone.areaM2, edge + zone.edgeM],
    [0, 0],
  );
  const factor = TAKES[whole.kind] === 'clock' ? 1 : familiarityFactor(build, library);
  const byArea = whole.personMinutes / factor - row.setupMinutes - row.minutesPerEdgeM * edgeM;
  const ownM2 = Math.min(areaM2, Math.max(...layups.map((layup) => layup.areaM2)));
  const ownEdgeM = Math.min(edgeM, Math.max(...layups.map((layup) => layup.edgeM)));
  const minutes = row.setupMinutes + byArea * (ownM2 / areaM2) + row.minutesPerEdgeM * ownEdgeM;
  return { ...whole, personMinutes: factor * minutes };
}

const none = (kind: StageKind): StageWork => ({
  kind,
  personMinutes: 0,
  peopleMin: 1,
  peopleMax: 1,
  provenance: NO_WORK,
});

/** A mould that stands already needs none of its making; one machined outside needs less. */
function forTheMould(
  kind: StageKind,
  minutes: number,
  stacks: readonly ZoneStack[],
  build: FullBuild,
  library: Library,
): number {
  const areaM2 = mouldAreaM2(stacks, library);
  if (kind === 'machining') return machinedBy(build) === 'house' ? minutes : 0;
  if (kind === 'inserts') {
    const count = insertCount(build);
    return count === 0 ? 0 : minutes + count * practiceOf(library)('insert-fit-minutes');
  }
  if (kind === 'rim') return build.part.edge?.rim ? minutes : 0;
  if (kind === 'edge-fill') return build.part.edge && !build.part.edge.rim ? minutes : 0;
  if (kind === 'test-panel') return build.mould.testPanel ? minutes : 0;
  if (kind === 'mould') {
    if (build.mould.sealed) return 0;
    const by = machinedBy(build);
    return by === 'outside' || by === 'house'
      ? minutes * practiceOf(library)('mould-share-machined')
      : minutes;
  }
  if (kind === 'seal') {
    const mould = mouldOf(library, build.mould.material);
    if (build.mould.sealed || mould.sealCoats === 0) return 0;
    return minutes + mould.sealCoats * mould.sealMinutesPerM2 * areaM2;
  }
  if (kind === 'release') {
    const release = releaseOf(library, build.mould.release);
    return minutes + release.coats * release.minutesPerM2 * areaM2;
  }
  return minutes;
}

/** Mould surface: the part and the flange that the bag is sealed to, m2. */
export function mouldAreaM2(stacks: readonly ZoneStack[], library: Library): number {
  const flangeM = practiceOf(library)('flange-mm') / 1000;
  return stacks.reduce((total, { zone }) => total + zone.areaM2 + flangeM * zone.edgeM, 0);
}

/** One round of fairing, priming or sanding on this part. */
export interface FinishingRound {
  readonly row: FinishingRow;
  /** 1, or the lift of a filler that goes on in several. */
  readonly lift: number;
  readonly lifts: number;
  /** Hours at 20 C before the next round may touch it. */
  readonly waitHoursAt20C: number;
  readonly personMinutes: number;
  /** Mass left on the part, kg. */
  readonly massKg: number;
}

/** The rounds that the finishes of the zones ask for, each over its own zones, by stage and step. */
export function finishingRounds(build: FullBuild, library: Library): FinishingRound[] {
  if (build.part.zones.length === 0) return [];
  const faces = practiceOf(library)('surfaces-painted');
  const shapes = labourById(library, 'prepare');
  const factor = familiarityFactor(build, library);
  return library.finishing
    .toSorted((a, b) => byStage(a) - byStage(b) || a.step - b.step)
    .flatMap((row) => {
      const own = zonesFinished(build, row.finishes);
      if (own.length === 0) return [];
      const areaM2 = own.reduce((total, zone) => total + zone.areaM2, 0) * faces;
      const shapedM2 =
        own.reduce((total, zone) => total + zone.areaM2 * shapes.shapeFactor[zone.shape], 0) *
        faces;
      const whole = {
        row,
        lift: 1,
        lifts: 1,
        waitHoursAt20C: row.waitHoursAt20C,
        personMinutes: (row.setupMinutes + row.minutesPerM2 * shapedM2) * factor,
        massKg: row.massKgM2 * areaM2,
      };
      const way = row.fills ? fillWayOf(build, library) : null;
      return way ? liftsOf(whole, way) : [whole];
    });
}

/** A round of filling in its lifts: the first over all of it, later ones where it is still hollow. */
function liftsOf(whole: FinishingRound, { row, filling, lifts, laterShare }: FillWay) {
  const filled = { ...whole.row, standsC: row.standsC ?? whole.row.standsC };
  return Array.from({ length: lifts }, (_, i): FinishingRound => {
    const share = i === 0 ? 1 : laterShare;
    return {
      row: filled,
      lift: i + 1,
      lifts,
      waitHoursAt20C: i + 1 < lifts ? filling.cureHours : filling.sandAfterHours,
      personMinutes: whole.personMinutes * share,
      massKg: whole.massKg * share,
    };
  });
}

const byStage = (row: FinishingRow): number => (row.stage === 'fair' ? 0 : 1);

function finishingWork(
  kind: 'fair' | 'prime',
  stacks: readonly ZoneStack[],
  build: FullBuild,
  library: Library,
): StageWork {
  const rounds = finishingRounds(build, library).filter((round) => round.row.stage === kind);
  if (rounds.length === 0 || stacks.length === 0) return none(kind);
  return {
    kind,
    personMinutes: rounds.reduce((total, round) => total + round.personMinutes, 0),
    peopleMin: 1,
    peopleMax: 2,
    provenance: rounds[0]!.row.provenance,
  };
}
