import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { STAGE_KINDS, type Build } from '../../app/document/schema.ts';
import { cutList } from '../../app/part/cuts.ts';
import { weightStatement, zoneDetails } from '../../app/part/detail.ts';
import { partChecks } from '../../app/part/checks.ts';
import { measurePart } from '../../app/part/measure.ts';
import { panelCheck } from '../../app/part/panel.ts';
import { laminateStiffness, turnedStiffness } from '../../app/part/stiffness.ts';
import type { PartResult } from '../../app/part/types.ts';
import { build, library } from '../unit/part/fixtures.ts';
import { forAll, tally } from '../support/draws.ts';

type Zone = Build['part']['zones'][number];

const cloth = fc.constantFrom(...library.cloths.map((row) => row.id));
const angle = fc.integer({ min: -90, max: 90 });
const ply = fc.record({ cloth, angleDeg: angle });
const area = fc.double({ min: 0.01, max: 20, noNaN: true });
const zones = fc.array(
  fc.record<Zone>(
    {
      areaM2: area,
      edgeM: fc.double({ min: 0, max: 30, noNaN: true }),
      shape: fc.constantFrom('flat', 'single', 'double'),
      vertical: fc.boolean(),
      outer: fc.array(ply, { maxLength: 3 }),
      core: fc.option(
        fc.record({
          material: fc.constantFrom(...library.cores.map((row) => row.id)),
          thicknessMm: fc.double({ min: 1, max: 40, noNaN: true }),
          treatment: fc.constantFrom('plain', 'drilled', 'scored', 'grooved'),
        }),
      ),
      inner: fc.array(ply, { maxLength: 3 }),
      local: fc.array(
        fc.record(
          {
            cloth,
            angleDeg: angle,
            place: fc.constantFrom('outer', 'between', 'inner', 'after'),
            areaM2: area,
          },
          { requiredKeys: ['cloth', 'angleDeg', 'place'] },
        ),
        { maxLength: 3 },
      ),
      closeout: fc.option(
        fc.record({
          widthMm: fc.integer({ min: 20, max: 120 }),
          plies: fc.array(ply, { maxLength: 3 }),
        }),
      ),
    },
    { requiredKeys: ['areaM2', 'outer', 'inner'] },
  ),
  { maxLength: 4 },
);
const settings = fc.record({
  finish: fc.constantFrom('painted', 'clear', 'hidden'),
  targetIncludes: fc.constantFrom('shell', 'faired', 'painted'),
  familiarity: fc.constantFrom('first', 'some', 'usual'),
} as const);

/** Every number in a value, with where it stands. */
function numbersIn(value: unknown, path = ''): [string, number][] {
  if (typeof value === 'number') return [[path, value]];
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, item]) => numbersIn(item, `${path}.${key}`));
}

const measured = (list: readonly Zone[], part: Partial<Build['part']> = {}): PartResult =>
  measurePart(build(list, { part: { zones: [], ...part } }), library);

describe('any part', () => {
  it('has finite quantities, none below zero, and masses that add up', () => {
    const seen = tally('nothing to build', 'one zone', 'several zones', 'closeout', 'local ply');
    forAll(
      fc.property(zones, settings, (list, part) => {
        seen.saw(
          list.length > 1 ? 'several zones' : list.length > 0 ? 'one zone' : 'nothing to build',
        );
        if (list.some((zone) => zone.closeout)) seen.saw('closeout');
        if (list.some((zone) => zone.local?.length)) seen.saw('local ply');
        const full = build(list, { part: { zones: [], ...part } });
        const result = measurePart(full, library);
        const all = {
          layups: result.layups,
          masses: result.massKg,
          kit: result.kitFor(3, 10),
          zones: result.zones.map(({ zone: _, ...rest }) => rest),
          works: STAGE_KINDS.map((kind) => result.workFor(kind).personMinutes),
          details: zoneDetails(full, library),
          cuts: cutList(full, library).map(({ pieces }) => pieces),
          counted: result.countedMassKg,
        };
        for (const [path, number] of numbersIn(all)) {
          if (path.endsWith('angleDeg')) continue;
          expect(number, path).toBeGreaterThanOrEqual(0);
          expect(Number.isFinite(number), path).toBe(true);
        }
        const { shell, faired, painted } = weightStatement(full, result, library);
        const counted = { shell, faired, painted }[part.targetIncludes];
        expect(result.countedMassKg).toBeCloseTo(counted.usualKg, 9);
        expect(painted.usualKg).toBeGreaterThanOrEqual(shell.usualKg);
        partChecks(full, library);
      }),
      { seed: 1, seen, numRuns: 150 },
    );
  });

  it('weighs more, and asks for more resin and cloth, with any ply more', () => {
    const seen = tally('zones');
    forAll(
      fc.property(zones, ply, (list, more) => {
        if (list.length === 0) return;
        seen.saw('zones');
        const heavier = list.map((zone, i) =>
          i === 0 ? { ...zone, outer: [...zone.outer, more] } : zone,
        );
        const [before, after] = [measured(list), measured(heavier)];
        expect(after.countedMassKg).toBeGreaterThan(before.countedMassKg);
        const resin = (result: PartResult): number =>
          result.layups.reduce((sum, layup) => sum + layup.mixedG, 0);
        expect(resin(after)).toBeGreaterThan(resin(before));
        expect(after.workFor('cutting').personMinutes).toBeGreaterThan(
          before.workFor('cutting').personMinutes,
        );
      }),
      { seed: 2, seen, least: 40, numRuns: 80 },
    );
  });

  it('of twice the area and edge has twice the mass', () => {
    const seen = tally('zones');
    forAll(
      fc.property(zones, (list) => {
        const sized = list.map((zone) => ({ ...zone, edgeM: zone.edgeM ?? 1 }));
        const doubled = sized.map((zone) => ({
          ...zone,
          areaM2: zone.areaM2 * 2,
          edgeM: zone.edgeM * 2,
          local: (zone.local ?? []).map((p) =>
            p.areaM2 === undefined ? p : { ...p, areaM2: p.areaM2 * 2 },
          ),
        }));
        if (list.length > 0) seen.saw('zones');
        const [one, two] = [measured(sized), measured(doubled)];
        expect(two.countedMassKg).toBeCloseTo(2 * one.countedMassKg, 6);
      }),
      { seed: 3, seen, least: 40, numRuns: 80 },
    );
  });

  it('gives the same whatever the order of its zones', () => {
    const seen = tally('several zones');
    forAll(
      fc.property(zones, (list) => {
        const named = list.map((zone, i) => ({ ...zone, id: `z${i}` }));
        if (list.length > 1) seen.saw('several zones');
        const [one, two] = [measured(named), measured(named.toReversed())];
        expect(two.countedMassKg).toBeCloseTo(one.countedMassKg, 9);
        expect(two.layups.map((layup) => layup.id)).toEqual(one.layups.map((layup) => layup.id));
        two.layups.forEach((layup, i) =>
          expect(layup.personMinutes).toBeCloseTo(one.layups[i]!.personMinutes, 6),
        );
      }),
      { seed: 4, seen, least: 20, numRuns: 60 },
    );
  });
});

