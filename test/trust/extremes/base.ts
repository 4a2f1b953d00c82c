/** A build with something in every list, rows frozen, every assumption written out. */
import { freezeRows } from '../../../app/document/library.ts';
import { readDocument } from '../../../app/document/read.ts';
import { buildSchema, type Build } from '../../../app/document/schema.ts';
import { withValue } from '../../support/number-fields.ts';
import { LIBRARY, ROOMY } from '../../unit/judge/builds.ts';

const DAY_OFF = '2027-05-05';

function rich(): Build {
  const ply = ROOMY.part.zones[0]!.outer[0]!;
  const document = {
    ...ROOMY,
    heat: [{ layup: 'skin', steps: [{ temperatureC: 45, rampKPerHour: 10, holdHours: 8 }] }],
    links: [{ before: 'cutting', after: 'core-fit', minHours: 1, maxHours: 500 }],
    crew: ROOMY.crew.map((person) => ({
      ...person,
      off: [DAY_OFF],
      overtime: { sat: [['08:00', '12:00']] },
    })),
    outside: [
      { id: 'p', name: 'Painter', workingDays: 3, bakeC: 45, off: [DAY_OFF], driveHours: 1 },
    ],
    stock: [{ row: 'peel-ply', quantity: 1 }],
    suppliers: [{ id: 'cloth-merchant', name: 'Cloth merchant', leadDays: 3, off: [DAY_OFF] }],
    busy: [
      {
        what: 'Another job',
        who: { kind: 'bench', amount: 1 },
        from: '2027-04-20T08:00',
        until: '2027-04-20T12:00',
      },
    ],
    holidays: [{ date: '2027-05-01', name: 'A day off', for: 'shop' }],
    pins: [{ stage: 'trim', start: '2027-06-07T08:00' }],
    records: [
      {
        stage: 'sign-off',
        start: '2027-04-16T08:00',
        end: '2027-04-16T09:00',
        workedMinutes: 60,
        massKg: 1,
        people: ['person-1'],
        mixes: [{ batch: 1, at: '2027-04-16T08:10', massG: 100 }],
      },
    ],
    resin: {
      ...ROOMY.resin,
      benchForLot: [
        { lot: 'A17', hardener: ROOMY.resin.hardener, bench: { filmTimes: 1.1, cupPace: 1 } },
      ],
    },
    levers: [{ id: 'answer/seen', label: 'An answer' }],
    helperFor: ['skin'],
    printed: {
      at: '2027-04-16T08:00',
      stages: [{ stage: 'trim', start: '2027-06-07T08:00' }],
      sheets: [{ id: 'week', lines: ['ab12'] }],
      routes: [{ route: 'a', cures: ['Outer skin'], closes: '2027-04-20T08:00+00:00' }],
    },
    room: {
      ...ROOMY.room,
      tent: { maxC: 60 },
      releaseAndSpray: 'beside',
      measured: { name: 'probe', from: '2027-04-20T00:00:00Z', temperaturesC: [20, 19, 18] },
    },
    mould: { draftDeg: 3, machiningMinor: 10_000, warmUpHours: 2, maxC: 70 },
    part: {
      ...ROOMY.part,
      targetMassKg: 8,
      sections: { skin: 1, inner: 1 },
      questions: [{ id: 'q', text: 'Which colour?', answer: 'Grey', before: 'prime' }],
      frame: { from: '2027-05-20T08:00', until: null },
      repair: { hours: 3, plies: true },
      edge: { tape: 'after-night', rim: { widthMm: 20, depthMm: 10 } },
      inserts: [{ name: 'Bolt', count: 4, areaM2: 0.01, cloth: ply.cloth, plies: 6 }],
      zones: ROOMY.part.zones.map((zone) => ({
        ...zone,
        sizeM: [1.2, 1],
        radiusMm: 900,
        gapMm: 40,
        local: [{ ...ply, place: 'between', areaM2: 0.1 }],
        closeout: { widthMm: 60, plies: [ply] },
      })),
    },
    lessons: { events: [{ event: 'joint-tack', areaM2: 1 }] },
  } as unknown as Build;
  const read = readDocument(document, LIBRARY);
  if (!read.ok) throw new Error(JSON.stringify(read.faults));
  const frozen = buildSchema.parse(freezeRows(read.document, read.build, LIBRARY));
  const bench = { filmTimes: 1, cupPace: 1 };
  const builds = [{ build: 'earlier', records: 4, logSum: 0.4, squareSum: 0.1 }];
  const taught = { factor: 1.1, spread: 0.2, builds };
  return withValue(
    withValue(frozen, ['library', 'labour', 0, 'taught'], taught),
    ['library', 'resins', 0, 'hardeners', 0, 'bench'],
    bench,
  ) as unknown as Build;
}

export const RICH = rich();
