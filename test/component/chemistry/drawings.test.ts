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

const ROOM = { roomC: 20, afterGelHours: 12 };

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
    expect(postCureWords(plan, { postCurePlace: 'mould', bakeC: 50, beginsTgC: 40 }, ROOM)).toEqual(
      [
        ...steps,
        'On the mould, its bag off, before fairing.',
        'The rise is reckoned from a Tg of about 40 °C at heat on, the earliest that any plan may heat: bags off ' +
          'by their own time, gel 12 h past. Heat on later is safe by it; sooner is not.',
      ],
    );
    const onSupports = { postCurePlace: 'supports', bakeC: 50, beginsTgC: null } as const;
    expect(postCureWords(plan, onSupports, ROOM).slice(-2)).toEqual([
      'On supports, after the last cure, before fairing.',
      'The sheet gives no curve: what the part stands on the way up is not known. Ask the maker for the rise; ' +
        'heat off if anything sags or prints.',
    ]);
  });

  it('that no heat reaches asks for another hardener', () => {
    const words = (bakeC: number | null, reason: 'resin' | 'cure' | 'sheet' = 'resin') =>
      postCureWords(
        { possible: false, reason, wantedC: 90, limitC: 70 },
        { postCurePlace: null, bakeC, beginsTgC: null },
        ROOM,
      ).join(' ');
    expect(words(60)).toContain('reaches no more than 70 °C');
    expect(words(60, 'cure')).toBe(
      'No post-cure gets there: heat has to stay below what the part stands by then, and it has cured so little ' +
        'that heat cannot rise above 70 °C. Until it has been post-cured it takes neither ' +
        'bake nor sun. Cure it warmer under its bag first, or take another hardener, or ask for an air-dry finish.',
    );
    expect(words(null, 'sheet')).toBe(
      'No post-cure is planned: the sheet gives no Tg, so what heat would bring is not known. Ask the maker for ' +
        'the Tg and the post-cure that gives it, and write both into the library. Or take another hardener.',
    );
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
