/** Every number of document, library and practice at the ends of its range: a plan, and only finite figures. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { freezeRows } from '../../app/document/library.ts';
import { readDocument } from '../../app/document/read.ts';
import { buildSchema, type Build } from '../../app/document/schema.ts';
import { numberFields, withValue, type NumberField, type Path } from '../support/number-fields.ts';
import { LIBRARY, planFor, ROOMY } from '../unit/judge/builds.ts';
import { forAll } from '../support/draws.ts';

/** A build with something in every list, rows frozen, every assumption written out. */
function rich(): Build {
  const document = {
    ...ROOMY,
    heat: [{ layup: 'skin', steps: [{ temperatureC: 45, rampKPerHour: 10, holdHours: 8 }] }],
    links: [{ before: 'cutting', after: 'core-fit', minHours: 1, maxHours: 500 }],
    outside: [{ id: 'p', name: 'Painter', workingDays: 3, bakeC: 45 }],
    stock: [{ row: 'peel-ply', quantity: 1 }],
    suppliers: [{ id: 'cloth-merchant', name: 'Cloth merchant', leadDays: 3 }],
    busy: [
      {
        what: 'Another job',
        who: { kind: 'bench', amount: 1 },
        from: '2027-04-20T08:00',
        until: '2027-04-20T12:00',
      },
    ],
    holidays: [{ date: '2027-05-01', name: 'A day off', for: 'shop' }],
    room: {
      ...ROOMY.room,
      tent: { maxC: 60 },
      measured: { name: 'probe', from: '2027-04-20T00:00:00Z', temperaturesC: [20, 19, 18] },
    },
    part: {
      ...ROOMY.part,
      targetMassKg: 8,
      frame: { from: '2027-05-20T08:00', until: null },
      repair: { hours: 3, plies: true },
      edge: { tape: 'after-night', rim: { widthMm: 20, depthMm: 10 } },
      inserts: [
        {
          name: 'Bolt',
          count: 4,
          areaM2: 0.01,
          cloth: ROOMY.part.zones[0]!.outer[0]!.cloth,
          plies: 6,
        },
      ],
      zones: ROOMY.part.zones.map((zone) => ({
        ...zone,
        sizeM: [1.2, 1],
        radiusMm: 900,
        gapMm: 40,
        local: [{ ...zone.outer[0]!, place: 'between', areaM2: 0.1 }],
        closeout: { widthMm: 60, plies: [zone.outer[0]!] },
      })),
    },
    lessons: { events: [{ event: 'joint-tack', areaM2: 1 }] },
  } as unknown as Build;
  const read = readDocument(document, LIBRARY);
  if (!read.ok) throw new Error(JSON.stringify(read.faults));
  const frozen = buildSchema.parse(freezeRows(read.document, read.build, LIBRARY));
  const bench = { filmTimes: 1, cupPace: 1 };
  return withValue(
    frozen,
    ['library', 'resins', 0, 'hardeners', 0, 'bench'],
    bench,
  ) as unknown as Build;
}

const BASE = rich();
const missed: string[] = [];
const FIELDS = numberFields(buildSchema, BASE, (path) => missed.push(path.join('.'))).filter(
  ({ path }) => path[0] !== 'formatVersion' && path.at(-1) !== 'revision',
);
const name = (path: Path): string => path.join('.');

/** Places of figures that are no finite numbers. */
function unfit(value: unknown, path = ''): string[] {
  if (typeof value === 'number') return Number.isFinite(value) ? [] : [path];
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, inner]) => unfit(inner, `${path}.${key}`));
}

/** Null when the reader refuses it for what two fields say of each other. */
function planned(document: Build): string[] | null {
  if (!readDocument(document, LIBRARY).ok) return null;
  return unfit(planFor(document, 'first').result);
}

describe('a number at the end of its range', () => {
  it('has a range: no field goes on for ever', () => {
    expect(
      FIELDS.filter(({ least, most }) => !(Math.abs(least) < 1e13 && Math.abs(most) < 1e13)).map(
        ({ path }) => name(path),
      ),
    ).toEqual([]);
    expect(FIELDS.length).toBeGreaterThan(120);
    // What stands empty here holds no number.
    expect([...new Set(missed)].toSorted()).toEqual([
      'crew.0.off',
      'levers',
      'library.consumables.0.hazards',
      'outside.0.off',
      'part.questions',
      'pins',
      'printed',
      'records',
      'suppliers.0.off',
    ]);
  });

  it('plans alone', { timeout: 300_000 }, () => {
    const faults: string[] = [];
    let plans = 0;
    for (const { path, least, most } of FIELDS) {
      for (const value of [least, most]) {
        const told = tried(`${name(path)} = ${value}`, withValue(BASE, path, value));
        if (told === null) continue;
        plans++;
        faults.push(...told);
      }
    }
    expect(faults).toEqual([]);
    expect(plans).toBeGreaterThan(200);
  });

  it('plans in pairs', { timeout: 300_000 }, () => {
    let plans = 0;
    const end = fc.tuple(fc.constantFrom(...FIELDS), fc.boolean());
    forAll(
      fc.property(end, end, (one, other) => {
        const at = ([field, high]: [NumberField, boolean]) => (high ? field.most : field.least);
        const document = withValue(withValue(BASE, one[0].path, at(one)), other[0].path, at(other));
        const told = tried(`${name(one[0].path)}, ${name(other[0].path)}`, document);
        if (told === null) return;
        plans++;
        expect(told).toEqual([]);
      }),
      { seed: 1, numRuns: 60 },
    );
    expect(plans).toBeGreaterThan(30);
  });
});

function tried(what: string, document: Build): string[] | null {
  try {
    return planned(document)?.map((place) => `${what}: ${place}`) ?? null;
  } catch (error) {
    return [`${what}: ${error instanceof Error ? error.message : String(error)}`];
  }
}
