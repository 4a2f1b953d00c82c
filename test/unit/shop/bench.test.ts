import { describe, expect, it } from 'vitest';
import { plan } from '../../../app/answer/plan.ts';
import { writeRecords } from '../../../app/document/edit/records.ts';
import type { Build } from '../../../app/document/schema.ts';
import { FIRST_ANSWER, type PlanOutcome } from '../../../app/plan/outcome.ts';
import { benchAt, withStamps } from '../../../app/shop/floor/bench.ts';
import { alarmsOf, soundingAlarms } from '../../../app/shop/floor/clocks.ts';
import { IS_HELD, stampEntries, type Step } from '../../../app/shop/floor/steps.ts';
import { isoToMinute } from '../../../app/time/zone.ts';
import { library, NOW, smallBuild } from '../../support/builds.ts';

const at = (document: Build, now: number): PlanOutcome =>
  plan(document, library(), now, FIRST_ANSWER);
const apart = { route: { joints: { 'skin-core': 'apart', 'core-inner': 'apart' } } } as const;

/** A shop that stamps every step at its planned minute, until one is the current one. */
class Shop {
  document: Build = { ...smallBuild(), ...apart };
  now = NOW;
  outcome = at(this.document, NOW);
  readonly stamped: string[] = [];

  bench = (picked: string | null = null) => benchAt(this.outcome, this.now, picked);

  stamp(step: Step, minute: number): void {
    this.now = minute;
    this.outcome = at(this.document, minute);
    const entries = stampEntries(this.outcome, step, minute);
    this.document = writeRecords(this.document, entries, step.key).document as Build;
    this.outcome = at(this.document, minute);
    this.stamped.push(step.key);
  }

  /** Runs the plan as it is, up to the step of this key. */
  until(key: string): Step {
    for (let i = 0; i < 200; i++) {
      const { current } = this.bench();
      if (!current) throw new Error(`${key} never came up`);
      if (current.key === key) return current;
      this.stamp(current, Math.max(this.now, current.at ?? this.now));
    }
    throw new Error(`${key} did not come up`);
  }
}

