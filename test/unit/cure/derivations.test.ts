import { describe, expect, it } from 'vitest';
import { cureClock } from '../../../app/cure/clock.ts';
import { explainBatch, explainMilestone } from '../../../app/cure/derivations.ts';
import { fitSheet } from '../../../app/cure/fit.ts';
import { potLifeOf } from '../../../app/cure/pot.ts';
import { hardenerWith, library, practice, shippedHardeners } from './practice-rows.ts';

const [, hardener] = shippedHardeners[1]!;
const model = fitSheet(hardener, practice);
const clock = cureClock(model, [{ start: 0, end: 20_000, temperatureC: 19 }]);

describe('a figure of the chemistry, opened', () => {
  it('a milestone shows the rows it stands on and comes to what the clock says', () => {
    const { inputs, results, source } = explainMilestone(
      model,
      hardener,
      clock,
      100,
      'gel',
      library,
    );
    const rows = inputs.filter((input) => input.name.startsWith('Sheet'));
    expect(rows.map((row) => row.value)).toEqual(
      hardener.sheet.filter((row) => row.what === 'film-gel').map((row) => row.minutes),
    );
    expect(rows[0]!.provenance).toEqual(hardener.provenance);
    expect(results.at(-1)!.value).toBe((clock.reached(100, 'gel')! - 100) / 60);
    expect(source).toMatch(/ASTM C1074/);
  });

  it('one without a row of its own shows the practice it was taken from', () => {
    const bare = hardenerWith([{ what: 'film-gel', temperatureC: 20, minutes: 200 }]);
    const fitted = fitSheet(bare, practice);
    const { inputs } = explainMilestone(
      fitted,
      bare,
      cureClock(fitted, [{ start: 0, end: 20_000, temperatureC: 20 }]),
      0,
      'debag',
      library,
    );
    expect(inputs.some((input) => input.provenance?.kind === 'common-practice')).toBe(true);
  });

  it('one that is never reached has a dose and no time', () => {
    const cold = cureClock(model, [{ start: 0, end: 600, temperatureC: 5 }]);
    const { results } = explainMilestone(model, hardener, cold, 0, 'full', library);
    expect(results.map((result) => result.unit)).toEqual(['h at 20 °C']);
  });

  it('a batch comes to its pot life', () => {
    const { results, inputs } = explainBatch(model, hardener, { massG: 300, roomC: 21 }, library);
    expect(results[0]!.value).toBeCloseTo(potLifeOf(model, practice)(300, 21), 1);
    expect(inputs.find((input) => input.name === 'Heat of reaction')!.value).toBe(
      hardener.heatOfReactionJG,
    );
  });

  it('corrected at the bench says by how much', () => {
    const corrected = { ...hardener, bench: { filmTimes: 1.2, cupPace: 0.9 } };
    const milestone = explainMilestone(model, corrected, clock, 100, 'gel', library);
    expect(milestone.inputs.find(({ name }) => name.startsWith('Smear'))).toMatchObject({
      value: 1.2,
      provenance: { kind: 'measured' },
    });
    const batch = explainBatch(model, corrected, { massG: 300, roomC: 20 }, library);
    expect(batch.inputs.find(({ name }) => name.startsWith('Leftover cup'))?.value).toBe(0.9);
  });
});
