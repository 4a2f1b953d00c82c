/** Builds for the part's tests: small, typed, on the shipped library. */
import { buildSchema, type Build, type FullBuild } from '../../../app/document/schema.ts';
import { shippedLibrary } from '../../../main/library/shipped.ts';

export const library = shippedLibrary();

type Zone = Build['part']['zones'][number];

/** One square metre of carbon over foam, edges closed. */
export const zone = (changes: Partial<Zone> = {}): Zone => ({
  id: 'panel',
  areaM2: 1,
  edgeM: 4,
  shape: 'flat',
  outer: [{ cloth: 'carbon-twill-200' }],
  core: { material: 'pvc-80', thicknessMm: 10, treatment: 'plain' },
  inner: [{ cloth: 'carbon-twill-200' }],
  ...changes,
});

/** A build of the given zones, all else assumed. */
export function build(zones: readonly Zone[], changes: Partial<Build> = {}): FullBuild {
  const { part, ...rest } = changes;
  return buildSchema.parse({
    name: 'Test panel',
    zone: 'Europe/Lisbon',
    unveiling: '2027-06-01',
    resin: { system: 'orrin-40', hardener: 'medium' },
    crew: [{ name: 'One' }],
    ...rest,
    part: { ...part, zones },
  });
}
