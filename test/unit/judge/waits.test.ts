/** Hours that a row of the consequence table says nothing can be done: the plan waits them. */
import { describe, expect, it } from 'vitest';
import type { Build, Library } from '../../../app/document/schema.ts';
import { draftRoute, planRoute } from '../../../app/plan/routePlan.ts';
import { routeOf } from '../../../app/route/routes.ts';
import { violations } from '../../../app/schedule/check.ts';
import { contextFor, LIBRARY, NOW, ROOMY, withPart, withRow, withZone } from './builds.ts';

/** A steady room at 20 C: hours of the table are hours of the clock. */
const STEADY: Build = withZone(
  {
    ...ROOMY,
    unveiling: '2027-09-30T18:00',
    resin: { system: 'orrin-40', hardener: 'medium' },
    room: { temperatureC: { day: 20, night: 20 }, humidityPct: 50 },
  },
  { areaM2: 0.6 },
);
const ONE_BAG = { 'skin-core': 'one-bag', 'core-inner': 'apart' } as const;

function planned(document: Build, joints: Record<string, 'one-bag' | 'apart'>, library: Library) {
  const context = contextFor(document, NOW, library);
  const plan = planRoute(context, draftRoute(context, routeOf(context.part.layups, joints)), 1);
  expect(violations(plan.network.problem, plan.schedule.placed)).toEqual([]);
  const at = new Map(plan.schedule.placed.map((one) => [one.stage, one]));
  return { plan, gapHours: (at.get('fair:2')!.start - at.get('fair:1')!.end) / 60 };
}

describe('a wait in the consequence table', () => {
  const waits = (hours: number) =>
    withRow(LIBRARY, 'consequences', 'joint-one-bag', { waitHoursAt20C: hours });

  it('is added to the drying of the first round, for the routes that it strikes', () => {
    expect(planned(STEADY, ONE_BAG, waits(0)).gapHours).toBeGreaterThanOrEqual(14);
    expect(planned(STEADY, ONE_BAG, waits(0)).gapHours).toBeLessThan(14 + 48);
    expect(planned(STEADY, ONE_BAG, waits(100)).gapHours).toBeGreaterThanOrEqual(114);
    expect(planned(STEADY, {}, waits(100)).gapHours).toBeLessThan(14 + 48);
  });

  it('keeps the next layup off a surface that was abraded again', () => {
    // A scuffed surface keeps no time at all and its dust has to settle: every one is abraded again.
    const stale = withRow(LIBRARY, 'practice', 'strip-to-bond-hours', { value: 0 });
    const wait = (hours: number) => {
      const row = { waitHoursAt20C: hours };
      const library = withRow(stale, 'consequences', 'bond-window-missed', row);
      const scuffed = withPart(STEADY, { structural: true });
      const night = { ...scuffed, crew: [{ name: 'Ida Moss' }, { name: 'Per Lunde' }] };
      const { plan } = planned(night, {}, library);
      const at = new Map(plan.schedule.placed.map((one) => [one.stage, one]));
      const prepared = at.get('prepare:core')!;
      return { mode: prepared.mode, hours: (at.get('layup:core')!.start - prepared.end) / 60 };
    };
    const [dry, wet] = [wait(0), wait(6)];
    for (const { mode } of [dry, wet]) expect(mode).toMatch(/^abrade:/);
    expect(dry.hours).toBeLessThan(6);
    expect(wet.hours).toBeGreaterThanOrEqual(6);
  });
});
