import { describe, expect, it } from 'vitest';
import { askBatch } from '../../../app/cure/batch-question.ts';
import { fitSheet } from '../../../app/cure/fit.ts';
import { practiceOf } from '../../../app/document/library.ts';
import { isoToMinute } from '../../../app/time/zone.ts';
import { batchDrawing } from '../../../renderer/chemistry/batch/batch.ts';
import { postCureWords } from '../../../renderer/words/cure.ts';
import { sheetDrawing } from '../../../renderer/chemistry/sheet/sheetCurves.ts';
import { dayTicks } from '../../../renderer/charts/timeTicks.ts';
import { library } from '../../library.ts';

const lookup = practiceOf(library);
const hardener = library.resins
  .find(({ id }) => id === 'orrin-40')!
  .hardeners.find(({ id }) => id === 'medium')!;
const model = fitSheet(hardener, lookup);

describe('a batch asked about', () => {
  const question = {
    massG: 800,
    vessel: 'cup',
    depthMm: 10,
    roomC: 25,
    resinC: 25,
    wantedMinutes: 40,
  } as const;
  const answer = askBatch(model, question, lookup);

  it('is drawn until it is over, and no further', () => {
    const { x, series } = batchDrawing(answer, question.roomC);
    const peak = Math.max(...answer.outcomes.map(({ result }) => result.peakMinutes));
    expect(x.max!).toBeGreaterThan(peak);
    for (const { points } of series) expect(points.every((p) => p.x <= x.max!)).toBe(true);
  });
});

describe('the fitted curve over its rows', () => {
  it('has every row of the sheet as a mark', () => {
    const { series, x, y } = sheetDrawing(hardener, model, lookup);
    const marks = series.filter(({ marks }) => marks !== undefined).flatMap(({ points }) => points);
    expect(marks).toHaveLength(hardener.sheet.length);
    for (const mark of marks) {
      expect(mark.x).toBeGreaterThan(x.min!);
      expect(mark.x).toBeLessThan(x.max!);
      expect(mark.y).toBeLessThan(y.max!);
    }
  });
});

describe('a post-cure told', () => {
  it('is a ramp at its full rate and one slower ramp where the part’s own Tg holds it back', () => {
    const slowed = (fromC: number) => ({
      kind: 'ramp' as const,
      fromC,
      toC: fromC + 0.5,
      minutes: 15,
    });
    const plan = {
      possible: true as const,
      holdC: 60,
      reachesTgC: 74.6,
      steps: [
        { kind: 'ramp', fromC: 20, toC: 59, minutes: 240 },
        slowed(59),
        slowed(59.5),
        { kind: 'hold', fromC: 60, toC: 60, minutes: 480 },
        { kind: 'cool', fromC: 60, toC: 40, minutes: 60 },
      ] as const,
      minutes: 810,
    };
    const steps = [
      '20 to 59 °C in 4 h, up',
      '59 to 60 °C in 30 min, up',
      '60 °C, hold 8 h',
      '60 to 40 °C in 1 h, down, under support',
    ];
    expect(postCureWords(plan, { postCurePlace: 'mould', bakeC: 50 })).toEqual([
      ...steps,
      'On the mould, bagged, before fairing.',
    ]);
    expect(postCureWords(plan, { postCurePlace: 'supports', bakeC: 50 }).at(-1)).toBe(
      'On supports, after the last cure, before fairing.',
    );
  });

  it('that no heat reaches asks for another hardener', () => {
    const none = { possible: false, reason: 'resin', wantedC: 90, limitC: 70 } as const;
    const words = (bakeC: number | null) =>
      postCureWords(none, { postCurePlace: null, bakeC }).join(' ');
    expect(words(60)).toContain('ends at 70 °C');
    expect(words(60)).toContain('air-dry');
    expect(words(null)).not.toContain('air-dry');
  });
});

describe('ticks of a time axis', () => {
  it('are midnights of the build’s own clock, also over a change of the clocks', () => {
    const from = isoToMinute('2027-10-29T12:00+01:00')!;
    const to = isoToMinute('2027-11-02T12:00+00:00')!;
    const ticks = dayTicks(from, to, 'Europe/Lisbon', 5);
    expect(ticks.map(({ label }) => label)).toEqual([
      'Sat 30 Oct',
      'Sun 31 Oct',
      'Mon 1 Nov',
      'Tue 2 Nov',
    ]);
    expect(ticks[2]!.value - ticks[1]!.value).toBe(25 * 60);
  });
});
