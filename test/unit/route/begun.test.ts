/** A route that goes on with what has begun stays open, one that would have begun otherwise closes. */
import { describe, expect, it } from 'vitest';
import { contradictionOf } from '../../../app/route/begun.ts';
import { enumerateRoutes, routeOf } from '../../../app/route/routes.ts';
import type { Build } from '../../../app/document/schema.ts';
import { contextFor, planFor, ROOMY } from '../judge/builds.ts';

const { layups } = contextFor(ROOMY).part;
const ROUTES = enumerateRoutes(layups);
const APART = routeOf(layups, {});
const TACK = routeOf(layups, { 'skin-core': 'tack' });
const ONE_BAG = routeOf(layups, { 'skin-core': 'one-bag' });
const open = (stages: string[], chosen: typeof APART | null) =>
  ROUTES.filter((route) => contradictionOf(route, new Set(stages), chosen) === null).map(
    (route) => route.joints['skin-core'],
  );
const states = (stages: string[], chosen: typeof APART | null) => [
  ...new Set(open(stages, chosen)),
];

describe('what the floor has written down', () => {
  it('leaves every route open before anything is laid', () => {
    expect(open([], APART)).toHaveLength(ROUTES.length);
    expect(open(['mould', 'release', 'cutting'], APART)).toHaveLength(ROUTES.length);
  });

  it('a skin that is being laid may still be cured apart or met on its tack', () => {
    expect(states(['layup:skin'], APART)).toEqual(['apart', 'tack', 'one-bag']);
  });

  it('a skin that cures under its own bag is apart', () => {
    expect(states(['layup:skin', 'cure:skin'], APART)).toEqual(['apart']);
    // Without a chosen route only a stage of the core's own says so.
    expect(states(['layup:skin', 'cure:skin'], null)).toEqual(['apart', 'tack', 'one-bag']);
    expect(states(['layup:skin', 'cure:skin', 'prepare:core'], null)).toEqual(['apart']);
  });

  it('a core laid on its own rules out one bag, and a chosen tack rules out apart', () => {
    expect(states(['layup:skin', 'layup:core'], null)).toEqual(['apart', 'tack']);
    expect(states(['layup:skin', 'layup:core'], TACK)).toEqual(['tack']);
  });

  it('a skin and core laid together stay together', () => {
    expect(states(['layup:skin'], ONE_BAG)).toEqual(['one-bag']);
  });

  it('never speaks against the chosen route itself, whatever part of it has begun', () => {
    for (const route of ROUTES) {
      const stages = route.cures.flatMap((cure) => [
        `layup:${cure.layups[0]!.id}`,
        `cure:${cure.layups[0]!.id}`,
      ]);
      for (let k = 0; k <= stages.length; k++) {
        expect(contradictionOf(route, new Set(stages.slice(0, k)), route)).toBeNull();
      }
    }
  });
});

describe('a plan after the skin has been bagged alone', () => {
  const begun: Build = {
    ...ROOMY,
    route: { joints: { 'skin-core': 'apart', 'core-inner': 'apart' } },
    records: [
      { stage: 'layup:skin', start: '2027-04-16T08:00', end: '2027-04-16T10:00' },
      { stage: 'cure:skin', start: '2027-04-16T10:00', end: null },
    ],
  };

  it('lists the merged routes as closed, with the reason', () => {
    const { routes } = planFor(begun, 'full').result;
    for (const route of routes) {
      const merged = route.joints['skin-core'] !== 'apart';
      const codes = route.findings.map((finding) => finding.code);
      expect(codes.includes('route-begun-otherwise')).toBe(merged);
      if (merged) expect(route).toMatchObject({ open: false, possible: false });
    }
    expect(routes.some((route) => route.possible)).toBe(true);
  });
});
