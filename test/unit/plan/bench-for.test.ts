/** What smear and leftover cup said of one cure: it alone is corrected, or all of its lot. */
import { describe, expect, it } from 'vitest';
import { plan } from '../../../app/answer/plan.ts';
import { keepLotsOfBegun, setCureLot } from '../../../app/document/edit/lots.ts';
import { lotOf } from '../../../app/document/hardener.ts';
import { setBench, setCureBench, takeBench } from '../../../app/cure/sheet-edit.ts';
import type { Build } from '../../../app/document/schema.ts';
import { FIRST_ANSWER } from '../../../app/plan/outcome.ts';
import { compareLog, loggedCures } from '../../../app/plan/logCompare.ts';
import { movedBetween } from '../../../app/shop/floor/foreseen.ts';
import { isoToMinute } from '../../../app/time/zone.ts';
import { library, NOW, smallBuild } from '../../support/builds.ts';

const document: Build = {
  ...smallBuild(),
  route: { joints: { 'skin-core': 'apart', 'core-inner': 'apart' } },
};
const planned = (build: Build) => plan(build, library(), NOW, FIRST_ANSWER);
const before = planned(document);
const SLOW = { filmTimes: 1.4, cupPace: 1 };
const QUICK_POT = { filmTimes: 1, cupPace: 2 };
type Planned = typeof before;

/** Minutes from first mix to the earliest gel. */
const gelAfter = ({ result }: Planned, cure: string): number => {
  const { firstMix, gel } = result.cures.find(({ id }) => id === cure)!;
  return isoToMinute(gel!)! - isoToMinute(firstMix!)!;
};
const potLife = ({ result }: Planned, cure: string): number =>
  Math.min(...result.mixes.filter((mix) => mix.cure === cure).map((mix) => mix.potLifeMin!));
const skinAlone = (bench: typeof SLOW) =>
  planned(setCureBench(document, ['skin'], bench, 'Smear', 'x').document as Build);

describe('one cure alone', () => {
  it('a smear slows the film of that cure, and moves no other curve', () => {
    const after = skinAlone(SLOW);
    expect(gelAfter(after, 'skin') / gelAfter(before, 'skin')).toBeCloseTo(1.4, 1);
    for (const cure of ['core', 'inner']) {
      expect(after.detail.cures[cure]!.model.doseHours).toEqual(
        before.detail.cures[cure]!.model.doseHours,
      );
    }
    expect(potLife(after, 'skin')).toBeCloseTo(potLife(before, 'skin'), 0);
  });

  it('a leftover cup shortens the pot of that cure, and no time of its film', () => {
    const after = skinAlone(QUICK_POT);
    expect(potLife(after, 'skin')).toBeLessThan(0.8 * potLife(before, 'skin'));
    expect(after.detail.cures['skin']!.model.doseHours).toEqual(
      before.detail.cures['skin']!.model.doseHours,
    );
    expect(potLife(after, 'inner')).toBe(potLife(before, 'inner'));
  });

  it('goes before what was said of the hardener, and is taken out again', () => {
    const { system, hardener } = document.resin;
    const all = setBench(document, library(), hardener, SLOW, 'Smear', 'x')!.document as Build;
    expect(all.resin.system).toBe(system);
    const own = setCureBench(all, ['skin'], { ...SLOW, filmTimes: 1 }, 'Smear', 'x');
    expect(gelAfter(planned(own.document as Build), 'skin')).toBe(gelAfter(before, 'skin'));
    const out = setCureBench(own.document, ['skin'], null, 'Smear', 'out').document as Build;
    expect(out.resin.benchFor).toEqual({});
    expect(gelAfter(planned(out), 'skin') / gelAfter(before, 'skin')).toBeCloseTo(1.4, 1);
  });

  it('what moves is listed before it is taken, and nothing where nothing changes', () => {
    const after = skinAlone(SLOW);
    const moves = movedBetween(before.result, after.result);
    const starts = new Map(before.result.stages.map(({ id, start }) => [id, start]));
    expect(moves.map(({ stage }) => stage)).toContain('bag-off:skin');
    for (const { stage, from, to } of moves) {
      expect(from).toBe(starts.get(stage));
      expect(to).not.toBe(from);
    }
    expect(movedBetween(before.result, before.result)).toEqual([]);
  });
});

describe('where lots have no names', () => {
  it('every cure of that hardener is corrected', () => {
    const all = setBench(document, library(), document.resin.hardener, SLOW, 'Smear', 'x')!;
    const after = planned(all.document as Build);
    for (const { id } of before.result.cures) {
      expect(gelAfter(after, id) / gelAfter(before, id)).toBeGreaterThan(1.2);
    }
  });
});

