/** Stages that a shop really does, and how a build of before goes without them until it takes their rows. */
import { describe, expect, it } from 'vitest';
import { plan } from '../../../app/answer/plan.ts';
import { freezeRows } from '../../../app/document/library.ts';
import { readBuild } from '../../../app/document/read.ts';
import type { Build, Library, PlanResult } from '../../../app/document/schema.ts';
import { FIRST_ANSWER, FULL_ANSWER } from '../../../app/plan/outcome.ts';
import { contextOf } from '../../../app/plan/context.ts';
import { library, NOW, smallBuild } from '../../support/builds.ts';

const CLOTH = 'carbon-twill-200';
const ZONE = smallBuild().part.zones[0]!;
const JOINTS = { 'skin-core': 'apart', 'core-inner': 'apart' } as const;
const shaped = (shape: 'flat' | 'single', more: object = {}): Build => ({
  ...smallBuild(),
  route: { joints: JOINTS },
  part: { ...smallBuild().part, zones: [{ ...ZONE, shape, ...more }] },
});
const planned = (document: Build, rows: Library = library(), effort = FIRST_ANSWER): PlanResult =>
  plan(document, rows, NOW, effort).result;
const stageOf = ({ stages }: PlanResult, id: string) => stages.find((stage) => stage.id === id);
const startOf = (result: PlanResult, id: string): string => stageOf(result, id)!.start!;
const endOf = (result: PlanResult, id: string): string => stageOf(result, id)!.end!;

/** The library as it was before rows were offered. */
const ofBefore = (rows: Library): Library =>
  Object.fromEntries(
    Object.entries(rows).map(([table, list]) => [
      table,
      (list as { byOffer?: true }[]).filter(({ byOffer }) => byOffer !== true),
    ]),
  ) as unknown as Library;

function frozenWith(document: Build, rows: Library): Build {
  const read = readBuild(JSON.stringify(document), rows);
  if (!read.ok) throw new Error(JSON.stringify(read.faults));
  return freezeRows(read.document, read.build, rows) as Build;
}

describe('core', () => {
  it('over a curve is fitted on the mould once that is tested, by template where it is flat', () => {
    const curved = planned(shaped('single'));
    expect(stageOf(curved, 'core-fit')!.name).toBe('Fit core on the mould, score and drill it');
    expect(startOf(curved, 'core-fit') >= endOf(curved, 'bag-test')).toBe(true);
    const flat = planned(shaped('flat'));
    expect(stageOf(flat, 'core-fit')!.name).toBe('Cut core by template, score and drill it');
    expect(startOf(flat, 'core-fit') < endOf(flat, 'bag-test')).toBe(true);
    expect(stageOf(flat, 'core-fit')!.gear).toContain('bench');
  });

  it('is tapped over before anything covers it, and the part once it is out of the mould', () => {
    const result = planned(shaped('single'));
    expect(startOf(result, 'tap-test:core') >= endOf(result, 'bag-off:core')).toBe(true);
    expect(startOf(result, 'prepare:inner') >= endOf(result, 'tap-test:core')).toBe(true);
    expect(startOf(result, 'tap-test:demould') >= endOf(result, 'demould')).toBe(true);
    expect(startOf(result, 'trim') >= endOf(result, 'tap-test:demould')).toBe(true);
  });

  it('has no peel ply to strip while it is bare', () => {
    const result = planned(shaped('single'));
    expect(stageOf(result, 'prepare:inner')!.name).toBe(
      'Vacuum bare core and clean overlaps for inner skin',
    );
    expect(stageOf(result, 'prepare:core')!.name).toMatch(/^Strip peel ply/);
  });

  it('carries its dull spots as a likelihood: two hours in one bond of five', () => {
    const price = planned(shaped('single'), library(), FULL_ANSWER).routes[0]!.price!;
    expect(price.find(({ event }) => event === 'dull-core')).toMatchObject({
      chance: 0.2,
      hours: 0.4,
      fillerKg: 0,
    });
  });
});

describe('local plies between the skins', () => {
  const local = [{ cloth: CLOTH, angleDeg: 45, place: 'between' as const, areaM2: 0.2 }];
  const free: Build = { ...shaped('single', { local }), route: 'best' };

  it('go down wet with the outer skin, at no price and with no filler', () => {
    const result = planned(free, library(), FULL_ANSWER);
    expect(result.route.id).toBe('skin+local/core/inner');
    expect(stageOf(result, 'layup:local')).toBeUndefined();
    const taken = result.routes.find(({ id }) => id === result.route.id)!;
    expect(taken.possible).toBe(true);
    expect(taken.price!.map(({ event }) => event)).not.toContain('joint-one-bag');
    const own = result.routes.find(({ id }) => id === 'skin/local/core/inner')!;
    expect(own.possible).toBe(true);
    expect(own.labourHours).toBeGreaterThan(taken.labourHours + 1);
    const merged = result.routes.find(({ id }) => id === 'skin+local+core/inner')!;
    expect(merged.price!.filter(({ event }) => event === 'joint-one-bag')).toHaveLength(1);
  });

  it('keep a bag of their own where the build says so', () => {
    const joints = { 'skin-local': 'apart', 'local-core': 'apart', ...JOINTS } as const;
    const result = planned({ ...free, route: { joints } });
    expect(result.route.id).toBe('skin/local/core/inner');
    expect(stageOf(result, 'layup:local')).toBeDefined();
  });
});

describe('work under one bag', () => {
  const patch = [{ cloth: CLOTH, angleDeg: 45, place: 'between' as const, areaM2: 0.7 }];
  const { part } = contextOf(
    shaped('flat', { areaM2: 8, edgeM: 12, local: patch }),
    library(),
    NOW,
  );
  const under = (id: string) => part.layups.filter((layup) => layup.id === id);

  it.each(['bag-off', 'prepare'] as const)(
    'has a fixed part and a part by area and edge: %s of 0.7 m2 is no skin of 8',
    (kind) => {
      const row = library().labour.find(({ stage }) => stage === kind)!;
      const minutes = (areaM2: number, edgeM: number) =>
        row.setupMinutes + row.minutesPerM2 * areaM2 + row.minutesPerEdgeM * edgeM;
      const [small] = under('local');
      expect(part.workUnder(kind, under('skin')).personMinutes).toBeCloseTo(minutes(8, 12), 6);
      expect(part.workUnder(kind, under('local')).personMinutes).toBeCloseTo(
        minutes(0.7, small!.edgeM),
        6,
      );
      expect(part.workFor(kind).personMinutes).toBeCloseTo(minutes(8, 12), 6);
    },
  );
});

describe('a build that froze its rows before these were there', () => {
  const old = ofBefore(library());
  const local = [{ cloth: CLOTH, angleDeg: 45, place: 'between' as const, areaM2: 0.2 }];
  const frozen = frozenWith({ ...shaped('single', { local }), route: 'best' }, old);

  it('plans as before, to the minute, and keeps its rows when it is stored again', () => {
    const before = planned(frozen, old);
    const now = planned(frozen);
    const dates = ({ route, stages }: PlanResult) => [
      route.id,
      ...stages.map(({ id, name, start, end }) => [id, name, start, end]),
    ];
    expect(dates(now)).toEqual(dates(before));
    expect(now.stages.map(({ kind }) => kind)).not.toContain('tap-test');
    const again = frozenWith(frozen, library());
    expect(again.library!.labour!.map(({ id }) => id)).toEqual(old.labour.map(({ id }) => id));
  });
});
