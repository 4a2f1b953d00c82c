/** An infused part: cloth laid dry over days, a drop test, resin that runs in before it gels. */
import { describe, expect, it } from 'vitest';
import type { Build } from '../../../app/document/schema.ts';
import { plan } from '../../../app/answer/plan.ts';
import { sheetDataOf } from '../../../app/shop/sheetData.ts';
import { contextOf } from '../../../app/plan/context.ts';
import { FIRST_ANSWER } from '../../../app/plan/outcome.ts';
import { draftRoute } from '../../../app/plan/routePlan.ts';
import { routeOf } from '../../../app/route/routes.ts';
import { goSheets } from '../../../app/shop/goSheet.ts';
import { mixCards } from '../../../app/shop/mixCard.ts';
import { clockWords, stampWords } from '../../../app/shop/floor/words.ts';
import { openSteps } from '../../../app/shop/floor/steps.ts';
import { isoToMinute } from '../../../app/time/zone.ts';
import { library, NOW, smallBuild } from '../../support/builds.ts';

const infused = (route: Build['route'] = 'best', wayM?: number): Build => {
  const small = smallBuild();
  return {
    ...small,
    route,
    resin: { system: 'orrin-18', hardener: 'slow' },
    part: { ...small.part, process: 'infused', ...(wayM ? { infusionWayM: wayM } : {}) },
  };
};
const shot = { joints: { 'skin-core': 'one-bag', 'core-inner': 'one-bag' } } as const;
const planned = (build: Build) => plan(build, library(), NOW, FIRST_ANSWER);

describe('an infusion', () => {
  const outcome = planned(infused(shot));
  const { result, detail } = outcome;
  const stage = (id: string) => {
    const found = result.stages.find((one) => one.id === id)!;
    return { ...found, from: isoToMinute(found.start!)!, to: isoToMinute(found.end!)! };
  };

  it('is laid and bagged dry, tested, and filled while the test holds good', () => {
    const [dry, test, fill] = ['lay-dry:skin', 'drop-test:skin', 'layup:skin'].map(stage);
    expect(dry!.name).toBe('Lay dry and bag outer skin + core bond + inner skin');
    expect(test!.from).toBeGreaterThanOrEqual(dry!.to);
    expect(fill!.from).toBeGreaterThanOrEqual(test!.to);
    expect(fill!.from - test!.to).toBeLessThanOrEqual(120);
    expect(fill!.name).toBe('Infuse outer skin + core bond + inner skin');
    const warm = stage('resin-warm');
    expect(warm.to).toBeLessThanOrEqual(fill!.from);
    expect(result.findings.map(({ code }) => code)).not.toContain('process-not-planned');
  });

  it('takes the minutes of its front, of one mix and of the clamp, whatever number of hands there are', () => {
    const fill = result.findings.find(({ code }) => code === 'infusion-fill')!;
    const front = (fill.numbers as { fillMinutes: number }).fillMinutes;
    const { from, to, people } = stage('layup:skin');
    expect(people).toHaveLength(1);
    expect(Math.abs(to - from - (front + 5 + 10))).toBeLessThanOrEqual(1);
  });

  it('is mixed in buckets of one resin for all that lies under the bag', () => {
    const mixes = result.mixes.filter(({ cure }) => cure === 'skin+core+inner');
    const mixed = detail.part.layups
      .filter(({ id }) => id !== 'closeout')
      .reduce((sum, { mixedG }) => sum + mixedG, 0);
    expect(mixes.reduce((sum, { totalG }) => sum + totalG, 0)).toBeCloseTo(mixed, 6);
    expect(Math.max(...mixes.map(({ totalG }) => totalG))).toBeLessThanOrEqual(1500);
    expect(new Set(mixes.map(({ totalG }) => totalG.toFixed(6))).size).toBe(1);
  });

  it('has no tack: every route is bags apart or one shot, and a core alone is bedded by hand', () => {
    const { result: best } = planned(infused());
    expect(best.routes.some(({ id }) => id.includes('~'))).toBe(false);
    const apart = planned(infused({ joints: { 'skin-core': 'apart', 'core-inner': 'apart' } }));
    const ids = apart.result.stages.map(({ id }) => id);
    expect(ids).toContain('lay-dry:skin');
    expect(ids).toContain('lay-dry:inner');
    expect(ids).not.toContain('lay-dry:core');
    expect(apart.result.stages.find(({ id }) => id === 'layup:core')!.name).toBe(
      'Lay up core bond',
    );
    // Peel ply comes off and the dry stack goes on that same day.
    const [strip, dry] = ['prepare:inner', 'lay-dry:inner'].map((id) =>
      apart.result.stages.find((one) => one.id === id)!,
    );
    expect(isoToMinute(dry!.start!)! - isoToMinute(strip!.start!)!).toBeLessThan(24 * 60);
  });

  it('in one shot prints the core through, and lets nothing slide', () => {
    const priceOf = (document: Build) => {
      const context = contextOf(document, library(), NOW);
      const { consequences } = draftRoute(context, routeOf(context.part.layups, shot.joints));
      return consequences.lines.filter(({ event }) => event.startsWith('joint-'));
    };
    const [dry, wet] = [priceOf(infused()), priceOf({ ...infused(), part: smallBuild().part })];
    expect(dry.map(({ event }) => event)).toEqual(['joint-one-shot', 'joint-one-shot']);
    expect(wet.map(({ event }) => event)).toEqual(['joint-one-bag', 'joint-one-bag']);
    const fillerKg = (lines: typeof dry) => lines.reduce((sum, line) => sum + line.fillerKg, 0);
    expect(fillerKg(dry)).toBeGreaterThan(0);
    expect(fillerKg(dry)).toBeLessThan(0.5 * fillerKg(wet));
  });

  it('is told as what it is on card, bench and phone', () => {
    const facts = sheetDataOf(outcome);
    const go = JSON.stringify(goSheets(facts)[0]);
    expect(go).toContain('Drop test at full vacuum: no more than 10 mbar lost in 10 min');
    expect(go).toMatch(/Full by \d\d:\d\d/);
    expect(go).not.toContain('breather');
    const card = JSON.stringify(mixCards(facts)[0]);
    expect(card).toContain('Bucket in water');
    expect(card).toContain('A bucket left standing reaches');
    const down = openSteps(outcome).find(({ stamp }) => stamp === 'bag-down')!;
    expect(stampWords(down.stamp, down.infused)).toBe('Full, feed clamped');
    expect(clockWords('bag-by', true)).toBe('Full by');
    expect(clockWords('bag-by', false)).toBe('Bag down by');
  });

  it('that gels before it is full is a stop with its way, and no card of it is printed', () => {
    const far = planned(infused(shot, 6));
    const stop = far.result.findings.find(({ code }) => code === 'infusion-fill')!;
    expect(stop.severity).toBe('stop');
    expect(stop.message).toContain('does not fill');
    expect(far.result.stages.find(({ id }) => id === 'layup:skin')!.withheld).toBeDefined();
    expect(planned(infused(shot, 0.5)).result.findings.some((one) => one.severity === 'stop')).toBe(
      false,
    );
  });

  it('by hand under no bag still says that it is not planned', () => {
    const small = smallBuild();
    const hand = planned({ ...small, part: { ...small.part, process: 'hand' } });
    expect(hand.result.findings.map(({ code }) => code)).toContain('process-not-planned');
  });
});
