import { timelineRows } from '../../../app/timeline/items.ts';
import { describe, expect, it } from 'vitest';
import { planResultSchema, type Build } from '../../../app/document/schema.ts';
import { FIRST_ANSWER, FULL_ANSWER } from '../../../app/plan/outcome.ts';
import { plan } from '../../../app/answer/plan.ts';
import { isoToMinute } from '../../../app/time/zone.ts';
import { library, NOW, smallBuild } from '../../support/builds.ts';

const first = (build: Build, now = NOW) => plan(build, library(), now, FIRST_ANSWER);
const full = (build: Build, now = NOW) => plan(build, library(), now, FULL_ANSWER);
const codes = (build: Build, now = NOW) => full(build, now).result.findings.map((f) => f.code);
const at = (iso: string | null) => (iso === null ? Number.NaN : isoToMinute(iso)!);

describe('a roomy build', () => {
  const { result } = full(smallBuild());

  it('fits, in separate cures', () => {
    expect(result.fits).toBe(true);
    expect(result.route.id).toBe('skin/core/inner');
  });

  it('answers by the published contract', () => {
    expect(planResultSchema.safeParse(result).success).toBe(true);
  });

  it('says the same bytes twice', () => {
    expect(JSON.stringify(full(smallBuild()).result)).toBe(JSON.stringify(result));
  });

  it('ends before the unveiling with float on every stage', () => {
    expect(Math.max(...result.stages.map((s) => at(s.end)))).toBeLessThanOrEqual(
      at(result.deadline),
    );
    expect(result.stages.every((s) => s.floatHours !== null && s.floatHours >= 0)).toBe(true);
  });

  it('names something critical', () => {
    expect(result.stages.some((s) => s.critical)).toBe(true);
  });

  it('watches the vacuum from the moment the bag is sealed', () => {
    const layup = result.stages.find((s) => s.id === 'layup:skin')!;
    const watch = result.stages.find((s) => s.id === 'watched-vacuum:skin')!;
    expect(watch.start).toBe(layup.end);
    expect(watch.people).toHaveLength(1);
  });

  it('puts every milestone of a cure in the order in which resin meets them', () => {
    for (const cure of result.cures) {
      const order = [cure.firstMix, cure.bagBy, cure.gel, cure.debagFrom].map(at);
      expect(order).toEqual([...order].sort((a, b) => a - b));
    }
  });

  it('uses each batch within its pot life and before the bag must be down', () => {
    for (const mix of result.mixes) {
      expect(at(mix.useBy) - at(mix.mixAt)).toBeGreaterThan(10);
      const cure = result.cures.find((c) => c.id === mix.cure)!;
      expect(at(mix.mixAt)).toBeLessThan(at(cure.bagBy));
      expect(at(mix.useBy)).toBeLessThanOrEqual(at(cure.bagBy));
    }
  });

  it('lists every route, with a closing time for those that fit', () => {
    expect(result.routes).toHaveLength(9);
    for (const route of result.routes.filter((r) => r.fits)) {
      expect(route.closes).not.toBeNull();
    }
  });
});

