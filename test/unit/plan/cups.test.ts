/** Batches through the whole plan: pot life of resin as it is mixed, split as far as is sensible. */
import { describe, expect, it } from 'vitest';
import type { Build } from '../../../app/document/schema.ts';
import { largestBatchFor, mixedC, potLifeOf } from '../../../app/cure/pot.ts';
import { sheetDataOf } from '../../../app/shop/sheetData.ts';
import { mixCards } from '../../../app/shop/mixCard.ts';
import { practice } from '../cure/practice-rows.ts';
import { planFor, ROOMY } from '../judge/builds.ts';

const inRoom = (day: number, hardener: string, crew = ROOMY.crew): Build => ({
  ...ROOMY,
  ...(crew ? { crew } : {}),
  resin: { ...ROOMY.resin, hardener },
  room: { temperatureC: { day, night: day - 2 } },
});

describe('pot life of a batch', () => {
  const outcome = planFor(inRoom(17, 'medium'), 'first');
  const { mixes } = outcome.result;
  const potLife = potLifeOf(outcome.detail.model, practice);

  it('is that of warmed resin in a cup that stands in the room', () => {
    expect(mixes.length).toBeGreaterThan(0);
    expect(mixedC(17, practice)).toBe(practice('resin-mixed-c'));
    expect(mixedC(28, practice)).toBe(28);
    for (const mix of mixes) {
      const minutes = mix.potLifeMin!;
      expect(Math.abs(minutes - potLife(mix.totalG, 17, practice('resin-mixed-c')))).toBeLessThan(
        1,
      );
      expect(minutes).toBeLessThan(0.85 * potLife(mix.totalG, 17));
    }
  });

  it('says on its card at what temperature it is mixed', () => {
    const cards = JSON.stringify(mixCards(sheetDataOf(outcome)));
    expect(cards).toContain(`mixed at ${practice('resin-mixed-c')} °C`);
  });
});

describe('the largest batch that is offered', () => {
  it('is no larger than the largest cup, however slow the resin', () => {
    const { model } = planFor(inRoom(20, 'slow'), 'first').detail;
    const most = practice('batch-max-g');
    const grams = [30, 5, 0.01].map((minutes) =>
      largestBatchFor(model, minutes, { roomC: 15, resinC: 20 }, practice),
    );
    expect(grams[2]!).toBeCloseTo(most, -1);
    for (const massG of grams) expect(massG).toBeLessThanOrEqual(most);
  });
});

describe('the size of a batch', () => {
  const alone = [{ name: 'Ida Moss' }];
  const results = [inRoom(20, 'slow'), inRoom(26, 'fast', alone)].map(
    (document) => planFor(document, 'full').result,
  );
  const hot = results.map(({ findings }) => findings.filter(({ code }) => code === 'pot-runaway'));

  it('never exceeds the largest cup', () => {
    const mixes = results.flatMap((result) => result.mixes);
    expect(mixes.length).toBeGreaterThan(6);
    for (const { totalG } of mixes) expect(totalG).toBeLessThanOrEqual(practice('batch-max-g'));
  });

  it('is warned of once, and never where it could be split as shops usually do', () => {
    expect(new Set(hot.map(({ length }) => length))).toEqual(new Set([0, 1]));
    for (const { numbers, message } of hot.flat()) {
      expect(Number(numbers['massG'])).toBeLessThan(2 * practice('batch-min-g'));
      expect(message).toMatch(/not worth mixing|Batches of \d+ g, \d more of them/);
    }
  });
});
