import { describe, expect, it } from 'vitest';
import type { Layup, LayupId } from '../../../app/part/types.ts';
import { boundariesOf, enumerateRoutes, routeOf } from '../../../app/route/routes.ts';
import { planFor, ROOMY } from '../judge/builds.ts';

function layup(id: LayupId, place: Layup['place'] = 'chain'): Layup {
  const none = {
    areaM2: 1,
    plyAreaM2: 1,
    plies: 1,
    edgeM: 4,
    mixedG: 400,
    setupMinutes: 20,
    partOf: null,
    section: null,
    personMinutes: 60,
  };
  const rest = {
    peopleMin: 1,
    peopleMax: 2,
    infused: false,
    hasCore: id === 'core',
    vertical: false,
    thicknessMm: 1,
  };
  return { id, name: id, place, ...none, ...rest };
}

const FOUR = [layup('skin'), layup('local'), layup('core'), layup('inner')];
const EDGED = [...FOUR, layup('closeout', 'after-trim')];

describe('routes of a part', () => {
  it('that is infused have no tack: bags apart or one shot', () => {
    const dry = FOUR.map((one) => ({ ...one, infused: one.id !== 'core' }));
    const ids = enumerateRoutes(dry).map(({ id }) => id);
    expect(ids).toHaveLength(8);
    expect(ids.some((id) => id.includes('~'))).toBe(false);
    const wanted = { 'skin-local': 'tack', 'local-core': 'apart', 'core-inner': 'tack' } as const;
    expect(routeOf(dry, wanted).id).toBe('skin+local/core+inner');
    expect(routeOf(FOUR, wanted).id).toBe('skin~local/core~inner');
  });

  it('gives every combination of three states over three boundaries', () => {
    const routes = enumerateRoutes(FOUR);
    expect(routes).toHaveLength(27);
    expect(new Set(routes.map((route) => route.id)).size).toBe(27);
    expect(new Set(routes.map((route) => JSON.stringify(route.joints))).size).toBe(27);
  });

  it('puts all apart first and one bag last', () => {
    const ids = enumerateRoutes(FOUR).map((route) => route.id);
    expect(ids[0]).toBe('skin/local/core/inner');
    expect(ids.at(-1)).toBe('skin+local+core+inner');
  });

  it('keeps what is made after trimming on its own in every route', () => {
    const routes = enumerateRoutes(EDGED);
    expect(routes).toHaveLength(27);
    for (const route of routes) {
      expect(route.cures.at(-1)!.id).toBe('closeout');
      expect(route.joints['inner-closeout']).toBe('apart');
    }
    expect(boundariesOf(EDGED).filter((boundary) => boundary.free)).toHaveLength(3);
  });

  it('never parts or turns the layups', () => {
    for (const route of enumerateRoutes(EDGED)) {
      const order = route.cures.flatMap((cure) => cure.layups.map((one) => one.id));
      expect(order).toEqual(EDGED.map((one) => one.id));
    }
  });

  it('has one route for one layup and none for none', () => {
    expect(enumerateRoutes([layup('skin')]).map((route) => route.id)).toEqual(['skin']);
    expect(enumerateRoutes([])).toEqual([]);
  });

  it('refuses a chain of nine', () => {
    const chain = Array.from({ length: 9 }, () => layup('skin'));
    expect(() => enumerateRoutes(chain)).toThrow(RangeError);
  });

  it('reads a joint that the part does not have as nothing, and a missing one as apart', () => {
    const route = routeOf(FOUR, { 'core-inner': 'tack', 'skin-closeout': 'one-bag' });
    expect(route.id).toBe('skin/local/core~inner');
    expect(routeOf(EDGED, { 'inner-closeout': 'one-bag' }).id).toBe(
      'skin/local/core/inner/closeout',
    );
  });
});

describe('pins under merging', () => {
  it('hold for a stage that the merged route still has', () => {
    const start = '2027-05-18T08:30';
    const long: [string, string][] = [['06:00', '21:00']];
    const hours = { mon: long, tue: long, wed: long, thu: long, fri: long };
    const crew = [
      { name: 'Ida Moss', hours },
      { name: 'Per Lunde', hours },
    ];
    const pins = [{ stage: 'layup:skin', start }];
    for (const state of ['apart', 'one-bag'] as const) {
      const route = { joints: { 'skin-core': state } };
      const { result } = planFor({ ...ROOMY, crew, pins, route });
      const stage = result.stages.find((one) => one.id === 'layup:skin')!;
      expect(stage.start!.slice(0, 16)).toBe(start);
    }
  });
});