describe('the plan answers to', () => {
  const end = (build: Build) =>
    Math.max(
      ...first(build)
        .result.stages.map((s) => at(s.end))
        .filter(Number.isFinite),
    );

  it('a warmer room: cures are shorter', () => {
    const cure = (day: number, night: number) => {
      const build = { ...smallBuild(), room: { temperatureC: { day, night } } };
      const stage = first(build).result.stages.find((s) => s.id === 'cure:skin')!;
      return at(stage.end) - at(stage.start);
    };
    expect(cure(25, 23)).toBeLessThan(cure(20, 18));
  });

  it('fewer people: the work ends later', () => {
    const alone = { ...smallBuild(), crew: smallBuild().crew.slice(0, 1) };
    expect(end(alone)).toBeGreaterThan(end(smallBuild()));
  });

  it('another hardener', () => {
    const fast = { ...smallBuild(), resin: { system: 'orrin-40', hardener: 'fast' } };
    const gel = (build: Build) => {
      const cure = first(build).result.cures[0]!;
      return at(cure.gel) - at(cure.firstMix);
    };
    expect(gel(fast)).toBeLessThan(gel(smallBuild()));
  });

  it('a route that is asked for', () => {
    const joints = { 'core-inner': 'tack' as const };
    const { result } = first({ ...smallBuild(), route: { joints } });
    expect(result.route.id).toBe('skin/core~inner');
  });

  it('a pin', () => {
    const pins = [{ stage: 'trim', start: '2027-05-31T09:00' }];
    const { result } = first({ ...smallBuild(), pins });
    expect(result.stages.find((s) => s.id === 'trim')!.start).toBe('2027-05-31T09:00+01:00');
  });

  it('a pin is named as the cause where others wait for it, and only there', () => {
    const pins = [{ stage: 'trim', start: '2027-05-31T09:00' }];
    const outcome = first({ ...smallBuild(), pins });
    const fixedBy = outcome.detail.shown!.fixedBy!;
    const after = outcome.result.stages.filter(({ start }) => start! > '2027-05-31T09:00+01:00');
    expect(after.length).toBeGreaterThan(2);
    expect(after.map(({ id }) => fixedBy[id])).toEqual(after.map(() => 'trim'));
    expect(fixedBy['trim']).toBeUndefined();
    expect(fixedBy['mould']).toBeUndefined();
    const said = timelineRows(outcome).flatMap(({ items }) => items);
    expect(said.find(({ id }) => id === after[0]!.id)!.spoken).toContain(
      `It stands here because the start of “${outcome.result.stages.find(({ id }) => id === 'trim')!.name}” is fixed by hand.`,
    );
    expect(first(smallBuild()).detail.shown!.fixedBy).toEqual({});
  });

  it('what really happened: recorded stages stay where they were', () => {
    const records = [
      { stage: 'cutting', start: '2027-04-14T08:00', end: '2027-04-14T11:20', note: '' },
    ];
    const { result } = first({ ...smallBuild(), records });
    const cutting = result.stages.find((s) => s.id === 'cutting')!;
    expect([cutting.start, cutting.end]).toEqual([
      '2027-04-14T08:00+01:00',
      '2027-04-14T11:20+01:00',
    ]);
  });

  it('a booked painter: the job starts on the slot', () => {
    const outside = [{ name: 'Brackwater sprayers', workingDays: 4, slot: '2027-06-14' }];
    const { result } = first({ ...smallBuild(), outside });
    const job = result.stages.find((s) => s.kind === 'outside')!;
    expect(job.start).toBe('2027-06-14T08:00+01:00');
  });

  it('a painter who takes work in on Mondays only', () => {
    const outside = [{ name: 'Brackwater sprayers', workingDays: 4, leavesFrom: 'mon' as const }];
    const { result } = first({ ...smallBuild(), outside });
    const job = result.stages.find((s) => s.kind === 'outside')!;
    expect(new Date(job.start!).getUTCDay()).toBe(1);
  });
});

describe('builds that cannot be are findings, never a crash', () => {
  it.each([
    ['a part without plies', { part: { zones: [] } }, 'part-empty'],
    ['an empty crew', { crew: [] }, 'crew-empty'],
    ['an unveiling that is past', { unveiling: '2026-01-05T10:00' }, 'date-missed'],
    ['a date too close', { unveiling: '2027-04-23T10:00' }, 'date-missed'],
    ['a room too cold to cure', { room: { temperatureC: { day: 6, night: 4 } } }, 'cold-room'],
    ['no pump', { gear: { pumpPorts: 0 } }, 'stage-impossible'],
  ] as [string, Partial<Build>, string][])('%s', (_what, edit, code) => {
    const build = { ...smallBuild(), ...edit } as Build;
    expect(codes(build)).toContain(code);
    expect(full(build).result.fits).toBe(false);
    expect(planResultSchema.safeParse(full(build).result).success).toBe(true);
  });
});
