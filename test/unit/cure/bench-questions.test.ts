import { describe, expect, it } from 'vitest';
import { practiceOf } from '../../../app/document/library.ts';
import { librarySchema } from '../../../app/document/schema.ts';
import { cureClock } from '../../../app/cure/clock.ts';
import { fitSheet } from '../../../app/cure/fit.ts';
import { potLifeOf } from '../../../app/cure/pot.ts';
import { askCup, askSmear } from '../../../app/cure/bench-question.ts';
import { askInfusion, typedInfusion, usualInfusion } from '../../../app/cure/infusion-question.ts';
import { infusionOrigin } from '../../../app/shop/origins/infusion.ts';
import { setBench, sheetInUse } from '../../../app/cure/sheet-edit.ts';
import type { Draft } from '../../../app/document/edit/path.ts';
import { library } from '../../library.ts';

const lookUp = practiceOf(library);
const document: Draft = { name: 'Gull', resin: { system: 'orrin-40', hardener: 'slow' } };
const used = sheetInUse(document, library)!;
const model = fitSheet(used.hardener, lookUp);
const day = 1440;
const profile = [
  { start: 0, end: 600, temperatureC: 21 },
  { start: 600, end: 90 * day, temperatureC: 19 },
];
const cure = { model, profile, hardener: used.hardener };

describe('a smear', () => {
  const options = { minimumC: used.hardener.minimumC };
  const expected = cureClock(model, profile, options).reached(60, 'gel')!;
  const seen = Math.round(60 + (expected - 60) * 1.2);
  const answer = askSmear(cure, { mixed: 60, gel: seen, wetMinutes: 0, flangeC: null }, library);
  if (answer.trouble !== null) throw new Error(answer.trouble);

  it('moves every time of the film, gel to when it was seen', () => {
    const gel = answer.rows.find(({ milestone }) => milestone === 'gel')!;
    expect(gel).toEqual({ milestone: 'gel', before: expected, after: seen });
    for (const { before, after } of answer.rows) expect(after!).toBeGreaterThan(before!);
  });

  it('taken, is what the next plan reckons with; the sheet’s rows and the other hardeners stay', () => {
    const change = setBench(document, library, 'slow', answer.bench, 'Smear', 'taken')!;
    const [kept] = librarySchema.parse(change.document.library).resins;
    const slow = kept!.hardeners.find(({ id }) => id === 'slow')!;
    expect(slow.sheet).toEqual(used.hardener.sheet);
    expect(slow.provenance).toEqual(used.hardener.provenance);
    const next = fitSheet(slow, lookUp);
    expect(cureClock(next, profile, options).reached(60, 'gel')).toBe(seen);
    expect(potLifeOf(next, lookUp)(300, 20)).toBeCloseTo(potLifeOf(model, lookUp)(300, 20), 6);
    const others = kept!.hardeners.filter(({ id }) => id !== 'slow');
    expect(others.every(({ bench }) => bench === undefined)).toBe(true);
    const out = setBench(change.document, { ...library, resins: [kept!] }, 'slow', null, 'x', 'y')!;
    expect(out.document.library!.resins![0]!.hardeners).toEqual(used.resin.hardeners);
  });

  it('by the clock alone says so, and one far off asks for another cause', () => {
    const same = askSmear(
      cure,
      { mixed: 60, gel: expected, wetMinutes: 0, flangeC: null },
      library,
    );
    expect(same).toMatchObject({ trouble: null, none: true, far: false });
    const late = askSmear(
      cure,
      { mixed: 60, gel: 60 + 2 * (expected - 60), wetMinutes: 0, flangeC: 21 },
      library,
    );
    expect(late).toMatchObject({ trouble: null, far: true });
  });

  it('cannot be read before the mix, without a temperature, or a hundred times late', () => {
    const ask = (mixed: number, gel: number, flangeC: number | null) =>
      askSmear(cure, { mixed, gel, wetMinutes: 0, flangeC }, library).trouble;
    expect(ask(60, 60, null)).toBe('before-mix');
    expect(ask(-100, 200, null)).toBe('no-temperature');
    expect(ask(-100, 400, 20)).toBeNull();
    expect(ask(60, 600, used.hardener.minimumC - 1)).toBe('too-cold');
    expect(ask(60, 60 + 100 * (expected - 60), 21)).toBe('unlikely');
  });
});

describe('a leftover cup', () => {
  const batch = { massG: 315, roomC: 21, resinC: 21 };
  const expected = potLifeOf(model, lookUp)(315, 21);

  it('moves pot lives of every mass and no time of the film', () => {
    const answer = askCup(cure, { batch, minutes: 0.8 * expected }, library);
    if (answer.trouble !== null) throw new Error(answer.trouble);
    expect(answer.rows.map(({ massG }) => massG)).toEqual([150, 315, 500]);
    for (const { before, after } of answer.rows) expect(after!).toBeLessThan(before!);
    expect(answer.rows[1]!.after).toBeCloseTo(0.8 * expected, 0);
    expect(answer.bench.filmTimes).toBe(1);
  });

  it('that nothing explains is not believed', () => {
    expect(askCup(cure, { batch, minutes: 0.4 }, library).trouble).toBe('unlikely');
  });
});

describe('an infusion', () => {
  const usual = usualInfusion(library, 20);
  const ask = (more: Partial<typeof usual>) =>
    askInfusion(model, 'epoxy', { ...usual, ...more }, library)!;

  it('fills over a short way, is too thick over a longer one, gels over the longest', () => {
    const { reachM, course } = ask({});
    expect(reachM).toBeLessThan(course.gelReachM);
    expect(ask({ lengthM: reachM * 0.99 }).sound).toBe(true);
    const thick = ask({ lengthM: (reachM + course.gelReachM) / 2 });
    expect(thick.fill.fillMinutes).not.toBeNull();
    expect(thick.sound).toBe(false);
    expect(ask({ lengthM: course.gelReachM * 1.01 }).fill.fillMinutes).toBeNull();
  });

  it('comes further with more pressure, thinner resin or a clamp opened sooner', () => {
    const { reachM } = ask({});
    expect(ask({ pressureKPa: 95 }).reachM).toBeGreaterThan(reachM);
    expect(ask({ viscosityMPaS: 200 }).reachM).toBeGreaterThan(reachM);
    expect(ask({ waitMinutes: 2 }).reachM).toBeGreaterThan(reachM);
    expect(ask({ waitMinutes: 10_000 })).toMatchObject({ sound: false, reachM: 0 });
  });

  it('is as thick as stated at the temperature that it is stated at', () => {
    const { course } = ask({
      viscosityMPaS: 250,
      viscosityC: 25,
      temperatureC: 25,
      waitMinutes: 0,
    });
    expect(course.points[0]!.paS).toBeCloseTo(0.25, 9);
  });

  it('keeps what was typed for its own build, and nothing odd', () => {
    const kept = { build: 'a', lengthM: 2, form: 'radial', porosityPct: 'x', other: 3 };
    expect(typedInfusion(kept, 'a')).toEqual({ lengthM: 2, form: 'radial' });
    expect(typedInfusion(kept, 'b')).toEqual({});
    expect(typedInfusion(null, 'a')).toEqual({});
  });

  it('says of every figure where it is from', () => {
    const origin = infusionOrigin(ask({}), { lengthM: 2 }, used.hardener, library);
    expect(origin.rows.find(({ name }) => name === 'Way to fill')?.from).toBe('typed here');
    expect(origin.rows.find(({ name }) => name === 'Permeability')?.from).toContain('from memory');
    expect(origin.rows.every(({ from }) => from !== '')).toBe(true);
  });
});
