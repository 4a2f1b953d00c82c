/** A lone worker in a cold shop with more wet work than open time: dates, and a sentence with an hour and a price. */
import { describe, expect, it } from 'vitest';
import type { Build } from '../../../app/document/schema.ts';
import { plan } from '../../../app/answer/plan.ts';
import { applyLever } from '../../../app/judge/levers.ts';
import { LOOKUPS } from '../../../app/plan/lookups.ts';
import { FIRST_ANSWER, FULL_ANSWER } from '../../../app/plan/outcome.ts';
import { isoToMinute } from '../../../app/time/zone.ts';
import { LIBRARY, NOW, planFor, ROOMY, withZone } from '../judge/builds.ts';

const alone = (hardener: string, areaM2: number): Build =>
  withZone(
    {
      ...ROOMY,
      crew: ROOMY.crew.slice(0, 1),
      resin: { system: 'orrin-40', hardener },
      room: { temperatureC: { day: 12, night: 8 }, humidityPct: 60 },
      route: { joints: {} },
    },
    { areaM2 },
  );

const told = (document: Build) => {
  const { result } = planFor(document);
  const messages = (code: string) =>
    result.findings.filter((one) => one.code === code).map(({ message }) => message);
  return { result, messages };
};

describe('a lone worker in a cold shop', () => {
  it('is given dates for every stage, though no day holds the wet work', () => {
    const { result } = told(alone('fast', 6));
    expect(result.fits).toBe(false);
    expect(result.stages.filter(({ start }) => start === null)).toEqual([]);
  });

  it('is told what would hold it, for how long and for how much', () => {
    const { messages } = told(alone('fast', 6));
    expect(messages('open-time-short')[0]).toMatch(
      /With 3 more pairs of hands from first mix on it is down in 1\.5 h: about €185 in wages\.$/,
    );
    expect(messages('wet-past-hours')[0]).toMatch(
      /from Wednesday 5 May, 08:00 to Wednesday 5 May, 13:06: do not start it with these hours\.$/,
    );
  });

  it.each(['slow', 'medium'])(
    'has dates with a %s hardener that never cures there, and is told on what they hang',
    (hardener) => {
      const { result, messages } = told(alone(hardener, 0.4));
      expect(result.fits).toBe(false);
      expect(result.stages.length).toBeGreaterThan(40);
      expect(result.stages.filter(({ start }) => start === null)).toEqual([]);
      const heldC = hardener === 'slow' ? 18 : 15;
      expect(messages('cure-stalls')[0]).toBe(
        `Outer skin never ends at the temperature of the room. Its dates hold only if part and mould are kept at ${heldC} °C or more from the first mix on: do not start it colder.`,
      );
      const first = plan(alone(hardener, 0.4), LIBRARY, NOW, FIRST_ANSWER).result;
      expect(first.stages.filter(({ start }) => start === null)).toEqual([]);
    },
  );

  it.each([
    // The mean of what day (12 °C) and night (8 °C) lack, at 0.90 a kelvin and day.
    ['slow', 18, 8],
    ['medium', 15, 5],
  ])(
    'is offered that temperature for a %s hardener, with the price of the heat until the part is done',
    (hardener, heldC, warmerK) => {
      const document = alone(hardener, 0.4);
      const { result } = plan(document, LIBRARY, NOW, FULL_ANSWER);
      const stalled = result.findings.filter(({ code }) => code === 'cure-stalls');
      expect(stalled.length).toBeGreaterThan(0);
      const end = Math.max(...result.stages.map((stage) => isoToMinute(stage.end!)!));
      const heatMinor = Math.round(((end - NOW) / (24 * 60)) * warmerK * 90);
      for (const { levers } of stalled) {
        expect(levers.find(({ id }) => id === `held-room:${heldC}`)).toMatchObject({
          id: `held-room:${heldC}`,
          label: `Hold the room at ${heldC} °C or more, day and night`,
          cost: heatMinor,
          clears: ['cure-stalls', 'cold-room'],
          before: { fits: false },
          after: { fits: true, stops: 0 },
        });
      }
      const held = applyLever(document, `held-room:${heldC}`, LIBRARY, LOOKUPS)!;
      expect(held.room!.temperatureC).toEqual({ day: heldC, night: heldC });
      const after = plan(held, LIBRARY, NOW, FULL_ANSWER).result;
      expect(after.fits).toBe(true);
      expect(after.findings.filter(({ severity }) => severity === 'stop')).toEqual([]);
      expect(after.findings.map(({ code }) => code)).not.toContain('cure-stalls');
      expect(applyLever(held, `held-room:${heldC}`, LIBRARY, LOOKUPS)).toBeNull();
      expect(applyLever(document, 'held-room:29', LIBRARY, LOOKUPS)).toBeNull();
    },
  );

  it('is offered the faster hardener that needs no heat, though a cure stays short of full with it', () => {
    const { result } = plan(alone('slow', 0.4), LIBRARY, NOW, FULL_ANSWER);
    const [stalled] = result.findings.filter(({ code }) => code === 'cure-stalls');
    const fast = stalled!.levers.find(({ id }) => id === 'hardener-fast')!;
    expect(fast.clears).toContain('cure-stalls');
    expect(fast.sideEffects).toContain(
      'Less serious, but not gone: a cure never reaches what it must at this temperature.',
    );
    const changed = applyLever(alone('slow', 0.4), fast.id, LIBRARY, LOOKUPS)!;
    const after = plan(changed, LIBRARY, NOW, FULL_ANSWER).result.findings;
    const left = after.filter(({ code }) => code === 'cure-stalls');
    expect([stalled!.severity, ...new Set(left.map(({ severity }) => severity))]).toEqual([
      'stop',
      'note',
    ]);
  });

  it('is told of neither where a small part leaves time enough', () => {
    const { result, messages } = told(alone('fast', 0.4));
    expect(messages('open-time-short')).toEqual([]);
    expect(messages('wet-past-hours')).toEqual([]);
    expect(result.stages.filter(({ start }) => start === null)).toEqual([]);
  });
});
