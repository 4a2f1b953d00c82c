/** What is said of bake, sun and fillers, the ways out, and where nothing is said. */
import { describe, expect, it } from 'vitest';
import type { Build } from '../../../app/document/schema.ts';
import { applyLever } from '../../../app/judge/levers.ts';
import { LOOKUPS } from '../../../app/plan/lookups.ts';
import { buildSheets } from '../../support/sheets.ts';
import { toHtml } from '../../../app/shop/tree.ts';
import { LIBRARY, planFor, ROOMY, withPart, withZone } from './builds.ts';

const GLASS = { cloth: 'glass-twill-300' };
const BAKED: Build = {
  ...ROOMY,
  outside: [{ id: 'paint', name: 'Alder sprayers', workingDays: 2, bakeC: 60 }],
};
const TENT = { ...ROOMY.room, tent: { maxC: 70 } };
const closed = (document: Build): Build => withZone(document, { closeout: { plies: [GLASS] } });
const of = (document: Build, code: string, scope: 'first' | 'full' = 'first') =>
  planFor(document, scope).result.findings.find((finding) => finding.code === code);

describe('a bake above the Tg of anything on the part', () => {
  it('is a stop, and the plan does not fit', () => {
    const { result } = planFor(BAKED);
    const stop = result.findings.find(({ code }) => code === 'paint-over-tg')!;
    expect(stop.severity).toBe('stop');
    expect(Number(stop.numbers['tgC'])).toBeLessThan(60);
    expect(result.fits).toBe(false);
  });

  it('is a stop for the closeout alone, though all in the mould would stand it', () => {
    const hot = ['skin', 'core', 'inner'].map((layup) => ({
      layup,
      steps: [{ temperatureC: 60, rampKPerHour: 10, holdHours: 20 }],
    }));
    const build = closed({ ...BAKED, heat: hot, room: { ...ROOMY.room, tent: { maxC: 62 } } });
    const late: Build = { ...build, closeoutAfter: 'prime' };
    late.outside = [{ id: 'prime', name: 'First visit', workingDays: 1 }, ...BAKED.outside!];
    const stop = of(late, 'paint-over-tg')!;
    expect(stop.severity).toBe('stop');
    expect(stop.message).toMatch(/closeout|edge filler/);
    expect(stop.message).toContain('close it before the first');
  });

  it('has ways out that clear it, each with what it costs', () => {
    const { levers } = of(BAKED, 'paint-over-tg', 'full')!;
    const by = (head: string) => levers.find(({ id }) => id.startsWith(head));
    const heat = by('post-cure-heat:')!;
    expect(heat.clears).toContain('paint-over-tg');
    // Hire, heat by the hour and two hours of hands.
    expect(heat.cost).toBeGreaterThan(18_000 + 2 * 4200);
    const dry = by('air-dry:paint')!;
    expect(dry.clears).toContain('paint-over-tg');
    expect(dry.sideEffects.join(' ')).toContain('1 working day more');
    for (const { id } of [heat, dry]) {
      const pulled = applyLever(BAKED, id, LIBRARY, LOOKUPS)!;
      expect(of(pulled, 'paint-over-tg')).toBeUndefined();
    }
    const pulled = applyLever(BAKED, 'air-dry:paint', LIBRARY, LOOKUPS)!;
    expect(pulled.outside![0]).toMatchObject({ bakeC: null, workingDays: 3 });
  });

  it('is none where the post-cure of the plan brings it', () => {
    const build = closed({ ...BAKED, room: TENT });
    expect(of(build, 'paint-over-tg')).toBeUndefined();
    const note = of(build, 'post-cure-planned')!;
    expect(note.message).toContain('on supports after the last cure');
    expect(note.message).toMatch(/it costs €\d+ in hands, heat and days; on the mould and again/);
    expect(Number(note.numbers['withTgC'])).toBeGreaterThanOrEqual(71.5);
  });
});

describe('fillers', () => {
  it('softer than the bake are a warning: they sink and print', () => {
    expect(of(BAKED, 'filler-softens')).toMatchObject({ severity: 'warn' });
    const cool = { ...BAKED, outside: [{ ...BAKED.outside![0]!, bakeC: 50 }] };
    expect(of(cool, 'filler-softens')).toBeUndefined();
    expect(of(withPart(BAKED, { finish: 'hidden' }), 'filler-softens')).toBeUndefined();
  });

  it('are told by the painter’s sheet as the greatest heat where they are the weakest', () => {
    const outcome = planFor({ ...BAKED, room: TENT });
    const text = buildSheets(outcome, 'painter')
      .sheets.map(({ body }) => toHtml(body))
      .join('');
    expect(text).toContain('Nothing hotter than 50 °C, oven or sun: key and screed');
    const bare = planFor(withPart({ ...BAKED, room: TENT }, { finish: 'hidden' }));
    const weakest = bare.detail.tg!.members[0]!;
    const limit = Math.floor(weakest.withC! - 12);
    const sheet = buildSheets(bare, 'painter')
      .sheets.map(({ body }) => toHtml(body))
      .join('');
    expect(sheet).toContain(`Nothing hotter than ${limit} °C, oven or sun`);
  });
});

