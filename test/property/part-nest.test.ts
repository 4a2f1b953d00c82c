import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { cutSheet, stripLengths } from '../../app/part/cuts.ts';
import { laneLengthMm, nestStrips, type StripNest } from '../../app/part/nest.ts';
import { packOnRoll } from '../../app/part/pack.ts';
import { forAll, tally } from '../support/draws.ts';

type Point = readonly [number, number];

/** Corners of every strip of a nest, from its angle alone. */
function stripPolygons(nest: StripNest): Point[][] {
  const angle = (nest.angleDeg * Math.PI) / 180;
  const along: Point = [Math.sin(angle), Math.cos(angle)];
  const aside: Point = [-Math.cos(angle), Math.sin(angle)];
  const at = (x: number, y: number, a: number, b: number): Point => [
    x + a * along[0] + b * aside[0],
    y + a * along[1] + b * aside[1],
  ];
  return nest.lanes.flatMap((lane) => {
    let start = 0;
    return lane.lengths.map((length) => {
      const corner = (a: number, b: number): Point => at(lane.xMm, lane.yMm, a, b);
      const polygon = [
        corner(start, 0),
        corner(start + length, 0),
        corner(start + length, nest.widthMm),
        corner(start, nest.widthMm),
      ];
      start += length;
      return polygon;
    });
  });
}

/** Depth to which two convex polygons overlap, by separating axes; at most 0 when they do not. */
function overlap(a: readonly Point[], b: readonly Point[]): number {
  let least = Infinity;
  for (const polygon of [a, b]) {
    polygon.forEach(([x, y], i) => {
      const [x2, y2] = polygon[(i + 1) % polygon.length]!;
      const size = Math.hypot(x2 - x, y2 - y);
      const normal: Point = [(y2 - y) / size, (x - x2) / size];
      const on = (points: readonly Point[]): number[] =>
        points.map(([px, py]) => px * normal[0] + py * normal[1]);
      const [pa, pb] = [on(a), on(b)];
      least = Math.min(least, Math.max(...pa) - Math.min(...pb), Math.max(...pb) - Math.min(...pa));
    });
  }
  return least;
}

const cases = fc.record({
  roll: fc.integer({ min: 300, max: 1300 }),
  width: fc.integer({ min: 30, max: 90 }),
  angle: fc.constantFrom(30, 45, 60, 90),
  shares: fc.array(fc.double({ min: 0.1, max: 1, noNaN: true }), { minLength: 1, maxLength: 12 }),
});

describe('strips on a roll', () => {
  it('lie between the selvages, within the length, and never on each other', () => {
    const seen = tally('one lane', 'several lanes');
    forAll(
      fc.property(cases, ({ roll, width, angle, shares }) => {
        const lane = laneLengthMm(width, angle, roll);
        const nest = nestStrips(
          shares.map((share) => share * lane),
          width,
          angle,
          roll,
        )!;
        seen.saw(nest.lanes.length > 1 ? 'several lanes' : 'one lane');
        const polygons = stripPolygons(nest);
        expect(polygons).toHaveLength(shares.length);
        for (const [x, y] of polygons.flat()) {
          expect(x).toBeGreaterThan(-1e-6);
          expect(x).toBeLessThan(roll + 1e-6);
          expect(y).toBeGreaterThan(-1e-6);
          expect(y).toBeLessThan(nest.lengthMm + 1e-6);
        }
        polygons.forEach((a, i) =>
          polygons.slice(i + 1).forEach((b) => expect(overlap(a, b)).toBeLessThan(1e-6)),
        );
        expect(nest.used).toBeLessThanOrEqual(1 + 1e-9);
      }),
      { seed: 1, seen, numRuns: 200 },
    );
  });

  it('take no more than a search over every place on a fine grid finds, on small rolls', () => {
    // Two or three strips, every position on a grid of 5 mm.
    const rolls = [
      { roll: 100, width: 30, angle: 45, lengths: [60, 60] },
      { roll: 100, width: 30, angle: 45, lengths: [90, 40] },
      { roll: 120, width: 20, angle: 30, lengths: [100, 60] },
      { roll: 110, width: 30, angle: 60, lengths: [70, 30] },
      { roll: 90, width: 20, angle: 45, lengths: [40, 40, 40] },
    ];
    for (const { roll, width, angle, lengths } of rolls) {
      const nest = nestStrips(lengths, width, angle, roll)!;
      expect(nest.proven).toBe(true);
      // A grid can only do worse than the true least by less than two steps up the roll.
      expect(nest.lengthMm).toBeLessThanOrEqual(gridLeast(lengths, width, angle, roll) + 1e-6);
    }
  });

  it('with more strips stay close to the cloth they are made of', () => {
    // Full lanes waste a triangle at either end of the cut, and one at either selvage.
    const lane = laneLengthMm(60, 45, 1270);
    const nest = nestStrips(Array<number>(120).fill(lane), 60, 45, 1270)!;
    expect(nest.used).toBeGreaterThan(0.85);
  });

  it('are refused when longer than the roll gives', () => {
    expect(nestStrips([laneLengthMm(60, 45, 1270) + 1], 60, 45, 1270)).toBeNull();
    expect(nestStrips([10], 2000, 45, 1270)).toBeNull();
  });
});

