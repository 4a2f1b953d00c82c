/** Air, surface and initiator: what the bench looks at beside the clock. */
import { describe, expect, it } from 'vitest';
import { dewPointC, humidityAtPct, surfaceAir } from '../../../app/cure/air.ts';
import { cureClock } from '../../../app/cure/clock.ts';
import { fitSheet } from '../../../app/cure/fit.ts';
import { doseForGel, gelAtDose, initiatorRange } from '../../../app/cure/initiator.ts';
import { surfaceState, type SurfaceCase } from '../../../app/cure/surface.ts';
import { library, practice, shippedHardeners } from './practice-rows.ts';

describe('dew and blush', () => {
  /** Printed in psychrometric tables: 9.3, 16.7 and 13.9 C; from memory. */
  it.each([
    [20, 50, 9.3],
    [25, 60, 16.7],
    [25, 50, 13.9],
    [12, 100, 12],
  ])('air of %d C at %d %% dews at %d C', (airC, humidityPct, dewC) => {
    expect(Math.abs(dewPointC(airC, humidityPct) - dewC)).toBeLessThan(0.1);
  });

  it('the same air is as humid as can be at its dew point, and has none when dry', () => {
    expect(humidityAtPct(20, 50, dewPointC(20, 50))).toBeCloseTo(100, 6);
    expect(humidityAtPct(20, 50, 2)).toBe(100);
    expect(dewPointC(20, 0)).toBe(-Infinity);
  });

  it.each([
    [20, 55, 20, false, []],
    [20, 55, 13, true, ['cold', 'humid']],
    [22, 80, 21, true, ['humid']],
    [20, 40, 14, false, ['cold']],
  ])('air of %d C at %d %% over a surface of %d C', (airC, humidityPct, surfaceC, near, blush) => {
    const found = surfaceAir({ temperatureC: airC, humidityPct }, surfaceC, practice);
    expect(found.nearDew).toBe(near);
    expect(found.blush).toEqual(blush);
  });
});

describe('a surface and its wait', () => {
  const [, hardener] = shippedHardeners[1]!;
  const model = fitSheet(hardener, practice);
  const clock = cureClock(model, [{ start: 0, end: 100_000, temperatureC: 20 }]);
  const surface = (more: Partial<SurfaceCase>): SurfaceCase => ({
    cover: 'peel-ply-on',
    releaseCoated: false,
    structural: false,
    curedFrom: 0,
    strippedAt: null,
    bondAt: 2000,
    ...more,
  });
  const state = (more: Partial<SurfaceCase>) => surfaceState(surface(more), clock, practice);

  it('peel ply left on keeps for weeks', () => {
    expect(state({})).toEqual({ need: 'strip', keepsUntil: 21 * 1440, lapsed: false });
    expect(state({ structural: true }).need).toBe('strip-and-scuff');
    expect(state({ bondAt: 22 * 1440 })).toMatchObject({ need: 'strip-and-scuff', lapsed: true });
  });

  it('stripped, it keeps two hours, then it is washed and abraded', () => {
    const stripped = { cover: 'peel-ply-stripped' as const, strippedAt: 1900 };
    expect(state(stripped)).toEqual({ need: 'none', keepsUntil: 2020, lapsed: false });
    expect(state({ ...stripped, structural: true }).need).toBe('scuff');
    expect(state({ ...stripped, bondAt: 2021 })).toMatchObject({
      need: 'wash-and-abrade',
      lapsed: true,
    });
  });

  it('a release-coated peel ply is always abraded after', () => {
    expect(state({ releaseCoated: true }).need).toBe('wash-and-abrade');
  });

  it('bare, it bonds as one resin until the window ends', () => {
    const until = clock.reached(0, 'bondUntil')!;
    expect(state({ cover: 'bare', bondAt: until })).toEqual({
      need: 'none',
      keepsUntil: until,
      lapsed: false,
    });
    expect(state({ cover: 'bare', bondAt: until + 1 }).need).toBe('wash-and-abrade');
  });
});

describe('the dose of initiator', () => {
  const { resins } = library;
  const polyester = resins.find((resin) => resin.chemistry === 'polyester')!;
  const range = initiatorRange(polyester, 20, practice)!;

  it('is no lever for an epoxy', () => {
    const epoxy = resins.find((resin) => resin.chemistry === 'epoxy')!;
    expect(initiatorRange(epoxy, 20, practice)).toBeNull();
  });

  it('shortens the gel inside the range of the sheets and never leaves it', () => {
    expect(range.leastPartsPer100).toBe(1);
    expect(range.mostPartsPer100).toBe(2);
    const gels = [1, 1.2, 1.5, 1.8, 2].map((dose) => gelAtDose(range, dose)!);
    gels.slice(1).forEach((gel, i) => expect(gel).toBeLessThan(gels[i]!));
    expect(gelAtDose(range, 0.9)).toBeNull();
    expect(gelAtDose(range, 2.1)).toBeNull();
    expect(doseForGel(range, range.shortestGelMinutes * 0.9)).toBeNull();
    expect(doseForGel(range, range.longestGelMinutes * 1.1)).toBeNull();
  });

  it('is read both ways', () => {
    for (const dose of [1, 1.3, 1.5, 1.75, 2]) {
      expect(doseForGel(range, gelAtDose(range, dose)!)).toBeCloseTo(dose, 9);
    }
  });

  it('works faster in the warm', () => {
    const warm = initiatorRange(polyester, 28, practice)!;
    expect(warm.longestGelMinutes).toBeLessThan(range.longestGelMinutes);
  });
});
