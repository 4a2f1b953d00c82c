import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { buildSchema } from '../../../app/document/schema.ts';
import { measuredProfile, temperatureAt } from '../../../app/cure/profile.ts';
import type { LogResult } from '../../../app/cure/logger.ts';
import { heatIndex, setCureHardener, setHeat } from '../../../app/document/edit/heat.ts';
import { dropMeasured, resampleLog, setMeasuredRoom } from '../../../app/cure/log-room.ts';
import type { Draft } from '../../../app/document/edit/path.ts';
import { forAll } from '../../support/draws.ts';

const document: Draft = {
  name: 'Gull',
  zone: 'Europe/Lisbon',
  unveiling: '2027-07-02',
  part: { zones: [] },
  resin: { system: 'orrin-40', hardener: 'medium' },
  crew: [],
};
const reads = (draft: Draft) => buildSchema.parse(draft);
const steps = [{ temperatureC: 40, rampKPerHour: 10, holdHours: 8 }];
const merged = { name: 'Core + inner skin', layups: ['core', 'inner'] };

describe('heat under a bag', () => {
  it('is one programme for the bag, however its layups were heated before, and can be taken off', () => {
    const before: Draft = {
      ...document,
      heat: [
        { layup: 'inner', steps },
        { layup: 'skin', steps },
      ],
    };
    const on = setHeat(before, merged, [{ ...steps[0]!, temperatureC: 45 }]);
    expect(on.label).toContain('45 °C (113 °F) at 10 °C/h, 8 h');
    expect(reads(on.document).heat.map(({ layup }) => layup)).toEqual(['skin', 'core']);
    expect(heatIndex(on.document, ['inner', 'core'])).toBe(1);
    const off = setHeat(on.document, merged, null);
    expect(reads(off.document).heat.map(({ layup }) => layup)).toEqual(['skin']);
    expect(setHeat(off.document, { name: 'x', layups: ['skin'] }, null).document.heat).toBe(
      undefined,
    );
  });
});

describe('the hardener of one cure', () => {
  it('is named once for its bag and leaves other cures alone', () => {
    const before = { ...document, resin: { ...document.resin!, hardenerFor: { inner: 'slow' } } };
    const fast = setCureHardener(before, merged, { id: 'fast', name: 'Fast' });
    expect(reads(fast.document).resin.hardenerFor).toEqual({ core: 'fast' });
    const own = setCureHardener(fast.document, merged, null);
    expect(own.document.resin).toEqual(document.resin);
  });
});

const logOf = (profile: LogResult['profile'], readings = 50): LogResult => ({
  profile,
  issues: [],
  lines: readings,
  readings,
  columns: ['t'],
  coldestC: 1,
  hottestC: 30,
  gaps: [],
});
const logs = fc
  .tuple(
    fc.integer({ min: 30_000_000, max: 30_010_000 }),
    fc.array(fc.integer({ min: 5, max: 35 }), { minLength: 20, maxLength: 200 }),
  )
  .map(([start, list]) =>
    list.map((temperatureC, i) => ({
      start: start + i * 10,
      end: start + (i + 1) * 10,
      temperatureC,
    })),
  );

describe('a log kept for the room', () => {
  it('is folded to means: degree minutes are kept to what rounding and cut ends take', () => {
    forAll(
      fc.property(logs, (profile) => {
        const { from, stepMinutes, temperaturesC } = resampleLog(profile)!;
        expect(stepMinutes).toBe(60);
        const kept = measuredProfile({
          name: 'x',
          place: 'air',
          from,
          stepMinutes,
          temperaturesC,
        });
        // Every whole hour inside is the mean of its six readings.
        for (let hour = Math.ceil(profile[0]!.start / 60) * 60; ; hour += 60) {
          const inside = profile.filter((p) => p.start < hour + 60 && p.end > hour);
          if (profile.at(-1)!.end < hour + 60) break;
          const sum = inside.reduce(
            (all, p) =>
              all + p.temperatureC * (Math.min(p.end, hour + 60) - Math.max(p.start, hour)),
            0,
          );
          expect(Math.abs(temperatureAt(kept, hour)! - sum / 60)).toBeLessThanOrEqual(0.05 + 1e-9);
        }
        // No step stands on less than half an hour of readings.
        expect(Math.abs(kept[0]!.start - profile[0]!.start)).toBeLessThanOrEqual(30);
        expect(Math.abs(kept.at(-1)!.end - profile.at(-1)!.end)).toBeLessThanOrEqual(30);
      }),
      { seed: 1, numRuns: 60 },
    );
  });

  it('of many months is kept in longer steps, never in too many', () => {
    const start = 30_000_000;
    const year = [{ start, end: start + 400 * 1440, temperatureC: 17 }];
    const folded = resampleLog(year)!;
    expect(folded.temperaturesC.length).toBeLessThanOrEqual(3001);
    expect(folded.stepMinutes).toBeGreaterThan(60);
  });

  it('says its readings and means, is a document that is read, and can be taken off', () => {
    const start = 30_000_000;
    const profile = [{ start, end: start + 600, temperatureC: 18.26 }];
    const { document: taken } = setMeasuredRoom(document, logOf(profile), 'shelf.csv', 'part')!;
    expect(reads(taken).room.measured).toMatchObject({
      name: 'shelf.csv: 50 readings in 10 means of 60 min',
      place: 'part',
      temperaturesC: Array.from({ length: 10 }, () => 18.3),
    });
    const long = setMeasuredRoom(document, logOf(profile), `${'n'.repeat(300)}.csv`, 'air')!;
    expect(reads(long.document).room.measured!.name).toMatch(/^n+: 50 readings/);
    expect(dropMeasured(taken).document.room).not.toHaveProperty('measured');
  });
});
