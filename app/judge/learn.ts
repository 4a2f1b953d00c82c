/** The consequence table and the risk of a hard demould, learned from the shop's own builds. */
import { practiceOf } from '../document/library.ts';
import type { ConsequenceRow, FullBuild, Library, ReleaseRow } from '../document/schema.ts';

/** What an event cost on a finished build, as the floor wrote it down. */
export interface EventRecord {
  readonly build: string;
  readonly event: ConsequenceRow['event'];
  readonly areaM2: number;
  /** Person-minutes of fairing and filling beyond those of a build without the event. */
  readonly fairMinutes: number;
  /** Hours of other work that came with it. */
  readonly extraHours: number;
  readonly fillerKg: number;
}

/** How one part came off the mould. */
export interface DemouldRecord {
  readonly build: string;
  readonly release: string;
  readonly hard: boolean;
}

/** A finished build as the shop wrote it down. */
export interface FinishedBuildLessons {
  readonly id: string;
  readonly release: string;
  readonly lessons: FullBuild['lessons'];
}

/** Every event and every demould of the finished builds; what was not written down is left out. */
export function lessonsOf(builds: readonly FinishedBuildLessons[]): {
  readonly events: EventRecord[];
  readonly demoulds: DemouldRecord[];
} {
  const finished = builds.filter(({ lessons }) => lessons.finished);
  return {
    events: finished.flatMap(({ id, lessons }) =>
      lessons.events.map((event) => ({ build: id, ...event })),
    ),
    demoulds: finished.flatMap(({ id, release, lessons }) =>
      lessons.hardDemould === null ? [] : [{ build: id, release, hard: lessons.hardDemould }],
    ),
  };
}

/**
 * Rows of the consequence table with the means of the shop's records in place of common practice,
 * where enough builds have them. Means over area, so that a large part counts by its size.
 * @returns only the rows that change, with a new revision and where they come from
 * @throws MissingRow when the library does not say how many builds are enough
 */
export function learnedConsequences(
  library: Library,
  records: readonly EventRecord[],
): ConsequenceRow[] {
  const enough = practiceOf(library)('learning-builds');
  return library.consequences.flatMap((row) => {
    const own = records.filter((record) => record.event === row.event && record.areaM2 > 0);
    const builds = new Set(own.map((record) => record.build)).size;
    if (builds < enough) return [];
    const areaM2 = sum(own, (record) => record.areaM2);
    return [
      {
        ...row,
        revision: row.revision + 1,
        provenance: { kind: 'measured' as const, source: `${builds} of the shop's own builds` },
        fairMinutesPerM2: sum(own, (record) => record.fairMinutes) / areaM2,
        fairMinutesPerEdgeM: 0,
        fillerKgM2: sum(own, (record) => record.fillerKg) / areaM2,
        extraHours: sum(own, (record) => record.extraHours) / own.length,
      },
    ];
  });
}

/**
 * Release rows whose chance of a hard demould the shop's own parts have moved. The table counts as
 * `learning-builds` parts of its own (the mean of a beta law with that weight), so that a single bad
 * demould changes the chance only a little.
 * @throws MissingRow
 */
export function learnedReleases(library: Library, records: readonly DemouldRecord[]): ReleaseRow[] {
  const weight = practiceOf(library)('learning-builds');
  return library.releases.flatMap((row) => {
    const own = records.filter((record) => record.release === row.id);
    if (own.length < weight) return [];
    const hard = own.filter((record) => record.hard).length;
    // A row that the same parts have moved before counts them once.
    const tableChance = row.tableChance ?? row.hardDemouldChance;
    return [
      {
        ...row,
        revision: row.revision + 1,
        provenance: {
          kind: 'measured' as const,
          source: `${own.length} of the shop's own demoulds`,
        },
        tableChance,
        hardDemouldChance: (hard + weight * tableChance) / (own.length + weight),
      },
    ];
  });
}

const sum = <T>(items: readonly T[], value: (item: T) => number): number =>
  items.reduce((total, item) => total + value(item), 0);