/** Shortest roll that holds strips placed freely on a grid of 5 mm, all at one angle. */
function gridLeast(
  lengths: readonly number[],
  width: number,
  angleDeg: number,
  roll: number,
): number {
  const STEP = 5;
  const angle = (angleDeg * Math.PI) / 180;
  const [sin, cos] = [Math.sin(angle), Math.cos(angle)];
  const reach = Math.max(...lengths) * cos + width * sin + lengths.length * width;
  const spots = (length: number): Point[] => {
    const list: Point[] = [];
    for (let x = width * cos; x <= roll - length * sin + 1e-9; x += STEP) {
      for (let y = 0; y <= reach; y += STEP) list.push([x, y]);
    }
    return list;
  };
  // Seen along the strips, two parallel strips are two upright rectangles.
  const apart = (a: Point, la: number, b: Point, lb: number): boolean => {
    const along = (p: Point): number => p[0] * sin + p[1] * cos;
    const aside = (p: Point): number => -p[0] * cos + p[1] * sin;
    return (
      Math.abs(aside(a) - aside(b)) >= width - 1e-9 ||
      along(a) >= along(b) + lb - 1e-9 ||
      along(b) >= along(a) + la - 1e-9
    );
  };
  const top = (p: Point, length: number): number => p[1] + length * cos + width * sin;
  let best = Infinity;
  const put = (i: number, placed: Point[], height: number): void => {
    if (height >= best) return;
    if (i === lengths.length) {
      best = height;
      return;
    }
    for (const spot of spots(lengths[i]!)) {
      if (!placed.every((other, k) => apart(spot, lengths[i]!, other, lengths[k]!))) continue;
      put(i + 1, [...placed, spot], Math.max(height, top(spot, lengths[i]!)));
    }
  };
  put(0, [], 0);
  return best;
}

describe('an edge split into strips', () => {
  it('is covered end to end, overlaps counted, by strips no longer than the limit', () => {
    const seen = tally('one strip', 'several strips');
    forAll(
      fc.property(
        fc.double({ min: 50, max: 20_000, noNaN: true }),
        fc.double({ min: 300, max: 2000, noNaN: true }),
        fc.double({ min: 0, max: 60, noNaN: true }),
        (edge, limit, lap) => {
          const strips = stripLengths(edge, limit, lap);
          seen.saw(strips.length > 1 ? 'several strips' : 'one strip');
          const covered = strips.reduce((sum, strip) => sum + strip, 0) - (strips.length - 1) * lap;
          expect(covered).toBeCloseTo(edge, 6);
          for (const strip of strips) expect(strip).toBeLessThanOrEqual(limit + 1e-9);
          expect(strips.length).toBeLessThanOrEqual(Math.ceil((edge - lap) / (limit - lap)) + 1);
        },
      ),
      { seed: 2, seen },
    );
  });
});

const sheetSizes = fc.record({
  across: fc.integer({ min: 5, max: 100 }),
  along: fc.integer({ min: 5, max: 200 }),
});

describe('sheets on a roll', () => {
  const sheet = sheetSizes;

  it('lie within the roll and apart, and none is lost', () => {
    const seen = tally('placed', 'too wide', 'side by side');
    forAll(
      fc.property(fc.array(sheet, { maxLength: 15 }), (sheets) => {
        const pieces = sheets.map(({ across, along }, i) => ({
          id: `${i}`,
          acrossMm: across,
          alongMm: along,
        }));
        const use = packOnRoll(pieces, 90);
        expect(use.placed.length + use.tooWide.length).toBe(pieces.length);
        if (use.placed.length > 0) seen.saw('placed');
        if (use.tooWide.length > 0) seen.saw('too wide');
        for (const a of use.placed) {
          if (a.xMm > 0) seen.saw('side by side');
          expect(a.xMm + a.acrossMm).toBeLessThanOrEqual(90 + 1e-6);
          expect(a.yMm + a.alongMm).toBeLessThanOrEqual(use.lengthMm + 1e-6);
          for (const b of use.placed) {
            if (a === b) continue;
            const apart =
              a.xMm >= b.xMm + b.acrossMm - 1e-6 ||
              b.xMm >= a.xMm + a.acrossMm - 1e-6 ||
              a.yMm >= b.yMm + b.alongMm - 1e-6 ||
              b.yMm >= a.yMm + a.alongMm - 1e-6;
            expect(apart).toBe(true);
          }
        }
      }),
      { seed: 3, seen },
    );
  });

  it('stay within the known bound of the shelf rule on rolls small enough to search', () => {
    const seen = tally('as short as it can be', 'longer');
    forAll(
      fc.property(fc.array(sheet, { minLength: 1, maxLength: 5 }), (sheets) => {
        const pieces = sheets.map(({ across, along }, i) => ({
          id: `${i}`,
          acrossMm: Math.min(across, 90),
          alongMm: along,
        }));
        const least = bottomLeftLeast(pieces, 90);
        const tallest = Math.max(...pieces.map((piece) => piece.alongMm));
        const use = packOnRoll(pieces, 90);
        seen.saw(use.lengthMm > least + 1e-6 ? 'longer' : 'as short as it can be');
        expect(use.lengthMm).toBeLessThanOrEqual(1.7 * least + tallest + 1e-6);
        expect(use.lengthMm).toBeGreaterThanOrEqual(least - 1e-6);
      }),
      { seed: 4, seen, numRuns: 60 },
    );
  });
});

