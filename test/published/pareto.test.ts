/** The front against brute force by the definition (Pareto 1906): no other point dominates it. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bestLayers, paretoFront } from '../../app/judge/pareto.ts';
import { forAll } from '../support/draws.ts';

type Point = readonly number[];
const worseSomewhere = (a: Point, b: Point) => a.some((value, i) => value > b[i]!);
const same = (a: Point, b: Point) => a.join() === b.join();

/** Every point against every other, straight from the definition. */
function bruteForce(points: readonly Point[]): Set<string> {
  const kept = points.filter((point) =>
    points.every((other) => same(other, point) || worseSomewhere(other, point)),
  );
  return new Set(kept.map((point) => point.join()));
}

const points = fc.integer({ min: 1, max: 5 }).chain((width) =>
  fc.array(fc.array(fc.integer({ min: 0, max: 4 }), { minLength: width, maxLength: width }), {
    maxLength: 40,
  }),
);

describe('Pareto front', () => {
  it('is what brute force keeps, each value once', () => {
    forAll(
      fc.property(points, (list) => {
        const front = paretoFront(list, (point) => point);
        const values = front.map((point) => point.join());
        expect(new Set(values).size).toBe(values.length);
        expect(new Set(values)).toEqual(bruteForce(list));
      }),
      { seed: 1 },
    );
  });

  it('keeps the order it was given', () => {
    forAll(
      fc.property(points, (list) => {
        const items = list.map((point, index) => ({ point, index }));
        const order = paretoFront(items, (item) => item.point).map((item) => item.index);
        expect(order).toEqual(order.toSorted((a, b) => a - b));
      }),
      { seed: 2 },
    );
  });

  it('lays the rest in fronts behind it', () => {
    const list = [
      [3, 3],
      [1, 2],
      [2, 1],
      [2, 2],
      [4, 4],
    ];
    const taken = bestLayers(list, (point) => point, 4);
    expect(taken).toEqual([
      [1, 2],
      [2, 1],
      [2, 2],
      [3, 3],
    ]);
    expect(bestLayers(list, (point) => point, 99)).toHaveLength(5);
  });
});
