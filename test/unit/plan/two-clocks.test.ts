/** Earliest and latest gel through the whole plan: what each bounds, and what is told of them. */
import { describe, expect, it } from 'vitest';
import type { Build } from '../../../app/document/schema.ts';
import { goSheets } from '../../../app/shop/goSheet.ts';
import { sheetDataOf } from '../../../app/shop/sheetData.ts';
import { isoToMinute } from '../../../app/time/zone.ts';
import { LIBRARY, planFor, ROOMY, withRow } from '../judge/builds.ts';

const APART: Build = {
  ...ROOMY,
  route: { joints: { 'skin-core': 'apart', 'core-inner': 'apart' } },
};
/** Nights below the hardener's minimum of 18 C, and a film that takes over eight hours to gel. */
const COLD: Build = {
  ...APART,
  resin: { ...APART.resin, hardener: 'slow' },
  room: { temperatureC: { day: 18, night: 13 } },
};
const at = (iso: string | null): number => isoToMinute(iso!)!;
const resin = LIBRARY.resins.find(({ id }) => id === APART.resin.system)!;

/** The library with a hardener whose sheet has one row, a pot life at 23 C. */
const oneRow = withRow(LIBRARY, 'resins', resin.id, {
  hardeners: resin.hardeners.map((hardener) => ({
    ...hardener,
    sheet: [{ what: 'pot-life' as const, temperatureC: 23, minutes: 36, massG: 150 }],
  })),
});

describe('a room that is too cold at night', () => {
  const { result } = planFor(COLD, 'first');
  const cures = result.cures.filter(({ gel, gelLatest }) => gel !== null && gelLatest !== null);

  it('gels early all the same, and is waited for until the cold has passed', () => {
    expect(cures.length).toBeGreaterThan(0);
    for (const cure of cures) {
      expect(at(cure.bagBy)).toBeLessThan(at(cure.gel));
      expect(at(cure.gel)).toBeLessThanOrEqual(at(cure.gelLatest));
      expect(at(cure.gelLatest)).toBeLessThan(at(cure.debagFrom));
    }
    // A film that would gel in the night by its curve is not told for the next morning alone.
    const apart = cures.filter(({ gel, gelLatest }) => at(gelLatest) - at(gel) > 4 * 60);
    expect(apart.length).toBeGreaterThan(0);
  });

  it('stands no lower in the end than when it leaves the mould', () => {
    for (const cure of cures) {
      expect(cure.tgAtDemouldC!).toBeLessThanOrEqual(cure.tgC!);
    }
  });

  it('somebody looks at the bag between its earliest and its latest gel', () => {
    let looks = 0;
    for (const cure of cures) {
      const look = result.stages.find(
        ({ id, cure: own }) => own === cure.id && id.startsWith('gel-look'),
      );
      if (!look?.start) continue;
      looks++;
      expect(at(look.start)).toBeGreaterThanOrEqual(at(cure.gel));
      expect(at(look.start)).toBeLessThanOrEqual(at(cure.gelLatest));
    }
    const unseen = result.findings.filter(({ code }) => code === 'gel-unattended');
    expect(looks + unseen.length).toBeGreaterThan(0);
  });

  it('says so: the time does not count as cure, the gel may come all the same', () => {
    const cold = result.findings.find(({ code }) => code === 'cold-room')!;
    expect(cold.message).toContain('not counted as cure');
    expect(cold.message).toContain('The resin may still gel');
  });
});

describe('a sheet with one row', () => {
  const outcome = planFor(APART, 'first', undefined, oneRow);
  const cures = outcome.result.cures.filter(({ firstMix }) => firstMix !== null);

  it('has an earliest and a latest gel that two rows would bring together', () => {
    const spread = (list: typeof cures) =>
      Math.max(...list.map((cure) => at(cure.gelLatest) - at(cure.gel)));
    const two = planFor(APART, 'first').result.cures.filter(({ firstMix }) => firstMix !== null);
    const cold = outcome.result.cures[0]!.temperatureC!;
    expect(cold.min).toBeLessThan(23);
    expect(spread(cures)).toBeGreaterThan(spread(two) + 20);
  });

  it('gives both on the go sheet', () => {
    const cure = cures[0]!;
    const text = JSON.stringify(goSheets(sheetDataOf(outcome)));
    expect(text).toContain(cure.gelLatest!.slice(11, 16));
    expect(text).toContain(cure.gel!.slice(11, 16));
  });
});