describe('a named lot', () => {
  const film = ({ detail }: Planned, cure: string) => detail.cures[cure]!.model.doseHours.gel!;
  const layup = { stage: 'layup:skin', start: '2027-05-03T08:00', end: '2027-05-03T10:00' };
  const named: Build = { ...document, resin: { ...document.resin, lot: 'A17' }, records: [layup] };
  const opened = (build: Build): Build => {
    const kept = keepLotsOfBegun(build) as Build;
    return { ...kept, resin: { ...kept.resin, lot: 'B03' } };
  };
  const of = (build: Build, cure: string) => {
    const lot = lotOf(planned(build).detail.build, [cure]);
    return { hardener: document.resin.hardener, layups: [cure], lot };
  };
  const taken = (build: Build, cure: string, bench: typeof SLOW | null) =>
    takeBench(build, library(), of(build, cure), 'lot', bench, 'Smear', 'x')!.document as Build;

  it('a cure that has begun keeps its lot when another is opened; those to come are of the new one', () => {
    const build = opened(named);
    expect(['skin', 'core', 'inner'].map((cure) => of(build, cure).lot)).toEqual([
      'A17',
      'B03',
      'B03',
    ]);
    expect(keepLotsOfBegun(document)).toBe(document);
    expect(keepLotsOfBegun({ ...named, records: [{ ...layup, takenBack: true }] })).toEqual({
      ...named,
      records: [{ ...layup, takenBack: true }],
      resin: { ...named.resin, lotFor: {} },
    });
  });

  it('a smear of one of its cures corrects all of the lot and none of another', () => {
    const build = opened(named);
    const after = planned(taken(build, 'core', SLOW));
    const before = planned(build);
    const ratio = (cure: string) => film(after, cure) / film(before, cure);
    expect(ratio('core')).toBeCloseTo(1.4, 6);
    expect(ratio('inner')).toBeCloseTo(1.4, 6);
    expect(ratio('skin')).toBe(1);
    const out = planned(taken(taken(build, 'core', SLOW), 'inner', null));
    expect(film(out, 'core')).toBe(film(before, 'core'));
  });

  it('a correction moves with a cure that is said to be of another lot; one of a cure alone stays', () => {
    const build = taken(opened(named), 'core', SLOW);
    const moved = setCureLot(build, ['inner'], 'A17', 'Lot').document as Build;
    expect(film(planned(moved), 'inner')).toBe(film(before, 'inner'));
    const back = setCureLot(moved, ['inner'], null, 'Lot').document as Build;
    expect(film(planned(back), 'inner') / film(before, 'inner')).toBeCloseTo(1.4, 6);
    const alone = setCureBench(back, ['inner'], { ...SLOW, filmTimes: 1 }, 'Smear', 'x');
    expect(film(planned(alone.document as Build), 'inner')).toBe(film(before, 'inner'));
    expect(film(planned(alone.document as Build), 'core') / film(before, 'core')).toBeCloseTo(1.4);
  });
});

describe('a logger', () => {
  const hardener = library()
    .resins.find(({ id }) => id === document.resin.system)!
    .hardeners.find(({ id }) => id === document.resin.hardener)!;
  const log = (start: number) => [{ start, end: start + 600, temperatureC: 18 }];

  it('of the days of a cure names it; one of other days names none', () => {
    const skin = before.result.cures.find(({ id }) => id === 'skin')!;
    const mixed = isoToMinute(skin.firstMix!)!;
    expect(compareLog(before, hardener, log(mixed - 60)).cures).toEqual([skin.name]);
    expect(compareLog(before, hardener, log(mixed - 600)).cures).toEqual([]);
    expect(compareLog(before, hardener, log(NOW - 30 * 1440)).cures).toEqual([]);
  });

  it('that lay by a cure corrects its gel, alone or with its lot, and no other room', () => {
    const skin = before.result.cures.find(({ id }) => id === 'skin')!;
    const mixed = isoToMinute(skin.firstMix!)!;
    const cold = [{ start: mixed - 60, end: mixed + 2880, temperatureC: 16 }];
    const seen = loggedCures(before, library(), cold);
    const logged = seen.find(({ cure }) => cure === 'skin')!;
    expect(logged.loggedMinutes).toBeGreaterThan(logged.plannedMinutes);
    expect(logged.filmTimes).toBeCloseTo(logged.loggedMinutes / logged.plannedMinutes, 6);
    const bench = { filmTimes: logged.filmTimes, cupPace: 1 };
    const taken = (scope: 'cure' | 'lot') =>
      planned(takeBench(document, library(), logged, scope, bench, 'Log', 'x')!.document as Build);
    const own = taken('cure');
    expect(gelAfter(own, 'skin') / gelAfter(before, 'skin')).toBeCloseTo(logged.filmTimes, 1);
    const film = ({ detail }: Planned, cure: string) => detail.cures[cure]!.model.doseHours;
    expect(film(own, 'core')).toEqual(film(before, 'core'));
    const all = taken('lot');
    expect(film(all, 'core').gel! / film(before, 'core').gel!).toBeCloseTo(logged.filmTimes, 6);
    expect(own.detail.build.room).toEqual(before.detail.build.room);
  });

  it('that ends before the gel, or begins after the mix, corrects nothing', () => {
    const skin = before.result.cures.find(({ id }) => id === 'skin')!;
    const mixed = isoToMinute(skin.firstMix!)!;
    const from = (start: number, end: number) =>
      loggedCures(before, library(), [{ start, end, temperatureC: 16 }]).map(({ cure }) => cure);
    expect(from(mixed - 60, mixed + 30)).not.toContain('skin');
    expect(from(mixed + 10, mixed + 2880)).not.toContain('skin');
  });
});