/** Every message of a plan and all its paper. */
function allWords(document: Build): string {
  const outcome = planFor(document, 'full');
  const findings = outcome.result.findings.flatMap(({ message, levers }) => [
    message,
    ...levers.flatMap(({ label, sideEffects }) => [label, ...sideEffects]),
  ]);
  const paper = buildSheets(outcome).sheets.map(({ body }) => toHtml(body));
  return [...findings, ...paper].join('\n');
}

describe('where nobody bakes and service stays below what the room gives', () => {
  it('nothing says post-cure or air-dry', () => {
    for (const serviceMaxC of [25, -10]) {
      const words = allWords(withPart(ROOMY, { serviceMaxC }));
      expect(words).not.toMatch(/post-?cure|air-dry/i);
      expect(words).not.toContain('paint-over');
    }
  });
});

describe('resin that is hardly cured', () => {
  it('is not told by a number: nobody stands -35 °C', () => {
    const cold: Build = { ...BAKED, room: { temperatureC: { day: 3, night: 1 }, humidityPct: 40 } };
    const words = allWords(cold);
    expect(words).toContain('Its dates hold only if part and mould are kept at');
    expect(words).not.toMatch(/stands? (about )?[-−]\d/);
    expect(words).not.toMatch(/Tg (of |about )*[-−]\d/);
    expect(words).not.toMatch(/about [-−]\d/);
  });
});

describe('heat under the bag', () => {
  it('that the mould grows in is told at the heat really set', () => {
    const CARBON = { cloth: 'carbon-twill-200' };
    const long = { sizeM: [2, 0.6] as [number, number], outer: [CARBON], inner: [CARBON] };
    const heat = [
      { layup: 'inner', steps: [{ temperatureC: 55, rampKPerHour: 10, holdHours: 4 }] },
    ];
    const build = withZone({ ...ROOMY, room: TENT, heat }, long);
    const growth = of(build, 'mould-growth')!;
    // 5.5e-5 /K x 2000 mm x 34 K.
    expect(growth.numbers['growthMm']).toBeCloseTo(3.7, 9);
    expect(of({ ...build, heat: [] }, 'mould-growth')).toBeUndefined();
  });
});

describe('heat that may not run alone', () => {
  const long = [{ layup: 'inner', steps: [{ temperatureC: 40, rampKPerHour: 10, holdHours: 30 }] }];
  const never: Build = { ...ROOMY, room: { ...TENT, heatAlone: 'never' }, heat: long };

  it('stops a programme that no start would keep, withholds its cards, and offers looser rules', () => {
    const { result } = planFor(never, 'full');
    const stop = result.findings.find(({ code }) => code === 'heat-alone')!;
    expect(stop).toMatchObject({ severity: 'stop', unsafe: true, stage: 'cure:inner' });
    expect(result.stages.find(({ id }) => id === 'layup:inner')!.withheld).toEqual([stop.message]);
    expect(result.stages.find(({ id }) => id === 'layup:skin')!.withheld).toBeUndefined();
    const offered = stop.levers.filter(({ id }) => id.startsWith('heat-alone:'));
    expect(offered.map(({ id, clears }) => [id, clears.includes('heat-alone')])).toEqual([
      ['heat-alone:nights', true],
      ['heat-alone:weekends', true],
    ]);
    expect(offered[0]!.sideEffects.join(' ')).toContain('cut-out and a logger');
    const mended = applyLever(never, 'heat-alone:nights', LIBRARY, LOOKUPS)!;
    expect(of(mended, 'heat-alone')).toBeUndefined();
    expect(applyLever(mended, 'heat-alone:nights', LIBRARY, LOOKUPS)).toBeNull();
  });

  it('offers them for a post-cure that has no start either', () => {
    const baked: Build = { ...BAKED, room: { ...TENT, heatAlone: 'never' } };
    const { levers } = of(baked, 'paint-over-tg', 'full')!;
    expect(levers.map(({ id }) => id)).toContain('heat-alone:nights');
  });
});
