import { describe, expect, it } from 'vitest';
import { practiceOf } from '../../../app/document/library.ts';
import type { Build } from '../../../app/document/schema.ts';
import { FIRST_ANSWER } from '../../../app/plan/outcome.ts';
import { plan } from '../../../app/answer/plan.ts';
import { isoToMinute } from '../../../app/time/zone.ts';
import { askBatch } from '../../../app/cure/batch-question.ts';
import { cureStory, placedCures } from '../../../app/plan/cureStory.ts';
import { stackHeat } from '../../../app/plan/reactionHeat.ts';
import { setRoomFromLog } from '../../../app/document/edit/room.ts';
import { compareLog } from '../../../app/plan/logCompare.ts';
import { surfaceTable } from '../../../app/plan/surfaces.ts';
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

  it('names the largest batch that lasts and is held: it does, and a tenth more does not', () => {
    const wantedMinutes = answer.outcomes[0]!.result.heldMinutes! * 1.05;
    const { largestG } = askBatch(model, { ...question, wantedMinutes }, lookup);
    expect(largestG).toBeGreaterThan(0);
    expect(largestG).toBeLessThan(question.massG);
    const lasts = (massG: number) => {
      const { result } = askBatch(model, { ...question, massG }, lookup).outcomes[0]!;
      const enough = wantedMinutes * 0.999;
      return result.potLifeMinutes! >= enough && (result.heldMinutes ?? Infinity) >= enough;
    };
    expect(lasts(largestG)).toBe(true);
    expect(lasts(largestG * 1.1)).toBe(false);
  });

  it('never names a batch larger than the largest cup, however short the work', () => {
    const { largestG, mostG } = askBatch(model, { ...question, wantedMinutes: 1 }, lookup);
    expect(largestG).toBe(mostG);
    expect(mostG).toBe(lookup('batch-max-g'));
  });
});

describe('a cure told through', () => {
  const cure = placedCures(outcome)[0]!;
  const story = cureStory(outcome, cure.id)!;
  const at = (key: string) => story.moments.find(({ milestone }) => milestone === key)!.at!;

  it('has its moments in the order of the cure, and those of the plan', () => {
    const order = ['open', 'gel', 'tackFree', 'debag', 'demould', 'sand'].map(at);
    expect(order).toEqual([...order].sort((a, b) => a - b));
    expect(at('gel')).toBe(isoToMinute(cure.gel!));
    expect(at('debag')).toBe(isoToMinute(cure.debagFrom!));
    expect(at('open')).toBe(isoToMinute(cure.openUntil!));
  });

  it('says that a baked paint is too hot for a room cure, and what heat would do', () => {
    const { glass } = story;
    expect(glass.bakeC).toBe(60);
    expect(glass.neededC).toBe(60 + lookup('tg-margin-c'));
    expect(glass.restC).toBeLessThan(glass.neededC);
    expect(glass.demouldC!).toBeLessThanOrEqual(glass.restC);
    const { postCure } = glass;
    if (!postCure?.possible) throw new Error('a post-cure gets there');
    expect(postCure.reachesTgC).toBeGreaterThanOrEqual(glass.neededC - 0.5);
    // No tent in this shop: what would help is said, and not planned.
    expect(glass.postCurePlace).toBeNull();
    expect(glass.tgC).toBe(glass.restC);
  });

  it('knows how long each face waits', () => {
    const { lines } = surfaceTable(outcome, story);
    const [on, stripped, bare, coated] = lines;
    expect(on!.keepsUntil).toBe(story.sealed + lookup('peel-ply-keeps-days') * 1440);
    expect(stripped!.keepsUntil!).toBeGreaterThan(story.sealed);
    expect(stripped!.keepsUntil!).toBeLessThan(on!.keepsUntil!);
    expect(bare).toMatchObject({ within: 'none', after: 'wash-and-abrade' });
    expect(bare!.keepsUntil).toBe(at('bondUntil'));
    expect(coated).toMatchObject({ keepsUntil: null, within: 'wash-and-abrade' });
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
    const change = setRoomFromLog({ name: 'x' }, 18.74, 14.26);
    expect(change.document.room?.temperatureC).toEqual({ day: 18.5, night: 14.5 });
  });
});
