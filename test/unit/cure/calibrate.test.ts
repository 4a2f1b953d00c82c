import { describe, expect, it } from 'vitest';
import type { HardenerRow } from '../../../app/document/schema.ts';
import {
  benchAfterCup,
  benchAfterSmear,
  filmFromSmear,
  potFromCup,
} from '../../../app/cure/calibrate.ts';
import { cureClock } from '../../../app/cure/clock.ts';
import { filmMinutes, progressCurve } from '../../../app/cure/curves.ts';
import { fitSheet } from '../../../app/cure/fit.ts';
import { potLifeOf } from '../../../app/cure/pot.ts';
import { practice, shippedHardeners } from './practice-rows.ts';

const [, hardener] = shippedHardeners[1]!;
const model = fitSheet(hardener, practice);
const profile = [
  { start: 0, end: 720, temperatureC: 21 },
  { start: 720, end: 40_000, temperatureC: 17 },
];

describe('a smear that gelled late', () => {
  const expected = cureClock(model, profile).reached(60, 'gel')!;
  const seen = 60 + Math.round((expected - 60) * 1.2);
  const { model: slower, factor } = filmFromSmear(model, profile, 60, seen)!;

  it('puts the whole film off, so that its gel falls when it was seen', () => {
    expect(factor).toBeGreaterThan(1.1);
    const clock = cureClock(slower, profile);
    expect(Math.abs(clock.reached(60, 'gel')! - seen)).toBeLessThanOrEqual(1);
    expect(clock.reached(60, 'debag')!).toBeGreaterThan(
      cureClock(model, profile).reached(60, 'debag')!,
    );
  });
  it('leaves the pot alone', () => {
    expect(potLifeOf(slower, practice)(300, 21)).toBeCloseTo(
      potLifeOf(model, practice)(300, 21),
      6,
    );
  });
  it('says nothing where it cannot', () => {
    expect(filmFromSmear(model, profile, 60, 60)).toBeNull();
    expect(filmFromSmear(model, profile, -5, 60)).toBeNull();
    expect(filmFromSmear(model, [], 0, 60)).toBeNull();
  });
});

describe('a leftover cup that went early', () => {
  const batch = { massG: 200, roomC: 22 };
  const seen = 0.7 * potLifeOf(model, practice)(200, 22);
  const { model: quicker, factor } = potFromCup(model, batch, seen, practice)!;

  it('shortens every pot', () => {
    expect(factor).toBeCloseTo(0.7, 6);
    const potLife = potLifeOf(quicker, practice);
    expect(potLife(200, 22)).toBeCloseTo(seen, 1);
    expect(potLife(450, 18)).toBeLessThan(potLifeOf(model, practice)(450, 18));
  });
  it('moves no milestone of the laminate', () => {
    expect(quicker.doseHours).toEqual(model.doseHours);
    expect(cureClock(quicker, profile).reached(0, 'debag')).toBe(
      cureClock(model, profile).reached(0, 'debag'),
    );
  });
  it('is not believed when nothing explains it', () => {
    expect(potFromCup(model, batch, 0.5, practice)).toBeNull();
  });
});

describe('curves for a chart', () => {
  it('run through the rows of the sheet', () => {
    for (const row of hardener.sheet.filter((r) => r.what === 'film-gel')) {
      const minutes = filmMinutes(model, 'gel', row.temperatureC)!;
      expect(Math.abs(minutes / row.minutes - 1)).toBeLessThan(0.05);
    }
    expect(filmMinutes(model, 'debag', 20)).toBeCloseTo(
      cureClock(model, [{ start: 0, end: 9000, temperatureC: 20 }]).reached(0, 'debag')!,
      -1,
    );
    expect(filmMinutes(model, 'full', 15)!).toBeGreaterThan(filmMinutes(model, 'full', 25)!);
  });
  it('rise with time and end at the state of the clock', () => {
    const clock = cureClock(model, profile);
    const points = progressCurve(clock, profile, 60, 3000, 40);
    points.slice(1).forEach((point, i) => {
      expect(point.degree!).toBeGreaterThanOrEqual(points[i]!.degree!);
    });
    expect(points[0]).toMatchObject({ minute: 60, temperatureC: 21, degree: 0 });
    expect(points.at(-1)!.degree).toBe(clock.stateAt(60, 3000).degree);
  });
});

describe('what the bench said, kept beside the sheet', () => {
  const at = (bench: HardenerRow['bench']) =>
    fitSheet({ ...hardener, ...(bench && { bench }) }, practice);
  const batch = { massG: 200, roomC: 22 };

  it('is the clock that the smear gave, and the pot that the cup gave', () => {
    const smear = filmFromSmear(model, profile, 60, 460)!;
    const first = benchAfterSmear(undefined, smear);
    expect(cureClock(at(first), profile).reached(60, 'gel')).toBe(460);
    const seen = 0.8 * potLifeOf(at(first), practice)(200, 22);
    const second = benchAfterCup(first, potFromCup(at(first), batch, seen, practice)!);
    expect(potLifeOf(at(second), practice)(200, 22)).toBeCloseTo(seen, 1);
    expect(cureClock(at(second), profile).reached(60, 'gel')).toBe(460);
  });

  it('adds up: a second smear corrects the corrected clock', () => {
    const first = benchAfterSmear(undefined, filmFromSmear(model, profile, 60, 460)!);
    const again = benchAfterSmear(first, filmFromSmear(at(first), profile, 60, 500)!);
    expect(cureClock(at(again), profile).reached(60, 'gel')).toBe(500);
    const back = benchAfterSmear(again, filmFromSmear(at(again), profile, 60, 460)!);
    expect(back.filmTimes).toBeCloseTo(first.filmTimes, 9);
  });

  it('is said, and leaves the residuals to the sheet', () => {
    const corrected = at({ filmTimes: 1.3, cupPace: 1 });
    expect(corrected.residuals).toEqual(model.residuals);
    expect(corrected.assumptions.join(' ')).toContain('1.30 times the sheet');
    expect(at({ filmTimes: 1, cupPace: 1 }).assumptions).toEqual(model.assumptions);
  });
});
