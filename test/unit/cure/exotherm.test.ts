import { describe, expect, it } from 'vitest';
import { hotCup, hotLayers } from '../../../app/cure/exotherm.ts';
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

describe('a hot cup', () => {
  it('is said with its peak and the largest batch that stays workable', () => {
    const potLife = potLifeOf(fastModel, practice);
    const minutes = potLife(200, 22);
    const { largestG, peakC, runsAway } = hotCup(
      fastModel,
      { massG: 500, roomC: 22 },
      minutes,
      practice,
    )!;
    expect(runsAway).toBe(true);
    expect(peakC).toBeGreaterThan(100);
    expect(largestG).toBeGreaterThan(198);
    expect(largestG).toBeLessThan(202);
  });
  it('lives longer in a shallow tray, and a thin film of it is no fact', () => {
    const minutes = 0.9 * potLifeOf(fastModel, practice)(500, 22);
    const cup = largestBatchFor(fastModel, minutes, { roomC: 22 }, practice);
    const tray = largestBatchFor(
      fastModel,
      minutes,
      { roomC: 22, vessel: 'tray', depthMm: 5 },
      practice,
    );
    expect(tray).toBeGreaterThan(cup);
    expect(
      hotCup(model, { massG: 300, roomC: 18, vessel: 'tray', depthMm: 1 }, 10, practice),
    ).toBeNull();
    expect(hotCup(model, { massG: 300, roomC: 18 }, 10, practice)).toBeNull();
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
    expect(hotLayers(thin)).toEqual([]);
  });
  it('is a fact for core and mould in thick ones', () => {
    expect(hotLayers(stack(8)).map(({ layer }) => layer)).toEqual(['foam', 'board']);
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
