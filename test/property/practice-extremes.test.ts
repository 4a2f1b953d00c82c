/** Every number of practice at both ends of what its unit allows: a plan, and only finite figures. */
import { expect, it } from 'vitest';
import { practiceRange, WIDEST } from '../../app/document/practiceRange.ts';
import { readDocument } from '../../app/document/read.ts';
import { LIBRARY, planFor, ROOMY } from '../unit/judge/builds.ts';

const ends = LIBRARY.practice.flatMap((row) =>
  practiceRange(row).map((value) => [row.id, value] as const),
);

const withPractice = (id: string, value: number) => ({
  ...ROOMY,
  library: {
    ...ROOMY.library,
    practice: [{ ...LIBRARY.practice.find((row) => row.id === id)!, value }],
  },
});

function unfit(value: unknown, path = ''): string[] {
  if (typeof value === 'number') return Number.isFinite(value) ? [] : [path];
  if (typeof value === 'string') return /NaN|Infinity|undefined/.test(value) ? [path] : [];
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, inner]) => unfit(inner, `${path}.${key}`));
}

it('every unit of practice has a range of its own, and every shipped number is in it', () => {
  for (const row of LIBRARY.practice) {
    const [least, most] = practiceRange(row);
    expect([least, most], row.unit).not.toEqual(WIDEST);
    expect(row.value >= least && row.value <= most, row.id).toBe(true);
  }
});

it('a number beyond its unit is a fault with its place and what is expected', () => {
  const read = readDocument(withPractice('spread-share-of-pot-life', 0), LIBRARY);
  expect(read).toMatchObject({
    ok: false,
    faults: [{ path: 'library.practice[0].value', found: '0', expected: '0.01 to 1 of pot life' }],
  });
});

it('plans with each at both ends', { timeout: 240_000 }, () => {
  expect(ends.length).toBeGreaterThan(250);
  const bad = ends.flatMap(([id, value]) => {
    const document = withPractice(id, value);
    if (!readDocument(document, LIBRARY).ok) return [`${id} ${value}: refused`];
    try {
      const places = unfit(planFor(document, 'first').result);
      return places.slice(0, 1).map((place) => `${id} ${value}: ${place}`);
    } catch (error) {
      return [`${id} ${value}: ${String(error)}`];
    }
  });
  expect(bad).toEqual([]);
});
