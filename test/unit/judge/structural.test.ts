/** What carrying load changes, as the trade has it (common practice, no source). */
import { describe, expect, it } from 'vitest';
import type { Build, JointState } from '../../../app/document/schema.ts';
import { applyLever } from '../../../app/judge/levers.ts';
import { LOOKUPS } from '../../../app/plan/lookups.ts';
import { draftRoute, planRoute } from '../../../app/plan/routePlan.ts';
import { routeOf } from '../../../app/route/routes.ts';
import { violations } from '../../../app/schedule/check.ts';
import { contextFor, LIBRARY, NOW, planFor, ROOMY, withPart, withRow, withZone } from './builds.ts';

const SMALL: Build = withZone(
  { ...ROOMY, resin: { system: 'orrin-40', hardener: 'fast' } },
  { areaM2: 0.6 },
);
const carries = (document: Build): Build => withPart(document, { structural: true });
const joined = (document: Build, joints: Record<string, JointState>): Build => ({
  ...document,
  route: { joints },
});
const BEHIND = { 'core-inner': 'one-bag' as const };

function planned(document: Build, library = LIBRARY) {
  const context = contextFor(document, NOW, library);
  const { joints } = document.route as { joints: Record<string, JointState> };
  const plan = planRoute(context, draftRoute(context, routeOf(context.part.layups, joints)), 20);
  expect(violations(plan.network.problem, plan.schedule.placed)).toEqual([]);
  return plan;
}
const codes = (document: Build) =>
  planFor(document)
    .result.findings.map((finding) => finding.code)
    .filter((code) => code.startsWith('structural'));

describe('a part that carries load', () => {
  const apart = joined(SMALL, {});

  it('scuffs every stripped surface lightly; one that carries none does not', () => {
    const work = (document: Build, library = LIBRARY) => {
      const { personMinutes, problem } = planned(document, library).network;
      const stage = problem.stages.find((one) => one.id === 'prepare:core')!;
      return { minutes: personMinutes['prepare:core']!, name: stage.name };
    };
    expect(work(apart).name).not.toContain('scuff');
    expect(work(carries(apart)).name).toContain('light scuff');
    expect(work(carries(apart)).minutes - work(apart).minutes).toBeCloseTo(4 * 0.6, 6);
    const row = { value: 10 };
    const slow = withRow(LIBRARY, 'practice', 'structural-scuff-minutes-per-m2', row);
    expect(work(carries(apart), slow).minutes - work(apart).minutes).toBeCloseTo(10 * 0.6, 6);
    expect(codes(carries(apart))).toEqual(['structural-scuff']);
    expect(codes(apart)).toEqual([]);
  });

  it('pays for fibre that moved behind the face too, and by more', () => {
    const hours = (document: Build, library = LIBRARY) => planned(document, library).labourHours;
    const more = (document: Build, library = LIBRARY) =>
      hours(joined(document, BEHIND), library) - hours(joined(document, {}), library);
    // 1.5 h of the table, half as much again; its scuffs are one fewer.
    const scuff = (4 * 0.6) / 60;
    expect(more(carries(SMALL)) - more(SMALL)).toBeCloseTo(1.5 * 1.5 - scuff, 6);
    const plain = withRow(LIBRARY, 'practice', 'structural-merge-factor', { value: 1 });
    expect(more(carries(SMALL), plain) - more(SMALL, plain)).toBeCloseTo(1.5 - scuff, 6);
  });

  it('is warned of a merge, and offered the cures apart', () => {
    const merged = carries(joined(SMALL, BEHIND));
    const { findings } = planFor(merged, 'full').result;
    const told = findings.find((finding) => finding.code === 'structural-merge')!;
    expect(told).toMatchObject({ severity: 'warn', stage: 'layup:core', numbers: { joints: 1 } });
    expect(told.message).toContain('inner skin in one bag with the core');
    const [lever] = told.levers.filter((one) => one.id.startsWith('route:'));
    expect(codes(applyLever(merged, lever!.id, LIBRARY, LOOKUPS)!)).not.toContain(
      'structural-merge',
    );
  });

  it('is warned of local plies after demould, and offered them between the skins', () => {
    const local = [{ cloth: 'glass-twill-300', place: 'after' as const, areaM2: 0.2 }];
    const late = withZone(SMALL, { local });
    expect(codes(late)).toEqual([]);
    const { findings } = planFor(carries(late), 'full').result;
    const told = findings.find((finding) => finding.code === 'structural-local-after')!;
    expect(told.levers.map((lever) => lever.id)).toContain('local-between');
  });

  it('is warned of an edge closed without peel ply', () => {
    const closeout = (peelPly: boolean) =>
      carries(withZone(SMALL, { closeout: { plies: [{ cloth: 'glass-twill-300' }], peelPly } }));
    expect(codes(closeout(false))).toContain('structural-no-peel-ply');
    expect(codes(closeout(true))).not.toContain('structural-no-peel-ply');
  });
});