describe('sheets of many sizes', () => {
  it('come within a few parts in a hundred of the search, taken together', () => {
    const sets = fc.sample(fc.array(sheetSizes, { minLength: 3, maxLength: 5 }), {
      seed: 7,
      numRuns: 80,
    });
    let taken = 0;
    let least = 0;
    for (const sizes of sets) {
      const pieces = sizes.map(({ across, along }, i) => ({
        id: `${i}`,
        acrossMm: Math.min(across, 90),
        alongMm: along,
      }));
      taken += packOnRoll(pieces, 90).lengthMm;
      least += bottomLeftLeast(pieces, 90);
    }
    expect(taken / least).toBeLessThan(1.04);
  });
});

/** Shortest over all orders, each piece as low, then as far left, as it goes. */
function bottomLeftLeast(
  pieces: readonly { acrossMm: number; alongMm: number }[],
  roll: number,
): number {
  let best = Infinity;
  type Box = { x: number; y: number; w: number; h: number };
  const clash = (a: Box, b: Box): boolean =>
    a.x < b.x + b.w - 1e-9 &&
    b.x < a.x + a.w - 1e-9 &&
    a.y < b.y + b.h - 1e-9 &&
    b.y < a.y + a.h - 1e-9;
  const put = (rest: readonly (typeof pieces)[number][], placed: readonly Box[]): void => {
    const height = Math.max(0, ...placed.map((box) => box.y + box.h));
    if (height >= best) return;
    if (rest.length === 0) {
      best = height;
      return;
    }
    rest.forEach((piece, i) => {
      const xs = [0, ...placed.map((box) => box.x + box.w)];
      const ys = [0, ...placed.map((box) => box.y + box.h)];
      for (const y of ys) {
        for (const x of xs) {
          const box = { x, y, w: piece.acrossMm, h: piece.alongMm };
          if (x + box.w > roll + 1e-9 || placed.some((other) => clash(box, other))) continue;
          put([...rest.slice(0, i), ...rest.slice(i + 1)], [...placed, box]);
        }
      }
    });
  };
  put(pieces, []);
  return best;
}

describe('a sheet cut from the roll', () => {
  const carbon = { rollWidthMm: 1000, e1GPa: 50, e2GPa: 50 };
  const ud = { rollWidthMm: 1000, e1GPa: 110, e2GPa: 7 };
  const area = (pieces: readonly { acrossMm: number; alongMm: number }[]): number =>
    pieces.reduce((sum, piece) => sum + piece.acrossMm * piece.alongMm, 0);

  it('is one piece when it fits, else widths with the overlap between', () => {
    expect(cutSheet([1500, 900], 0, carbon, 25)).toEqual([{ acrossMm: 900, alongMm: 1500 }]);
    const two = cutSheet([3000, 1800], 0, ud, 25);
    expect(two.map((piece) => piece.acrossMm)).toEqual([1000, 825]);
    expect(two.every((piece) => piece.alongMm === 3000)).toBe(true);
  });

  it('turns a balanced cloth, but never a unidirectional one', () => {
    expect(cutSheet([900, 1500], 0, carbon, 25)).toHaveLength(1);
    expect(cutSheet([900, 1500], 0, ud, 25)).toHaveLength(2);
  });

  it('covers the sheet at any angle', () => {
    const seen = tally('one piece', 'several pieces');
    forAll(
      fc.property(
        fc.integer({ min: 200, max: 3000 }),
        fc.integer({ min: 200, max: 3000 }),
        fc.integer({ min: -90, max: 90 }),
        (length, girth, angle) => {
          const pieces = cutSheet([length, girth], angle, ud, 25);
          seen.saw(pieces.length > 1 ? 'several pieces' : 'one piece');
          expect(area(pieces)).toBeGreaterThanOrEqual(length * girth - 1e-3);
          for (const piece of pieces) expect(piece.acrossMm).toBeLessThanOrEqual(1000 + 1e-6);
        },
      ),
      { seed: 5, seen },
    );
  });
});
