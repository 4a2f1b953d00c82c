/** Heavy fill in lifts: stages and waits of the network, kept by the plan and seen by the checker. */
import { describe, expect, it } from 'vitest';
import { plan } from '../../../app/answer/plan.ts';
import type { Build } from '../../../app/document/schema.ts';
import { contextOf } from '../../../app/plan/context.ts';
import { FIRST_ANSWER } from '../../../app/plan/outcome.ts';
import { draftRoute, planRoute } from '../../../app/plan/routePlan.ts';
import { apartRoute } from '../../../app/route/routes.ts';
import { violations } from '../../../app/schedule/check.ts';
import { library, NOW, smallBuild } from '../../support/builds.ts';

const filled = (deepestFillMm: number): Build => {
  const { part } = smallBuild();
  const zones = part.zones.map((zone) => ({ ...zone, finish: 'painted' as const }));
  return { ...smallBuild(), part: { ...part, zones, deepestFillMm } };
};

describe('a hollow deeper than a lift', () => {
  const { stages, findings } = plan(filled(14), library(), NOW, FIRST_ANSWER).result;
  const stageOf = (id: string) => stages.find((stage) => stage.id === id);
  const hours = (from: string, to: string) =>
    (Date.parse(stageOf(to)!.start!) - Date.parse(stageOf(from)!.end!)) / 3_600_000;

  it('is filled in lifts of 6 mm, each hard for 12 h before the next, the last sanded after 14 h', () => {
    expect(stages.filter(({ name }) => / lift \d of 3$/.test(name)).map(({ id }) => id)).toEqual([
      'fair:1',
      'fair:1-lift-2',
      'fair:1-lift-3',
    ]);
    expect(hours('fair:1', 'fair:1-lift-2')).toBeGreaterThanOrEqual(12);
    expect(hours('fair:1-lift-2', 'fair:1-lift-3')).toBeGreaterThanOrEqual(12);
    expect(hours('fair:1-lift-3', 'fair:2')).toBeGreaterThanOrEqual(14);
    expect(findings.find(({ code }) => code === 'fill-lifts')!.message).toContain('3 lifts');
  });

  it('is one round where a lift holds it', () => {
    const shallow = plan(filled(6), library(), NOW, FIRST_ANSWER).result;
    expect(shallow.stages.some(({ id }) => id === 'fair:1-lift-2')).toBe(false);
    expect(shallow.stages.some(({ id }) => id === 'fair:1')).toBe(true);
  });

  it('is broken for the checker when a lift goes on the one before it while that is still soft', () => {
    const context = contextOf(filled(14), library(), NOW);
    const { network, schedule } = planRoute(
      context,
      draftRoute(context, apartRoute(context.part.layups)),
      FIRST_ANSWER.schedules,
    );
    expect(violations(network.problem, schedule.placed)).toEqual([]);
    const first = schedule.placed.find(({ stage }) => stage === 'fair:1')!;
    const tooSoon = schedule.placed.map((spot) =>
      spot.stage === 'fair:1-lift-2'
        ? { ...spot, start: first.end + 60, end: first.end + 60 + spot.end - spot.start }
        : spot,
    );
    expect(violations(network.problem, tooSoon).join('; ')).toContain(
      'between wait:fair-1 and fair:1-lift-2',
    );
  });
});
