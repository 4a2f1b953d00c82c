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
import type { ZoneStack } from './stack.ts';
import type { StageWork } from './types.ts';

/** @throws MissingRow */
export function labourById(library: Library, id: string): LabourRow {
  const row = library.labour.find((candidate) => candidate.id === id);
  if (!row) throw new MissingRow('labour', id);
  return row;
}

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
  mould: 'skill',
  seal: 'skill',
  'bag-test': 'skill',
  release: 'skill',
  'resin-warm': 'clock',
  cutting: 'skill',
  'core-fit': 'skill',
  rehearsal: 'skill',
  prepare: 'skill',
  layup: 'skill',
  'watched-vacuum': 'clock',
  cure: 'none',
  'bag-off': 'skill',
  'heat-setup': 'clock',
  'post-cure': 'none',
  'heat-takedown': 'clock',
  demould: 'skill',
  trim: 'skill',
  closeout: 'skill',
  'fit-check': 'skill',
  fair: 'skill',
  prime: 'skill',
  wait: 'none',
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

/** What of a zone a stage works on. */
function reach(kind: StageKind, { zone, core }: ZoneStack): { areaM2: number; edgeM: number } {
  const all = { areaM2: zone.areaM2, edgeM: zone.edgeM };
  const nothing = { areaM2: 0, edgeM: 0 };
  if (kind === 'core-fit') return core ? all : nothing;
  if (kind === 'closeout') return zone.closeout ? { areaM2: 0, edgeM: zone.edgeM } : nothing;
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
  const row = labourOf(library, kind);
  let worked = 0;
  let edgeM = 0;
  let touched = false;
  stacks.forEach((stack, i) => {
    const where = reach(kind, stack);
    touched ||= where.areaM2 > 0 || where.edgeM > 0;
    edgeM += where.edgeM;
    worked +=
      (row.minutesPerM2 * where.areaM2 + row.minutesPerPlyM2 * plyAreaM2[i]!) *
      shapedFactor(row, stack.zone);
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
  if (kind === 'mould') {
    if (build.mould.sealed) return 0;
    const machined = build.outside.some((party) => party.kind === 'machining');
    return machined ? minutes * practiceOf(library)('mould-share-machined') : minutes;
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
      return {
        row,
        personMinutes: (row.setupMinutes + row.minutesPerM2 * shapedM2) * factor,
        massKg: row.massKgM2 * areaM2,
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
