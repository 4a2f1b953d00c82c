/** A new empty build, and what it still needs before there is a plan. */
import { assume, type Assumption } from '../assume.ts';
import { NEEDED_FIELDS, type NeededField } from '../fields.ts';
import { COUNTRIES } from '../../units/formats.ts';
import { DOCUMENT_VERSION, type Build } from '../schema.ts';
import type { Question } from './answers.ts';
import { getIn, type Draft } from './path.ts';

/**
 * Nothing is invented but the zone of the machine it is made on, and the country of that zone for the way
 * of writing numbers and dates; both are shown and can be changed.
 * @param zone an IANA name, as in 'Europe/Lisbon'
 * @param questions asked from the start, as those that cost most when they are asked late
 */
export const emptyBuild = (zone: string, questions: readonly Question[]): Draft => ({
  formatVersion: DOCUMENT_VERSION,
  zone,
  ...countryAt(zone),
  part: { zones: [], questions: [...questions] },
  crew: [],
});

/**
 * The country that a zone belongs to, among those whose way of writing is known. A zone that goes by several
 * names is looked for by the one that the runtime keeps it under.
 */
function countryAt(zone: string): { readonly country?: string } {
  const kept = keptName(zone);
  const country = COUNTRIES.find((region) => {
    const zones = zonesOf(region);
    return zones.includes(zone) || zones.includes(kept);
  });
  return country === undefined ? {} : { country };
}

/** `Asia/Calcutta` of `Asia/Kolkata`, or the other way round; the name itself where the runtime has no such zone. */
function keptName(zone: string): string {
  try {
    return new Intl.DateTimeFormat('en-GB', { timeZone: zone }).resolvedOptions().timeZone;
  } catch {
    return zone;
  }
}

/** Asked of the runtime, whose library of types does not know the question yet. */
const zonesOf = (region: string): readonly string[] => {
  const place = new Intl.Locale('und', { region }) as Intl.Locale & {
    getTimeZones?: () => string[] | undefined;
  };
  return place.getTimeZones?.() ?? [];
};

/** What nobody can assume, in the order in which the job card asks for it. */
export const missingOf = (document: Draft): NeededField[] =>
  NEEDED_FIELDS.filter(({ path }) => isEmpty(getIn(document, path.replaceAll('[]', '[0]'))));

const isEmpty = (value: unknown): boolean =>
  value === undefined ||
  value === null ||
  value === '' ||
  value === 0 ||
  (Array.isArray(value) && value.length === 0);

/** Stands in for what is still missing while the assumptions about the rest are listed. */
const PLACEHOLDER_BUILD: Build = {
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
      ...PLACEHOLDER_BUILD,
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
