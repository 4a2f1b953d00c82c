import { describe, expect, it } from 'vitest';
import { practiceOf } from '../../../app/document/library.ts';
import type { Build } from '../../../app/document/schema.ts';
import { FIRST_ANSWER } from '../../../app/plan/outcome.ts';
import { plan } from '../../../app/answer/plan.ts';
import { isoToMinute } from '../../../app/time/zone.ts';
import { askBatch, batchDrawing, MOST_G } from '../../../renderer/chemistry/batch.ts';
import { cureStory, placedCures, postCureWords } from '../../../renderer/chemistry/cureStory.ts';
import { stackHeat } from '../../../renderer/chemistry/heat.ts';
import { compareLog, takeRoom } from '../../../renderer/chemistry/logCompare.ts';
import { sheetDrawing } from '../../../renderer/chemistry/sheetCurves.ts';
import { surfaceTable } from '../../../renderer/chemistry/surfaces.ts';
import { dayTicks } from '../../../renderer/chemistry/timeTicks.ts';
import { library } from '../../library.ts';

const lookup = practiceOf(library);
const build: Build = {
  name: 'Gull panel',
  zone: 'Europe/Lisbon',
  unveiling: '2027-07-02T18:00',
  part: {
    zones: [
      {
        areaM2: 0.8,
        outer: [{ cloth: 'carbon-twill-200' }],
        core: { material: 'pvc-80', thicknessMm: 10 },
        inner: [{ cloth: 'carbon-twill-200' }],
      },
    ],
  },
  resin: { system: 'orrin-40', hardener: 'medium' },
  crew: [{ name: 'Mina Vale' }, { name: 'Tor Aske' }],
  outside: [{ name: 'Painter', kind: 'paint', workingDays: 3, bakeC: 60 }],
};
const NOW = isoToMinute('2027-04-19T08:00+01:00')!;
const outcome = plan(build, library, NOW, FIRST_ANSWER);
const { model } = outcome.detail;
const hardener = library.resins
  .find(({ id }) => id === 'orrin-40')!
  .hardeners.find(({ id }) => id === 'medium')!;

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

  it('runs away in the cup and is cautioned; a tray is cooler and lives longer', () => {
    const [cup, half, tray] = answer.outcomes.map(({ result }) => result);
    expect(cup!.runsAway).toBe(true);
    expect(answer.cautions.join(' ')).toContain('outside on concrete');
    expect(tray!.peakC).toBeLessThan(cup!.peakC);
    expect(tray!.potLifeMinutes!).toBeGreaterThan(cup!.potLifeMinutes!);
    expect(half!.potLifeMinutes!).toBeGreaterThanOrEqual(cup!.potLifeMinutes!);
  });

  it('names the largest batch that lasts: it does, and a tenth more does not', () => {
    const wantedMinutes = answer.outcomes[0]!.result.potLifeMinutes! * 1.1;
    const { largestG } = askBatch(model, { ...question, wantedMinutes }, lookup);
    expect(largestG).toBeGreaterThan(0);
    expect(largestG).toBeLessThan(Math.min(MOST_G, question.massG));
    const lives = (massG: number) =>
      askBatch(model, { ...question, massG }, lookup).outcomes[0]!.result.potLifeMinutes!;
    expect(lives(largestG)).toBeGreaterThanOrEqual(wantedMinutes * 0.999);
    expect(lives(largestG * 1.1)).toBeLessThan(wantedMinutes);
  });

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

describe('a cure told through', () => {
  const cure = placedCures(outcome)[0]!;
  const story = cureStory(outcome, cure.id)!;
  const at = (key: string) => story.moments.find((moment) => moment.key === key)!.at!;

  it('has its moments in the order of the cure, and those of the plan', () => {
    const order = ['open', 'gel', 'tackFree', 'debag', 'demould', 'sand'].map(at);
    expect(order).toEqual([...order].sort((a, b) => a - b));
    expect(at('gel')).toBe(isoToMinute(cure.gel!));
    expect(at('debag')).toBe(isoToMinute(cure.debagFrom!));
    expect(at('open')).toBe(isoToMinute(cure.openUntil!));
  });

  it('says that a baked paint is too hot for a room cure, and what heat would do', () => {
    const { tg } = story;
    expect(tg.bakeC).toBe(60);
    expect(tg.neededC).toBe(60 + lookup('tg-margin-c'));
    expect(tg.stopsC!).toBeLessThan(tg.neededC);
    const words = postCureWords(tg.postCure!).join(' ');
    expect(words).toMatch(tg.postCure!.possible ? /before fairing/ : /takes|ends at/);
  });

  it('knows how long each face waits', () => {
    const { lines } = surfaceTable(outcome, story);
    const [on, stripped, bare, coated] = lines;
    expect(on!.keeps).toContain('until');
    expect(stripped!.keeps).toContain('when stripped at bag-off');
    expect(bare!.within).toBe('nothing');
    expect(bare!.after).toContain('abrade');
    expect(coated!.keeps).toBe('not at all');
    expect(coated!.within).toContain('abrade');
  });
});

describe('reaction heat', () => {
  const heatOf = (plies: number) => {
    const zone = build.part.zones[0]!;
    const outer = Array.from({ length: plies }, () => ({ cloth: 'carbon-twill-200' }));
    const resin = { system: 'orrin-40', hardener: 'slow' };
    const thick = {
      ...build,
      resin,
      part: { ...build.part, zones: [{ ...zone, areaM2: 0.1, outer }] },
    };
    const planned = plan(thick, library, NOW, FIRST_ANSWER);
    const id = planned.result.route.cures[0]!.id;
    return stackHeat(planned, cureStory(planned, id)!)!;
  };

  it('is left out of a thin skin', () => {
    expect(heatOf(1)).toMatchObject({ matters: false });
  });

  it('warms a thick one over the mould, the laminate most', () => {
    const heat = heatOf(20);
    if (!heat.matters) throw new Error('it matters');
    const [skin, mould] = [heat.layers[0]!, heat.layers.at(-1)!];
    expect(skin.limitC).toBeNull();
    expect(mould.limitC).toBeGreaterThan(0);
    // The room is at 20 C at most.
    expect(skin.peakC).toBeGreaterThan(21);
    expect(skin.peakC).toBeGreaterThanOrEqual(mould.peakC - 0.5);
  });
});

describe('a log beside the room', () => {
  const start = isoToMinute('2027-04-20T00:00+01:00')!;
  /** Three days at 24 C. */
  const warm = [{ start, end: start + 3 * 1440, temperatureC: 24 }];

  it('gels sooner in a log warmer than the room', () => {
    const { milestones, dayC, nightC } = compareLog(outcome, hardener, warm);
    expect([dayC, nightC]).toEqual([24, 24]);
    const [gel] = milestones;
    expect(gel!.logMinutes!).toBeLessThan(gel!.roomMinutes!);
  });

  it('sets the room to its day and night, to the half degree', () => {
    const change = takeRoom({ name: 'x' }, 18.74, 14.26);
    expect(change.document.room?.temperatureC).toEqual({ day: 18.5, night: 14.5 });
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
