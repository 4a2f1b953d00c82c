import { describe, expect, it } from 'vitest';
import { cureClock } from '../../../app/cure/clock.ts';
import {
  cupFacts,
  gelFacts,
  materialFacts,
  stackFacts,
  tgFacts,
  unreachedFacts,
  type MaterialCase,
} from '../../../app/cure/facts.ts';
import { fitSheet } from '../../../app/cure/fit.ts';
import { largestBatchFor, potLifeOf } from '../../../app/cure/pot.ts';
import {
  largestLift,
  liftPeak,
  stackTemperatures,
  type StackPart,
} from '../../../app/cure/stack.ts';
import { practice, shippedHardeners } from './practice-rows.ts';

const [, fast] = shippedHardeners[0]!;
const [, medium] = shippedHardeners[1]!;
const model = fitSheet(medium, practice);
const fastModel = fitSheet(fast, practice);
const DAY = 1440;
const steady = (temperatureC: number, minutes = 30 * DAY) => [
  { start: 0, end: minutes, temperatureC },
];

describe('what is never reached', () => {
  it('is full cure in a cool shop, with the Tg it stops at', () => {
    const facts = unreachedFacts(cureClock(model, steady(16)), 0, 14 * DAY, ['demould', 'full']);
    expect(facts).toHaveLength(1);
    expect(facts[0]).toMatchObject({ fact: 'never-reached', milestone: 'full', slowed: true });
    const { tgC } = facts[0] as { tgC: number };
    expect(tgC).toBeGreaterThan(16 + 15);
    expect(tgC).toBeLessThan(16 + 33);
  });
  it('is nothing where it is warm', () => {
    expect(unreachedFacts(cureClock(model, steady(26)), 0, 14 * DAY, ['demould', 'full'])).toEqual(
      [],
    );
  });
});

describe('Tg against bake and sun', () => {
  const need = {
    model,
    doseHours: model.doseHours.demould!,
    neededTgC: 72,
    bakeC: 60,
    fromC: 20,
    hardener: medium,
    mouldMaxC: 70,
    coreMaxC: 75,
  };
  it('comes with the post-cure that mends it, or nothing', () => {
    expect(tgFacts(48, need, practice)).toMatchObject([
      { fact: 'tg-short', tgC: 48, neededTgC: 72, postCure: { possible: true } },
    ]);
    expect(tgFacts(75, need, practice)).toEqual([]);
  });
});

describe('a gel with nobody there', () => {
  // Two days of 08:00 to 16:00, minutes of the day.
  const hours = [
    { start: 480, end: 960 },
    { start: DAY + 480, end: DAY + 960 },
  ];
  const clock = cureClock(model, steady(20));
  const gelAfter = clock.reached(0, 'gel')!;

  it('names the nearest start within the float whose gel is seen', () => {
    const [fact] = gelFacts(clock, 900, { earliest: 480, latest: DAY + 700 }, hours);
    expect(fact).toMatchObject({ fact: 'gel-unattended', gel: 900 + gelAfter });
    const { start } = fact as { start: number };
    const gel = clock.reached(start, 'gel')!;
    expect(hours.some((h) => h.start <= gel && gel < h.end)).toBe(true);
    // The last start whose gel is seen the same day is nearer than the next morning.
    expect(start).toBe(959 - gelAfter);
  });
  it('has none where the float holds none, and is no fact when seen', () => {
    expect(gelFacts(clock, 900, { earliest: 880, latest: 940 }, hours)).toMatchObject([
      { start: null },
    ]);
    expect(gelFacts(clock, 500, { earliest: 480, latest: 940 }, hours)).toEqual([]);
  });
});

describe('a hot cup', () => {
  it('is said with its peak and the largest batch that stays workable', () => {
    const potLife = potLifeOf(fastModel, practice);
    const minutes = potLife(200, 22);
    const [fact] = cupFacts(fastModel, { massG: 500, roomC: 22 }, minutes, practice);
    expect(fact).toMatchObject({ fact: 'cup-hot', runsAway: true });
    const { largestG, peakC } = fact as { largestG: number; peakC: number };
    expect(peakC).toBeGreaterThan(100);
    expect(largestG).toBeGreaterThan(198);
    expect(largestG).toBeLessThan(202);
  });
  it('lives longer in a shallow tray, and a thin film of it is no fact', () => {
    const minutes = 1.1 * potLifeOf(fastModel, practice)(500, 22);
    const cup = largestBatchFor(fastModel, minutes, { roomC: 22 }, practice);
    const tray = largestBatchFor(
      fastModel,
      minutes,
      { roomC: 22, vessel: 'tray', depthMm: 5 },
      practice,
    );
    expect(tray).toBeGreaterThan(cup);
    expect(
      cupFacts(model, { massG: 300, roomC: 18, vessel: 'tray', depthMm: 1 }, 10, practice),
    ).toEqual([]);
    expect(cupFacts(model, { massG: 300, roomC: 18 }, 10, practice)).toEqual([]);
  });
});

