/**
 * The reader goes through a document once: twice as long is twice the work, counted by blocks that ran.
 * By the square it would be four times the work, by n log n no more than 2.5.
 */
import { growth } from '../../support/countedWork.ts';
import { expect, it } from 'vitest';
import { readDocument } from '../../../app/document/read.ts';
import { library, read, smallBuild } from '../../support/builds.ts';

const many = <T>(count: number, one: (i: number) => T): T[] =>
  Array.from({ length: count }, (_, i) => one(i));
const zone = smallBuild().part.zones[0]!;
const day = { from: '2027-05-03T08:00', until: '2027-05-03T09:00' };

/** Documents that are long in one of their lists, whether they are read or refused. */
const LISTS: readonly (readonly [string, number, (count: number) => object])[] = [
  ['zones', 50, (count) => ({ part: { zones: many(count, (i) => ({ ...zone, id: `z${i}` })) } })],
  [
    'questions with one id',
    125,
    (count) => ({
      part: {
        zones: [zone],
        questions: many(count, () => ({ id: 'q', text: 'Which?', before: 'layup' })),
      },
    }),
  ],
  [
    'outside parties',
    15,
    (count) => ({ outside: many(count, (i) => ({ name: `Painter ${i}`, workingDays: 1 })) }),
  ],
  [
    'busy times of nobody',
    250,
    (count) => ({
      busy: many(count, () => ({ what: 'Job', who: { kind: 'person', id: 'x' }, ...day })),
    }),
  ],
  [
    'holidays of parties',
    250,
    (count) => ({
      suppliers: many(Math.floor(count / 10), (i) => ({ id: `s${i}`, name: `Store ${i}` })),
      holidays: many(count, (i) => ({
        date: '2027-05-03',
        name: 'Fair',
        for: { party: `s${i % 20}` },
        source: 'own entry',
      })),
    }),
  ],
  [
    'orders in a row',
    125,
    (count) => ({ links: many(count, (i) => ({ before: `stage-${i}`, after: `stage-${i + 1}` })) }),
  ],
  [
    'orders that end in a ring',
    125,
    (count) => ({
      links: many(count, (i) => ({ before: `stage-${i}`, after: `stage-${(i + 1) % count}` })),
    }),
  ],
  [
    'unknown cloths',
    15,
    (count) => ({
      part: { zones: [{ ...zone, outer: many(count, (i) => ({ cloth: `cloth-${i}` })) }] },
    }),
  ],
  [
    'records',
    1000,
    (count) => ({
      records: many(count, () => ({ stage: 'trim', start: day.from, end: day.until })),
    }),
  ],
];

it.each(LISTS)('%s: twice as many are about twice the work', (_name, size, lists) => {
  const documents = new Map<number, object>();
  const work = (count: number) => {
    const document = documents.get(count) ?? { ...smallBuild(), ...lists(count) };
    documents.set(count, document);
    return () => readDocument(document, library());
  };
  expect(growth(work, size)).toBeLessThan(2.8);
});

it('a ring of five hundred orders is told whole', () => {
  const result = read({ ...smallBuild(), ...LISTS[6]![2](500) });
  expect(result.ok).toBe(false);
  if (result.ok) return;
  expect(result.faults).toHaveLength(1);
  expect(result.faults[0]!.found.split(' -> ')).toHaveLength(501);
});
