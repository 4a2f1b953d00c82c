/** A small build with room in its date, and ways to bend it; the shipped library behind. */
import {
  librarySchema,
  type Build,
  type Finding,
  type Library,
} from '../../../app/document/schema.ts';
import type { PlanOutcome } from '../../../app/plan/outcome.ts';
import { plan } from '../../../app/answer/plan.ts';
import { contextOf, type PlanContext } from '../../../app/plan/context.ts';
import { isoToMinute } from '../../../app/time/zone.ts';
import { shippedLibrary } from '../../../main/library/shipped.ts';

export const LIBRARY: Library = librarySchema.parse(shippedLibrary());
export const NOW = isoToMinute('2027-04-19T07:00+01:00')!;

const GLASS = { cloth: 'glass-twill-300' };

/** Two people, one sandwich zone, a painter with a slot; fits with days to spare. */
export const ROOMY: Build = {
  formatVersion: 1,
  id: 'test-build',
  name: 'Test build',
  zone: 'Europe/Lisbon',
  unveiling: '2027-06-30T18:00',
  part: {
    finish: 'painted',
    serviceMaxC: 25,
    zones: [
      {
        areaM2: 1.2,
        shape: 'single',
        outer: [GLASS, GLASS],
        core: { material: 'pvc-80', thicknessMm: 10 },
        inner: [GLASS],
      },
    ],
  },
  resin: { system: 'orrin-40', hardener: 'medium' },
  room: { temperatureC: { day: 21, night: 19 }, humidityPct: 50 },
  crew: [
    { name: 'Ida Moss' },
    { name: 'Per Lunde' },
    { name: 'Ana Reyes' },
    { name: 'Joel Field' },
  ],
};

export const withPart = (document: Build, part: Partial<Build['part']>): Build => ({
  ...document,
  part: { ...document.part, ...part },
});

export const withZone = (document: Build, zone: Partial<Build['part']['zones'][number]>): Build =>
  withPart(document, { zones: document.part.zones.map((one) => ({ ...one, ...zone })) });

/** A row of the library replaced by what `change` makes of it. */
export function withRow<T extends keyof Library>(
  library: Library,
  table: T,
  id: string,
  change: Partial<Library[T][number]>,
): Library {
  const rows = library[table] as readonly { id: string }[];
  if (!rows.some((row) => row.id === id)) throw new Error(`${table} has no row ${id}`);
  return {
    ...library,
    [table]: rows.map((row) => (row.id === id ? { ...row, ...change } : row)),
  };
}

export const contextFor = (document: Build, now = NOW, library = LIBRARY): PlanContext =>
  contextOf(document, library, now);

export const planFor = (
  document: Build,
  scope: 'first' | 'full' = 'first',
  now = NOW,
  library = LIBRARY,
): PlanOutcome => plan(document, library, now, { scope, schedules: 1 });

export const codesOf = (findings: readonly Finding[]): Set<string> =>
  new Set(findings.map((finding) => finding.code));
