/** Whole Build documents drawn at random, all readable. */
import fc from 'fast-check';
import type { Build } from '../../app/document/schema.ts';
import { smallBuild } from './builds.ts';

const joint = fc.constantFrom('apart' as const, 'tack' as const, 'one-bag' as const);
const shift = fc.constantFrom(
  [['07:30', '16:00']],
  [
    ['06:00', '11:30'],
    ['12:00', '15:00'],
  ],
  [['13:00', '22:00']],
) as fc.Arbitrary<[string, string][]>;

export const drawnBuilds: fc.Arbitrary<Build> = fc
  .record({
    areaM2: fc.double({ min: 0.05, max: 8, noNaN: true }),
    plies: fc.integer({ min: 1, max: 4 }),
    cored: fc.boolean(),
    closed: fc.boolean(),
    day: fc.integer({ min: 12, max: 30 }),
    setback: fc.integer({ min: 0, max: 8 }),
    hardener: fc.constantFrom('fast', 'medium', 'slow'),
    release: fc.constantFrom('wax-paste', 'semi-permanent', 'pva-over-wax'),
    joints: fc.record({ 'skin-core': joint, 'core-inner': joint, 'skin-inner': joint }),
    best: fc.boolean(),
    crew: fc.array(shift, { minLength: 1, maxLength: 3 }),
    zone: fc.constantFrom('Europe/Lisbon', 'America/New_York', 'Australia/Lord_Howe'),
    weeks: fc.integer({ min: 1, max: 14 }),
    painterDays: fc.integer({ min: 0, max: 6 }),
    leavesFrom: fc.constantFrom(null, 'mon' as const, 'thu' as const),
    sealed: fc.boolean(),
    tent: fc.boolean(),
    mould: fc.constantFrom('board-medium', 'mdf', 'eps-coated'),
    heated: fc.subarray(['skin', 'core', 'inner', 'closeout']),
    warmC: fc.integer({ min: 20, max: 60 }),
    holdHours: fc.integer({ min: 0, max: 30 }),
    other: fc.subarray(['core', 'inner', 'closeout']),
    logged: fc.array(fc.integer({ min: 12, max: 28 }), { maxLength: 300 }),
    place: fc.constantFrom('air' as const, 'part' as const),
  })
  .map((r) => {
    const days = new Date(Date.UTC(2027, 3, 19 + 7 * r.weeks)).toISOString().slice(0, 10);
    const ply = { cloth: 'carbon-twill-200' };
    return {
      ...smallBuild(),
      zone: r.zone,
      unveiling: `${days}T17:00`,
      part: {
        zones: [
          {
            areaM2: r.areaM2,
            outer: Array.from({ length: r.plies }, () => ply),
            core: r.cored ? { material: 'pvc-80', thicknessMm: 8 } : null,
            inner: [ply],
            closeout: r.closed ? { plies: [ply] } : null,
          },
        ],
      },
      resin: {
        system: 'orrin-40',
        hardener: r.hardener,
        hardenerFor: Object.fromEntries(r.other.map((layup) => [layup, 'slow'])),
      },
      heat: r.heated.map((layup) => ({
        layup,
        steps: [{ temperatureC: r.warmC, rampKPerHour: 10, holdHours: r.holdHours }],
      })),
      mould: { material: r.mould, release: r.release, sealed: r.sealed },
      room: {
        temperatureC: { day: r.day, night: r.day - r.setback },
        tent: r.tent ? { maxC: 60 } : null,
        measured:
          r.logged.length === 0
            ? null
            : {
                name: 'probe',
                place: r.place,
                from: '2027-04-20T00:00:00Z',
                temperaturesC: r.logged,
              },
      },
      crew: r.crew.map((spans, i) => ({
        name: `Hand ${i + 1}`,
        hours: { mon: spans, tue: spans, wed: spans, thu: spans, fri: spans },
      })),
      outside:
        r.painterDays === 0
          ? []
          : [{ name: 'Sprayers', workingDays: r.painterDays, leavesFrom: r.leavesFrom }],
      route: r.best ? ('best' as const) : { joints: r.joints },
    };
  });
