import { describe, expect, it } from 'vitest';
import type { Build } from '../../../app/document/schema.ts';
import { whyImpossible } from '../../../app/judge/possible.ts';
import { wetFaultsOf } from '../../../app/plan/wetWindows.ts';
import { draftRoute } from '../../../app/plan/routePlan.ts';
import { routeOf } from '../../../app/route/routes.ts';
import type { JointState } from '../../../app/document/schema.ts';
import { contextFor, ROOMY, withPart, withZone } from './builds.ts';

function reasons(document: Build, joints: Record<string, JointState>): string[] {
  const context = contextFor(document);
  const route = routeOf(context.part.layups, joints);
  const draft = draftRoute(context, route);
  return whyImpossible(context, draft, wetFaultsOf(context, draft)).map(({ code }) => code);
}

const ONE_BAG = { 'skin-core': 'one-bag', 'core-inner': 'one-bag' } as const;

describe('why a route cannot be done', () => {
  it('has nothing against separate cures', () => {
    expect(reasons(ROOMY, {})).toEqual([]);
  });

  it('refuses a merge under a clear finish, and not under paint', () => {
    const clear = withPart(ROOMY, { finish: 'clear' });
    expect(reasons(clear, { 'skin-core': 'one-bag' })).toContain('finish-not-reachable');
    expect(reasons(clear, {})).not.toContain('finish-not-reachable');
    expect(reasons(ROOMY, { 'skin-core': 'one-bag' })).not.toContain('finish-not-reachable');
  });

  it('does not mind a merge behind a cured clear skin', () => {
    const clear = withPart(ROOMY, { finish: 'clear' });
    expect(reasons(clear, { 'core-inner': 'one-bag' })).not.toContain('finish-not-reachable');
  });

  it('refuses one bag where the wet work outlasts the resin', () => {
    const slow = { ...ROOMY, resin: { system: 'orrin-40', hardener: 'slow' } };
    const large = withZone({ ...slow, crew: [{ name: 'Ida Moss' }] }, { areaM2: 8 });
    expect(reasons(large, ONE_BAG)).toContain('open-time-short');
    expect(reasons(withZone(slow, { areaM2: 0.3 }), ONE_BAG)).not.toContain('open-time-short');
  });

  it('refuses tack whose window falls when nobody is there', () => {
    const mornings = {
      ...ROOMY,
      crew: [{ name: 'Ida Moss', hours: { mon: [['08:00', '12:00']], thu: [['08:00', '12:00']] } }],
    } as Build;
    expect(reasons(mornings, { 'core-inner': 'tack' })).toContain('tack-out-of-hours');
    const always = {
      ...ROOMY,
      crew: ['Ida Moss', 'Per Lunde'].map((name) => ({
        name,
        hours: Object.fromEntries(
          ['mon', 'tue', 'wed', 'thu', 'fri', 'sat', 'sun'].map((day) => [
            day,
            [['00:00', '24:00']],
          ]),
        ),
      })),
    } as Build;
    expect(reasons(always, { 'core-inner': 'tack' })).not.toContain('tack-out-of-hours');
  });
});
