/**
 * What a person adds to a build costs a first answer no more than its share: counted by blocks that ran, for
 * lists of which one is four times as long. By n log n that is at most 5.5 times the work, by the square 16.
 * Questions and visits are a small part of a plan, so that less is asked of them.
 */
import { countedWork } from '../../support/countedWork.ts';
import { expect, it } from 'vitest';
import { plan } from '../../../app/answer/plan.ts';
import type { Build } from '../../../app/document/schema.ts';
import { FIRST_ANSWER } from '../../../app/plan/outcome.ts';
import { library, NOW, read, smallBuild } from '../../support/builds.ts';

const many = <T>(count: number, one: (i: number) => T): T[] =>
  Array.from({ length: count }, (_, i) => one(i));
const base = { ...smallBuild(), unveiling: '2030-07-02T18:00' };
const zone = base.part.zones[0]!;

const ADDED: readonly (readonly [string, number, number, (count: number) => object])[] = [
  [
    'cut pieces to nest: inserts',
    2,
    15,
    (count) => ({
      part: {
        ...base.part,
        inserts: many(count, (i) => ({
          name: `Bolt ${i}`,
          count: 4,
          areaM2: 0.01,
          cloth: 'carbon-twill-200',
          plies: 6,
        })),
      },
    }),
  ],
  [
    'cut pieces to nest: zones',
    5.5,
    50,
    (count) => ({ part: { zones: many(count, (i) => ({ ...zone, id: `z${i}`, areaM2: 0.05 })) } }),
  ],
  [
    'questions',
    2.5,
    120,
    (count) => ({
      part: {
        ...base.part,
        questions: many(count, (i) => ({ id: `q${i}`, text: `Which ${i}?`, before: 'layup' })),
      },
    }),
  ],
  [
    'gear',
    1.5,
    15,
    (count) => ({ gear: { moulds: count, pumpPorts: count, tents: count, benches: count } }),
  ],
  [
    'outside parties',
    2,
    15,
    (count) => ({ outside: many(count, (i) => ({ name: `Painter ${i}`, workingDays: 1 })) }),
  ],
];

it.each(ADDED)('%s: four times as many, at most %d times the work', (_name, most, size, added) => {
  const work = (count: number): number => {
    const result = read({ ...base, ...added(count) } as Build);
    if (!result.ok) throw new Error(JSON.stringify(result.faults[0]));
    return countedWork(() => void plan(result.document, library(), NOW, FIRST_ANSWER));
  };
  const ratio = work(4 * size) / work(size);
  expect(ratio).toBeLessThan(most);
});