describe('heat through the stack', () => {
  const laminate = (thicknessMm: number): StackPart => ({
    kind: 'laminate',
    name: 'skin',
    thicknessMm,
    fibreFraction: 0.45,
    fibreDensityKgM3: 1800,
    resinDensityKgM3: 1150,
    wet: true,
  });
  const stack = (thicknessMm: number) =>
    stackTemperatures(
      fastModel,
      [
        laminate(thicknessMm),
        { kind: 'core', name: 'foam', thicknessMm: 20, densityKgM3: 60, maxC: 70 },
        laminate(thicknessMm),
        { kind: 'mould', name: 'board', maxC: 65 },
      ],
      steady(22),
      0,
      practice,
    );
  it('hardly matters in thin skins', () => {
    const thin = stack(1);
    expect(thin.peakC).toBeLessThan(22 + 15);
    expect(stackFacts(thin)).toEqual([]);
  });
  it('is a fact for core and mould in thick ones', () => {
    const facts = stackFacts(stack(8));
    expect(facts.map((fact) => 'layer' in fact && fact.layer)).toEqual(['foam', 'board']);
  });
});

describe('filler and potting poured thick', () => {
  const pour = { mix: 'potting' as const, roomC: 20, groundMm: 20, groundDensityKgM3: 60 };
  it('has a largest lift that stays under the limit, and half a millimetre more does not', () => {
    const limitC = practice('cure-thick-hottest-c');
    const { liftMm, peakC, unlimited } = largestLift(model, pour, limitC, practice);
    expect(unlimited).toBe(false);
    expect(peakC).toBeLessThanOrEqual(limitC);
    expect(liftPeak(model, pour, liftMm + 0.5, practice).peakC).toBeGreaterThan(limitC);
  });
  it('is thinner for a fast hardener and in a warm shop', () => {
    const at = (m: typeof model, roomC: number) =>
      largestLift(m, { ...pour, roomC }, 60, practice).liftMm;
    expect(at(fastModel, 20)).toBeLessThan(at(model, 20));
    expect(at(model, 28)).toBeLessThan(at(model, 18));
  });
});

describe('resin against core and mould', () => {
  const materials = (more: Partial<MaterialCase> = {}): MaterialCase => ({
    resin: { name: 'A polyester', chemistry: 'polyester' },
    cores: [{ name: 'white foam', takesStyrene: false, maxVacuumKPa: 40, maxC: 62 }],
    mould: { name: 'blue foam', takesStyrene: false, maxC: 60 },
    mouldSealed: false,
    vacuumKPa: 80,
    postCureC: 65,
    ...more,
  });
  it('finds everything that is wrong', () => {
    expect(materialFacts(materials(), practice)).toEqual([
      { fact: 'eaten', what: 'core', name: 'white foam' },
      {
        fact: 'vacuum-high',
        cause: 'core',
        name: 'white foam',
        vacuumKPa: 80,
        mostKPa: 40,
      },
      { fact: 'too-hot', cause: 'post-cure', layer: 'white foam', peakC: 65, limitC: 62 },
      { fact: 'eaten', what: 'mould', name: 'blue foam' },
      {
        fact: 'vacuum-high',
        cause: 'styrene',
        name: 'A polyester',
        vacuumKPa: 80,
        mostKPa: 65,
      },
      { fact: 'too-hot', cause: 'post-cure', layer: 'blue foam', peakC: 65, limitC: 60 },
    ]);
  });
  it('finds nothing in an epoxy on a foam that takes it', () => {
    expect(
      materialFacts(
        materials({
          resin: { name: 'An epoxy', chemistry: 'epoxy' },
          vacuumKPa: 35,
          postCureC: null,
        }),
        practice,
      ),
    ).toEqual([]);
  });
  it('keeps styrene off a sealed mould', () => {
    const facts = materialFacts(materials({ mouldSealed: true, cores: [] }), practice);
    expect(facts.some((fact) => fact.fact === 'eaten')).toBe(false);
  });
});
