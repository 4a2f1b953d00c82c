/** A new empty build, and what it still needs before there is a plan. */
import { assume, type Assumption } from '../../app/document/assume.ts';
import { DOCUMENT_VERSION, type Build } from '../../app/document/schema.ts';
import { startingQuestions } from '../../app/judge/questions.ts';
import type { Draft } from './path.ts';

/**
 * Nothing is invented but the zone of the machine it is made on, which is shown and can be changed. The
 * questions that cost most when they are asked late are asked at once.
 */
export const emptyBuild = (zone: string): Draft => ({
  formatVersion: DOCUMENT_VERSION,
  zone,
  part: { zones: [], questions: startingQuestions() },
  crew: [],
});

export interface Missing {
  /** The field that takes it, by its element id. */
  readonly field: string;
  readonly what: string;
}

/** What nobody can assume, in the order in which the job card asks for it. */
export function missingOf(document: Draft): Missing[] {
  const zone = document.part?.zones?.[0];
  const missing: Missing[] = [];
  const need = (there: unknown, field: string, what: string) => {
    if (there === undefined || there === null || there === '' || there === 0) {
      missing.push({ field, what });
    }
  };
  need(document.name, 'job-name', 'a name for the build');
  need(document.unveiling, 'job-unveiling', 'the day and hour of the unveiling');
  need(zone?.areaM2, 'job-area', 'the area of the part');
  need(zone?.outer?.length, 'job-outer', 'the outer plies');
  need(document.resin?.system, 'job-resin', 'a resin');
  need(document.crew?.length, 'job-crew', 'who works on it');
  return missing;
}

/** Stands in for what is still missing while the assumptions about the rest are listed. */
const STAND_IN: Build = {
  name: 'x',
  zone: 'UTC',
  unveiling: '2000-01-01',
  part: { zones: [] },
  resin: { system: 'x', hardener: 'x' },
  crew: [],
};

/** The assumptions about a document, also about one that is not complete yet. */
export function assumptionsOf(document: Draft): readonly Assumption[] {
  const zones = document.part?.zones ?? [];
  const whole = zones.filter((zone) => zone.areaM2 !== undefined);
  try {
    return assume({
      ...STAND_IN,
      ...document,
      library: {},
      part: {
        ...document.part,
        zones: whole.map((z) => ({ ...z, outer: z.outer ?? [], inner: z.inner ?? [] })),
      },
    }).assumptions;
  } catch {
    // A field that cannot be read has its own message; nothing can be said about the others.
    return [];
  }
}

/** What is taken for a field that nobody typed: its value and the reason, or null. */
export function assumedAt(
  assumptions: readonly Assumption[],
  path: string,
): { value: unknown; reason: string } | null {
  for (const { path: at, value, reason } of assumptions) {
    if (at === path) return { value, reason };
    if (!path.startsWith(`${at}.`)) continue;
    let inner: unknown = value;
    for (const key of path.slice(at.length + 1).split('.')) {
      inner =
        typeof inner === 'object' && inner !== null
          ? (inner as Record<string, unknown>)[key]
          : undefined;
    }
    if (inner !== undefined) return { value: inner, reason };
  }
  return null;
}
