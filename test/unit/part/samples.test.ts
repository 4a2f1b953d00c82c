/**
 * The shipped library holds together, and the sample builds show what they are meant to. Sizes of the
 * 6 kg shell: common practice, no source (a little over 100 hours in the shop, about 2,000 US dollars of
 * material with the mould's blank but without its machining, weighed before paint).
 */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { readBuild } from '../../../app/document/read.ts';
import type { PlanResult, SheetRow } from '../../../app/document/schema.ts';
import { FIRST_ANSWER } from '../../../app/plan/outcome.ts';
import { plan } from '../../../app/answer/plan.ts';
import { localToMinute } from '../../../app/time/zone.ts';
import { library } from './fixtures.ts';

function sample(name: string) {
  const url = new URL(`../../../samples/${name}.build.json`, import.meta.url);
  const read = readBuild(readFileSync(url, 'utf8'), library);
  if (!read.ok) throw new Error(JSON.stringify(read.faults));
  return read;
}

function planned(name: string, scale = 1): PlanResult {
  const { document, build } = sample(name);
  const now = localToMinute('2027-04-19T08:00', build.zone)!.minute;
  const zones = document.part.zones.map((zone) => ({
    ...zone,
    areaM2: zone.areaM2 * scale,
    edgeM: (zone.edgeM ?? 0) * Math.sqrt(scale),
    local: (zone.local ?? []).map((ply) =>
      ply.areaM2 === undefined ? ply : { ...ply, areaM2: ply.areaM2 * scale },
    ),
  }));
  const changed = { ...document, part: { ...document.part, zones } };
  return plan(changed, library, now, FIRST_ANSWER).result;
}

describe('the shipped library', () => {
  const hardeners = library.resins.flatMap((resin) =>
    resin.hardeners.map((hardener) => ({ resin, hardener })),
  );
  const minutes = (sheet: readonly SheetRow[], what: SheetRow['what'], temperatureC = 20) =>
    sheet.find((row) => row.what === what && row.temperatureC === temperatureC)!.minutes;

  it.each(hardeners.map(({ resin, hardener }) => [resin.id, hardener.id, hardener.sheet] as const))(
    '%s %s: milestones follow one another, and warmth hastens gel about twofold in 10 K',
    (_resin, _hardener, sheet) => {
      const steps = [
        'film-open',
        'film-gel',
        'tack-free',
        'debag',
        'demould',
        'sand',
        'full',
      ] as const;
      const times = steps.map((what) => minutes(sheet, what));
      expect(times).toEqual(times.toSorted((a, b) => a - b));
      expect(new Set(times).size).toBe(times.length);
      const ratio = minutes(sheet, 'film-gel') / minutes(sheet, 'film-gel', 30);
      expect(ratio).toBeGreaterThan(1.8);
      expect(ratio).toBeLessThan(2.3);
    },
  );

  it('has slower hardeners slower, and rows for each of its promises', () => {
    for (const { hardeners: three } of library.resins) {
      const gels = three.map((hardener) => minutes(hardener.sheet, 'film-gel'));
      expect(three.map((hardener) => hardener.id)).toEqual(['fast', 'medium', 'slow']);
      expect(gels).toEqual(gels.toSorted((a, b) => a - b));
    }
    expect(library.moulds.map((row) => row.id)).toContain('board-medium');
    expect(library.releases.map((row) => row.id)).toContain('wax-paste');
  });

  it('lets a core drink the more, the more it is cut', () => {
    for (const { uptakeGM2 } of library.cores) {
      const { plain, drilled, scored, grooved } = uptakeGM2;
      const cuts = [plain, drilled, scored, grooved];
      expect(cuts).toEqual(cuts.toSorted((a, b) => a - b));
    }
  });

  it('numbers the finishing rounds of each finish without gaps', () => {
    for (const finish of ['painted', 'clear', 'hidden'] as const) {
      for (const stage of ['fair', 'prime'] as const) {
        const steps = library.finishing
          .filter((row) => row.stage === stage && row.finishes.includes(finish))
          .map((row) => row.step);
        expect(steps.toSorted()).toEqual(steps.map((_, i) => i + 1));
      }
    }
  });

  it('says of every row where it comes from, and names no source for what is invented', () => {
    for (const rows of Object.values(library)) {
      for (const row of rows as { provenance: { kind: string; source: string } }[]) {
        expect(row.provenance.source).not.toBe('');
        expect(['demo', 'common-practice', 'published', 'assumed']).toContain(row.provenance.kind);
      }
    }
  });
});

describe('sample builds', () => {
  it('a roomy one fits with every layup apart but the local plies laid with their skin, and days of float', () => {
    const result = planned('low-water-canopy');
    expect(result.fits).toBe(true);
    expect(result.route.id).toBe('skin+local/core/inner/closeout');
    // The painter's slot is booked and has no float of its own.
    const slack = result.stages
      .filter((stage) => stage.kind !== 'outside')
      .map((stage) => stage.floatHours ?? Infinity);
    expect(Math.min(...slack)).toBeGreaterThan(4);
    expect(result.stages[0]!.floatHours).toBeGreaterThan(5 * 24);
  });

  it('a clear one fits, and its skin is cured on its own', () => {
    const result = planned('wren-sound-shell');
    expect(result.fits).toBe(true);
    expect(result.route.cures[0]!.layups).toEqual(['skin']);
  });

  it('a rushed one must merge cures, and says so', () => {
    const result = planned('harbour-gate-sign');
    expect(result.findings.map((finding) => finding.code)).toContain('merge-forced');
    expect(result.route.cures.some((cure) => cure.layups.length > 1)).toBe(true);
  });

  it('a shell of 6 kg takes the hours and the money that the trade would say, within a quarter', () => {
    const { totals } = planned('shell-6kg');
    const within = (value: number, usual: number): void => {
      expect(value).toBeGreaterThan(usual * 0.75);
      expect(value).toBeLessThan(usual * 1.25);
    };
    within(totals.massKg, 6);
    within(totals.labourHours, 105);
    within(totals.materialCost / 100, 2000);
  });

  it('scales as the trade would expect: mass with area, hours and money more slowly', () => {
    const [half, one, twice] = [
      planned('shell-6kg', 0.5),
      planned('shell-6kg'),
      planned('shell-6kg', 2),
    ];
    const ratios = (pick: (result: PlanResult) => number): number[] => [
      pick(one) / pick(half),
      pick(twice) / pick(one),
    ];
    for (const ratio of ratios((r) => r.totals.massKg)) {
      expect(ratio).toBeGreaterThan(1.8);
      expect(ratio).toBeLessThan(2.02);
    }
    for (const ratio of ratios((r) => r.totals.labourHours)) {
      expect(ratio).toBeGreaterThan(1.25);
      expect(ratio).toBeLessThan(1.8);
    }
    for (const ratio of ratios((r) => r.totals.materialCost)) {
      expect(ratio).toBeGreaterThan(1.5);
      expect(ratio).toBeLessThan(2.05);
    }
  });
});
