/** A new empty build, and what it still needs before there is a plan. */
import { assume, type Assumption } from '../assume.ts';
import { DOCUMENT_VERSION, type Build } from '../schema.ts';
import type { Question } from './answers.ts';
import type { Draft } from './path.ts';

/**
 * Nothing is invented but the zone of the machine it is made on, which is shown and can be changed.
 * @param zone an IANA name, as in 'Europe/Lisbon'
 * @param questions asked from the start, as those that cost most when they are asked late
 */
export const emptyBuild = (zone: string, questions: readonly Question[]): Draft => ({
  formatVersion: DOCUMENT_VERSION,
  zone,
  part: { zones: [], questions: [...questions] },
  crew: [],
});

export interface Missing {
  /** Path of the field that takes it. */
  readonly path: string;
  readonly what: string;
}

/** What nobody can assume, in the order in which the job card asks for it. */
export function missingOf(document: Draft): Missing[] {
  const zone = document.part?.zones?.[0];
  const missing: Missing[] = [];
  const need = (there: unknown, path: string, what: string) => {
    if (there === undefined || there === null || there === '' || there === 0) {
      missing.push({ path, what });
    }
  };
  need(document.name, 'name', 'a name for the build');
  need(document.unveiling, 'unveiling', 'the day and hour of the unveiling');
  need(zone?.areaM2, 'part.zones[0].areaM2', 'the area of the part');
  need(zone?.outer?.length, 'part.zones[0].outer', 'the outer plies');
  need(document.resin?.system, 'resin.system', 'a resin');
  need(document.crew?.length, 'crew[0].name', 'who works on it');
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
