/** Small builds drawn from a seed, as a shop would bring them, for the laws of a verdict. */
import fc from 'fast-check';
import type { Build } from '../../app/document/schema.ts';
import { addDays } from '../support/builds.ts';

const FIRST_DAY = '2027-04-19';

const cloth = fc.constantFrom('glass-twill-300', 'carbon-twill-200');
const plies = fc.array(fc.record({ cloth, angleDeg: fc.constantFrom(0, 45) }), {
  minLength: 1,
  maxLength: 2,
});
const zone = fc.record({
  areaM2: fc.double({ min: 0.2, max: 2, noNaN: true }),
  shape: fc.constantFrom('flat', 'single'),
  outer: plies,
  core: fc.option(fc.record({ material: fc.constant('pvc-80'), thicknessMm: fc.constant(10) })),
  inner: plies,
  closeout: fc.option(fc.record({ plies })),
});
const hours = fc.constantFrom<[string, string][]>(
  [
    ['07:30', '12:00'],
    ['12:30', '16:30'],
  ],
  [['08:00', '18:00']],
  [['06:30', '14:30']],
);
const drawn = fc.record({
  days: fc.integer({ min: 12, max: 70 }),
  zones: fc.array(zone, { minLength: 1, maxLength: 2 }),
  crew: fc.array(hours, { minLength: 1, maxLength: 3 }),
  hardener: fc.constantFrom('fast', 'medium', 'slow'),
  dayC: fc.integer({ min: 17, max: 26 }),
  painted: fc.boolean(),
  slotDays: fc.option(fc.integer({ min: 10, max: 60 })),
  tent: fc.boolean(),
});
type Drawn = typeof drawn extends fc.Arbitrary<infer T> ? T : never;

const week = (spans: [string, string][]) =>
  Object.fromEntries(['mon', 'tue', 'wed', 'thu', 'fri'].map((day) => [day, spans]));

function documentOf(one: Drawn, index: number): Build {
  return {
    id: `drawn-${index}`,
    name: `Drawn ${index}`,
    zone: 'Europe/Lisbon',
    unveiling: `${addDays(FIRST_DAY, one.days)}T18:00`,
    part: {
      finish: one.painted ? 'painted' : 'hidden',
      serviceMaxC: 25,
      zones: one.zones.map((own, i) => ({ ...own, id: `zone-${i}`, name: `Zone ${i}` })),
    },
    resin: { system: 'orrin-40', hardener: one.hardener },
    room: {
      temperatureC: { day: one.dayC, night: one.dayC - 3 },
      tent: one.tent ? { maxC: 60 } : null,
    },
    crew: one.crew.map((spans, i) => ({
      id: `hand-${i}`,
      name: ['Ida Moss', 'Per Lunde', 'Ana Reyes'][i]!,
      hours: week(spans),
    })),
    outside: one.painted
      ? [
          {
            id: 'paint',
            visit: 1,
            name: 'Spray shop',
            workingDays: 3,
            slot: one.slotDays === null ? null : addDays(FIRST_DAY, one.slotDays),
          },
          { id: 'fitter', visit: 2, name: 'Fitter', kind: 'other', workingDays: 1 },
        ]
      : [],
  } as Build;
}

/** The same builds for the same seed. */
export const drawnBuilds = (count: number, seed: number): Build[] =>
  fc.sample(drawn, { numRuns: count, seed }).map(documentOf);