describe('stiffness of a laminate', () => {
  const lamina = fc.record({
    thicknessMm: fc.double({ min: 0.05, max: 5, noNaN: true }),
    angleDeg: fc.double({ min: -90, max: 90, noNaN: true }),
    e1MPa: fc.double({ min: 10_000, max: 200_000, noNaN: true }),
    e2MPa: fc.double({ min: 3000, max: 10_000, noNaN: true }),
    g12MPa: fc.double({ min: 1000, max: 6000, noNaN: true }),
    nu12: fc.double({ min: 0, max: 0.35, noNaN: true }),
  });

  it('does not change by half a turn, and its traces not by any turn', () => {
    const seen = tally('turned', 'as it lay');
    forAll(
      fc.property(lamina, fc.double({ min: -180, max: 180, noNaN: true }), (one, turn) => {
        const q = turnedStiffness(one);
        const half = turnedStiffness({ ...one, angleDeg: one.angleDeg + 180 });
        seen.saw(Math.abs(turn) > 1 ? 'turned' : 'as it lay');
        const other = turnedStiffness({ ...one, angleDeg: one.angleDeg + turn });
        expect(half.xx / q.xx).toBeCloseTo(1, 9);
        // Invariants of a fourth-order tensor in the plane (Tsai & Pagano 1968, from memory).
        const first = (p: typeof q): number => p.xx + p.yy + 2 * p.xy;
        const second = (p: typeof q): number => p.ss - p.xy;
        expect(first(other) / first(q)).toBeCloseTo(1, 9);
        expect((second(other) - second(q)) / first(q)).toBeCloseTo(0, 9);
      }),
      { seed: 5, seen },
    );
  });

  it('couples no bending with stretching when the stack is symmetric', () => {
    const seen = tally('one ply each side', 'several plies');
    forAll(
      fc.property(fc.array(lamina, { minLength: 1, maxLength: 5 }), (half) => {
        seen.saw(half.length > 1 ? 'several plies' : 'one ply each side');
        const { a, b, d, reducedD, thicknessMm } = laminateStiffness([
          ...half,
          ...half.toReversed(),
        ]);
        for (const entry of Object.values(b)) {
          expect(Math.abs(entry) / (a.xx * thicknessMm)).toBeLessThan(1e-9);
        }
        expect(reducedD.xx / d.xx).toBeCloseTo(1, 9);
      }),
      { seed: 6, seen },
    );
  });

  it('of a thicker core is never softer under a hand', () => {
    forAll(
      fc.property(
        fc.double({ min: 4, max: 20, noNaN: true }),
        fc.double({ min: 1.1, max: 3, noNaN: true }),
        (thicknessMm, factor) => {
          const hand = (t: number): number => {
            const full = build([
              {
                areaM2: 0.05,
                shape: 'flat',
                outer: [{ cloth: 'carbon-twill-200' }],
                core: { material: 'pvc-80', thicknessMm: t },
                inner: [{ cloth: 'carbon-twill-200' }],
              },
            ]);
            return panelCheck(full.part.zones[0]!, full, library)!.hand!.totalMm;
          };
          expect(hand(thicknessMm * factor)).toBeLessThan(hand(thicknessMm));
        },
      ),
      { seed: 7, numRuns: 25 },
    );
  });
});