describe('the bench', () => {
  it('leads through the whole build, one stamp after the other, to nothing left', () => {
    const shop = new Shop();
    for (let i = 0; i < 300 && shop.bench().current; i++) {
      const current = shop.bench().current!;
      shop.stamp(current, Math.max(shop.now, current.at ?? shop.now));
    }
    expect(shop.bench().current).toBeNull();
    const left = shop.outcome.result.stages.filter((stage) => stage.state !== 'done');
    expect(left.map((stage) => [stage.id, stage.state])).toEqual([]);
    const order = shop.stamped;
    const place = (key: string) => order.indexOf(key);
    expect(place('layup:skin/mixed/1')).toBeGreaterThan(place('release/done'));
    expect(place('layup:skin/bag-down')).toBeGreaterThan(place('layup:skin/mixed/1'));
    expect(place('cure:skin/gel')).toBeGreaterThan(place('layup:skin/bag-down'));
    expect(place('bag-off:skin/off')).toBeGreaterThan(place('cure:skin/gel'));
    expect(new Set(order).size).toBe(order.length);
  });

  it('shows a stamp before it is planned as it is shown after', () => {
    const shop = new Shop();
    const [agree, all] = [[] as string[], [] as string[]];
    for (let i = 0; i < 300 && shop.bench().current; i++) {
      const current = shop.bench().current!;
      const now = Math.max(shop.now, current.at ?? shop.now);
      const entries = stampEntries(shop.outcome, current, now);
      const seen = benchAt(withStamps(shop.outcome, entries), now, null);
      const keys = (steps: readonly Step[]) =>
        steps.filter(({ stage }) => stage === current.stage).map(({ key }) => key);
      expect(keys(seen.steps)).not.toContain(current.key);
      shop.stamp(current, now);
      expect(keys(seen.steps)).toEqual(keys(shop.bench().steps));
      all.push(current.key);
      if (seen.current?.key === shop.bench().current?.key) agree.push(current.key);
    }
    expect(all.length).toBeGreaterThan(30);
    expect(agree.length).toBeGreaterThan(0.9 * all.length);
  });

  it('holds the key for what is mixed, bagged or gelled, and for nothing else', () => {
    expect(Object.entries(IS_HELD).flatMap(([stamp, held]) => (held ? stamp : []))).toEqual([
      'mixed',
      'bag-down',
      'gel',
    ]);
  });

  it('shows the cup, then the bag, then the gel, then the bag-off', () => {
    const shop = new Shop();
    const mix = shop.until('layup:skin/mixed/1');
    expect(shop.bench().clock).toBeNull();
    expect(shop.bench().curing).toBe(false);
    const mixedAt = Math.max(shop.now, mix.at!);
    shop.stamp(mix, mixedAt);
    const cure = () => shop.outcome.result.cures.find(({ id }) => id === 'skin')!;
    const kinds = () => shop.bench().clocks.map(({ kind }) => kind);
    const potLife = shop.outcome.result.mixes.find(({ cure: of }) => of === 'skin')!.potLifeMin!;
    const cup = shop.bench().clocks.find(({ kind }) => kind === 'use-by')!;
    const bagBy = isoToMinute(cure().bagBy!)!;
    expect(cup.at).toBe(Math.min(Math.floor(mixedAt + potLife), bagBy));
    expect(kinds()).toContain('bag-by');
    expect(shop.bench().curing).toBe(true);
    const down = shop.until('layup:skin/bag-down');
    shop.stamp(down, mixedAt + 60);
    expect(kinds()).not.toContain('use-by');
    expect(kinds().slice(0, 2)).toEqual(['gel-from', 'gel-by']);
    expect(shop.bench().clock!.at).toBe(isoToMinute(cure().gel!));
    const gel = shop.bench('cure:skin/gel').current!;
    shop.stamp(gel, isoToMinute(cure().gel!)! + 20);
    expect(kinds()).toEqual(['off-from']);
    expect(shop.outcome.detail.build.records.at(-2)).toMatchObject({ stage: 'cure:skin' });
  });
});

describe('alarms', () => {
  const shop = new Shop();
  const mix = shop.until('layup:skin/mixed/1');
  const alarms = () => alarmsOf(shop.outcome, shop.bench().choices);

  it('call for the mix when its minute is there, and again a quarter of an hour after an answer', () => {
    const [first] = alarms();
    expect(first).toMatchObject({ kind: 'mix-by', id: mix.key, at: mix.at });
    const due = (answered: Record<string, number>, minute: number) =>
      soundingAlarms(alarms(), answered, minute).map(({ id }) => id);
    expect(due({}, mix.at! - 1)).toEqual([]);
    expect(due({}, mix.at!)).toEqual([mix.key]);
    expect(due({ [mix.key]: mix.at! }, mix.at! + 14)).toEqual([]);
    expect(due({ [mix.key]: mix.at! }, mix.at! + 15)).toEqual([mix.key]);
  });

  it('call for bag, gel and bag-off in turn, also when the clock has leapt over them', () => {
    shop.stamp(mix, mix.at!);
    const bag = alarms().find(({ kind }) => kind === 'bag-by')!;
    const cure = shop.outcome.result.cures.find(({ id }) => id === 'skin')!;
    expect(bag.at).toBe(isoToMinute(cure.bagBy!));
    shop.stamp(shop.until('layup:skin/bag-down'), mix.at! + 60);
    const kinds = alarms().map(({ kind }) => kind);
    expect(kinds).not.toContain('bag-by');
    const gel = alarms().find(({ kind }) => kind === 'gel-look')!;
    const off = alarms().find(({ kind }) => kind === 'bag-off')!;
    // Asleep over both: both sound.
    const leapt = soundingAlarms(alarms(), {}, off.at + 600).map(({ kind }) => kind);
    expect(leapt).toEqual(expect.arrayContaining(['gel-look', 'bag-off']));
    expect(gel.at).toBeLessThan(off.at);
  });
});
