import { describe, expect, it } from 'vitest';
import { cureClock } from '../../../app/cure/clock.ts';
import { fitSheet } from '../../../app/cure/fit.ts';
import { postCureByCurve, tgAfter, type CurvePostCureNeed } from '../../../app/cure/post-cure.ts';
import { practice, shippedHardeners } from './practice-rows.ts';

const [, hardener] = shippedHardeners[1]!;
const model = fitSheet(hardener, practice);
/** After a day in the shop. */
const { doseHours, tgC } = cureClock(model, [{ start: 0, end: 1440, temperatureC: 20 }]).stateAt(
  0,
  1440,
);
const need = (more: Partial<CurvePostCureNeed> = {}): CurvePostCureNeed => ({
  model,
  doseHours,
  neededTgC: 72,
  bakeC: 60,
  fromC: 20,
  hardener,
  mouldMaxC: 70,
  coreMaxC: 75,
  ...more,
});

describe('the post-cure by the curve', () => {
  const plan = postCureByCurve(need(), practice);
  if (!plan.possible) throw new Error('A post-cure was to be possible here.');

  it('reaches the needed Tg at or above the bake, inside mould and core', () => {
    expect(plan.reachesTgC).toBeGreaterThanOrEqual(72);
    expect(plan.holdC).toBeGreaterThanOrEqual(60);
    expect(plan.holdC).toBeLessThanOrEqual(70);
  });

  it('rises at 10 C an hour at most, and stays 10 C below the Tg it has, on the mould as well', () => {
    let temperatureC = 20;
    for (const step of plan.steps) {
      expect(step.fromC).toBe(temperatureC);
      expect(Math.abs(step.toC - step.fromC) / (step.minutes / 60)).toBeLessThanOrEqual(10 + 1e-9);
      temperatureC = step.toC;
    }
    // Its bag is off: nothing presses a part that has gone soft.
    let slowed = 0;
    for (const [i, { kind, fromC, toC }] of plan.steps.entries()) {
      if (kind !== 'ramp') continue;
      const reachedC = tgAfter(model.kinetics!, doseHours, plan.steps.slice(0, i));
      const belowK = reachedC - (toC > fromC ? toC : fromC);
      expect(belowK).toBeGreaterThan(10 - 10 * (15 / 60));
      if (belowK < 10.5) slowed += 1;
    }
    expect(slowed).toBeGreaterThan(3);
    expect(temperatureC).toBe(40);
    expect(tgC!).toBeGreaterThan(30);
    const softer = postCureByCurve(need({ doseHours: doseHours * 0.8 }), practice);
    expect(softer.possible && softer.minutes).toBeGreaterThan(plan.minutes);
  });

  it('is what a clock over the same programme finds', () => {
    let start = 1440;
    const heat = plan.steps
      .flatMap(({ fromC, toC, minutes }) => {
        const parts = Math.max(1, Math.round(minutes / 15));
        return Array.from({ length: parts }, (_, i) => ({
          minutes: minutes / parts,
          temperatureC: fromC + ((toC - fromC) * (i + 0.5)) / parts,
        }));
      })
      .map(({ minutes, temperatureC }) => {
        const segment = { start, end: start + minutes, temperatureC };
        start += minutes;
        return segment;
      });
    const clock = cureClock(model, [{ start: 0, end: 1440, temperatureC: 20 }, ...heat]);
    const cooling = 3;
    expect(Math.abs(clock.stateAt(0, start).tgC! - plan.reachesTgC)).toBeLessThan(cooling);
  });

  it('comes to an end for every resin, though Tg creeps ever closer to what it nears', () => {
    const longest = practice('cure-post-cure-longest-hours');
    for (const [, one] of shippedHardeners) {
      const other = fitSheet(one, practice);
      if (!other.kinetics) continue;
      for (const neededTgC of [50, 60, other.kinetics.glass.tgFullC - 0.5]) {
        const hot = { hardener: one, model: other, neededTgC, mouldMaxC: 250, coreMaxC: null };
        const found = postCureByCurve(need({ ...hot, bakeC: null, fromC: 22 }), practice);
        // Two holds at most, the ramp up and the cooling.
        const ramps = 2 * (Math.max(neededTgC, 22) / practice('postcure-ramp-c-per-h') + 1);
        if (found.possible) expect(found.minutes / 60).toBeLessThan(2 * longest + ramps);
      }
    }
  });

  it('is as cool as it can be: a degree less would not reach', () => {
    const soft = postCureByCurve(need({ bakeC: null, neededTgC: 70 }), practice);
    expect(soft.possible).toBe(true);
    if (!soft.possible) return;
    const limited = postCureByCurve(
      need({ bakeC: null, neededTgC: 70, mouldMaxC: soft.holdC - 1, coreMaxC: null }),
      practice,
    );
    if (limited.possible) expect(limited.minutes).toBeGreaterThan(soft.minutes);
    else expect(limited).toMatchObject({ reason: 'mould', wantedC: soft.holdC });
  });

  it('says what stands in the way', () => {
    expect(postCureByCurve(need({ mouldMaxC: 45, bakeC: null }), practice)).toMatchObject({
      possible: false,
      reason: 'mould',
      limitC: 45,
    });
    expect(postCureByCurve(need({ coreMaxC: 50 }), practice)).toMatchObject({
      possible: false,
      reason: 'core',
      limitC: 50,
    });
    // Hardly gelled: it stays too soft to be heated, whatever mould and core would take.
    const fresh = postCureByCurve(need({ doseHours: 1 }), practice);
    expect(fresh).toMatchObject({ possible: false, reason: 'cure' });
    if (!fresh.possible) expect(fresh.limitC).toBeLessThan(60);
    expect(postCureByCurve(need({ neededTgC: 95 }), practice)).toMatchObject({
      possible: false,
      reason: 'resin',
      limitC: 82,
    });
  });
});
