/** What repair after demould is expected to take, from release, draft, core and thin skins. */
import { practiceIf, releaseOf } from '../document/library.ts';
import type { ConsequenceRow, FullBuild, Library } from '../document/schema.ts';
import type { ZoneResult } from './types.ts';

/** One thing that demould may leave behind, and what it takes to mend. */
export interface RepairCause {
  readonly event: ConsequenceRow['event'];
  readonly name: string;
  /** 0 to 1. */
  readonly chance: number;
  /** Person-minutes where it happens. */
  readonly minutes: number;
  /** Cloth is replaced where it happens, so that a small bag has to cure. */
  readonly replacesPlies: boolean;
}

export interface Repair {
  readonly causes: readonly RepairCause[];
  /** Person-minutes on average, or as the shop has seen them. */
  readonly minutes: number;
  /** Person-minutes where all of it happens. */
  readonly mostMinutes: number;
  /** Chance that plies are replaced; 0 or 1 once the part has been seen. */
  readonly pliesChance: number;
  /** The plan holds a cure for plies that are replaced. */
  readonly cures: boolean;
}

type Measured = readonly Pick<ZoneResult, 'zone' | 'skinsMm'>[];

const EVENTS = ['repair-release', 'repair-draft', 'repair-core', 'ground-through'] as const;
type RepairEvent = (typeof EVENTS)[number];

/** Repair of the part; null for a build that has not taken its rows. */
export function repairOf(build: FullBuild, library: Library, zones: Measured): Repair | null {
  const cureFrom = practiceIf(library, 'repair-cure-from-chance');
  const causes = EVENTS.flatMap((event): RepairCause[] => {
    const row = library.consequences.find((one) => one.event === event);
    const chance = row ? CHANCES[event](build, library, zones) : 0;
    if (!row || chance <= 0) return [];
    const replacesPlies = event === 'repair-draft' || event === 'ground-through';
    return [{ event, name: row.name, chance, minutes: row.extraHours * 60, replacesPlies }];
  });
  if (cureFrom === null || zones.length === 0) return null;
  const seen = build.part.repair;
  if (seen) {
    const minutes = seen.hours * 60;
    const pliesChance = seen.plies ? 1 : 0;
    return { causes: [], minutes, mostMinutes: minutes, pliesChance, cures: seen.plies };
  }
  const spared = causes
    .filter((cause) => cause.replacesPlies)
    .reduce((share, { chance }) => share * (1 - chance), 1);
  return {
    causes,
    minutes: causes.reduce((sum, cause) => sum + cause.chance * cause.minutes, 0),
    mostMinutes: causes.reduce((sum, cause) => sum + cause.minutes, 0),
    pliesChance: 1 - spared,
    cures: 1 - spared >= cureFrom,
  };
}

type Chance = (build: FullBuild, library: Library, zones: Measured) => number;

const CHANCES: Readonly<Record<RepairEvent, Chance>> = {
  /** Pulled spots and chipped edges come several times as often as a part that sticks. */
  'repair-release': ({ mould }, library) =>
    Math.min(
      1,
      releaseOf(library, mould.release).hardDemouldChance *
        (practiceIf(library, 'repair-chance-times') ?? 0),
    ),
  /** Walls below the least draft scrape on their way out: none at it, sure without any. */
  'repair-draft': ({ mould }, library) => {
    const leastDeg = practiceIf(library, 'draft-least-deg') ?? 0;
    if (mould.draftDeg === null || leastDeg <= 0) return 0;
    return Math.max(0, 1 - mould.draftDeg / leastDeg);
  },
  'repair-core': ({ part }, library) =>
    part.zones.some((zone) => zone.core) ? (practiceIf(library, 'dull-core-chance') ?? 0) : 0,
  /** A thin skin is ground through where a mark is dressed. */
  'ground-through': (_build, library, zones) => {
    const thinMm = practiceIf(library, 'thin-skin-mm') ?? 0;
    const thin = zones.some(({ zone, skinsMm }) => zone.core !== null && skinsMm.outer < thinMm);
    return thin ? (practiceIf(library, 'ground-through-chance') ?? 0) : 0;
  },
};
