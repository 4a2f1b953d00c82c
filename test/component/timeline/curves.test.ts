import { describe, expect, test } from 'vitest';
import type { CureDetail } from '../../../app/plan/outcome.ts';
import { curvesOf } from '../../../renderer/charts/curves.ts';
import { at, handMadeOutcome } from '../../unit/shop/outcome.ts';

/** The drawing takes the moments from the result. */
const NOT_PLACED: CureDetail['times'] = {
  firstMix: null,
  bagMix: null,
  sealed: null,
  bagBy: null,
  open: null,
  gel: null,
  gelLatest: null,
  tackFree: null,
  debagFrom: null,
  demouldFrom: null,
  sandFrom: null,
  bondUntil: null,
  fullFrom: null,
  minC: null,
  maxC: null,
  tgAtDemouldC: null,
  tgC: null,
};
const outcome = handMadeOutcome();
const curves = curvesOf(outcome, null)!;

describe('curves of the cures', () => {
  test('the temperature steps with the profile and covers the whole drawing', () => {
    expect(curves.temperature[0]).toEqual({ x: curves.span.start, y: 20 });
    expect(curves.temperature.at(-1)).toEqual({ x: curves.span.end, y: 16 });
    expect(curves.temperature).toContainEqual({ x: at('2027-03-26T19:00'), y: 16 });
  });

  test('moments lie on the curve between its samples', () => {
    const gel = curves.lines[0]!.moments.find(({ key }) => key === 'gel')!;
    expect(gel.x).toBe(at('2027-03-26T19:20'));
    // 500 of the first 600 minutes, which go from 0 to 20 %.
    expect(gel.y).toBeCloseTo(16.667, 2);
    expect(gel.words).toBe('Gel from Fri 26 Mar 19:20');
  });

  test('the words say what the picture shows', () => {
    const said = Object.fromEntries(
      curves.lines[0]!.figures.map(({ label, value }) => [label, value]),
    );
    expect(said).toMatchObject({ Part: '16 to 20 °C', Gel: 'Fri 26 Mar 19:20 to 22:40' });
  });

  test('one cure may be picked; an unknown one has no curve', () => {
    expect(curvesOf(outcome, 'skin')?.lines).toHaveLength(1);
    expect(curvesOf(outcome, 'closeout')).toBeNull();
  });

  test('a tent over a bag is in the temperature while it stands, and nowhere else', () => {
    const [from, to] = [at('2027-03-26T12:00'), at('2027-03-26T17:00')];
    const made = {
      hardener: 'slow',
      model: outcome.detail.model,
      profile: [
        { start: at('2027-03-22T00:00'), end: from, temperatureC: 20 },
        { start: from, end: to, temperatureC: 40 },
        { start: to, end: at('2027-04-12T00:00'), temperatureC: 16 },
      ],
      heat: { start: from, end: to, hottestC: 40 },
      times: NOT_PLACED,
      glass: null,
    };
    const detail = { ...outcome.detail, cures: { skin: made } };
    const { temperature } = curvesOf({ ...outcome, detail }, null)!;
    const later = temperature.filter(({ x }) => x > from);
    expect(temperature).toContainEqual({ x: from, y: 40 });
    expect(later[0]).toEqual({ x: to, y: 20 });
    expect(temperature).toContainEqual({ x: at('2027-03-26T19:00'), y: 16 });
  });
});
