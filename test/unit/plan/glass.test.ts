/** Heat against everything on the part: what each thing stands, and where the post-cure stands. */
import { describe, expect, it } from 'vitest';
import type { Build } from '../../../app/document/schema.ts';
import { joinedSteps, type PostCureStep } from '../../../app/cure/tg.ts';
import { LIBRARY, NOW, planFor, ROOMY, withPart, withZone } from '../judge/builds.ts';

const GLASS = { cloth: 'glass-twill-300' };
const CARBON = { cloth: 'carbon-twill-200' };
const BAKED: Build = {
  ...ROOMY,
  room: { ...ROOMY.room, tent: { maxC: 70 } },
  outside: [{ id: 'paint', name: 'Alder sprayers', workingDays: 2, bakeC: 60 }],
};
const closed = (document: Build): Build =>
  withZone(document, { closeout: { plies: [GLASS, GLASS] } });
const tgOf = (document: Build) => planFor(document).detail.tg!;
const endOf = (document: Build, id: string) =>
  planFor(document).result.stages.find((stage) => stage.id === id)?.end ?? null;
const startOf = (document: Build, id: string) =>
  planFor(document).result.stages.find((stage) => stage.id === id)?.start ?? null;
const after = (a: string | null, b: string | null) => Date.parse(a!) >= Date.parse(b!);

describe('what counts', () => {
  it('is every cure and the edge filler, weakest first', () => {
    const { members } = tgOf(closed(BAKED));
    expect(members.map(({ id }) => id).sort()).toEqual(
      ['closeout', 'core', 'edge-filler', 'inner', 'skin'].sort(),
    );
    const stands = members.map(({ withC }) => withC!);
    expect(stands).toEqual([...stands].sort((a, b) => a - b));
  });

  it('needs the hottest of bake and service and the margin, and says by what', () => {
    expect(tgOf(BAKED)).toMatchObject({
      neededC: 72,
      by: { kind: 'bake', party: 'paint', temperatureC: 60 },
    });
    const hot = tgOf(withPart(BAKED, { serviceMaxC: 65 }));
    expect(hot).toMatchObject({ neededC: 77, by: { kind: 'service', temperatureC: 65 } });
  });

  it('has the edge filler at the figure of the strips over it, and not at that of fairing filler', () => {
    const { members, coats } = tgOf(closed(BAKED));
    const [filler, strips] = ['edge-filler', 'closeout'].map((id) =>
      members.find((one) => one.id === id)!,
    );
    expect(filler!.withoutC).toBe(strips!.withoutC);
    expect(filler!.withC).toBe(strips!.withC);
    expect(filler!.withC).toBeGreaterThan(70);
    expect(
      coats.filter(({ name }) => name.includes('filler')).map(({ standsC }) => standsC),
    ).toEqual([50, 50]);
  });

  it('has an edge filler with a figure of its own at that, and at more only after heat', () => {
    const row = LIBRARY.consumables.find(({ use }) => use === 'edge-filler')!;
    const own = (document: Build): Build => ({
      ...document,
      library: { consumables: [{ ...row, standsC: 44 }] },
    });
    const of = (document: Build) =>
      tgOf(own(document)).members.find(({ id }) => id === 'edge-filler')!;
    const cold = { ...closed(BAKED), room: { ...BAKED.room, tent: null } };
    expect(of(cold)).toMatchObject({ withoutC: 44, withC: 44, short: true });
    expect(of(closed(BAKED)).withoutC).toBe(44);
    expect(of(closed(BAKED)).withC).toBeGreaterThan(70);
  });

  it('the result, cure by cure, is the same figure', () => {
    const { result, detail } = planFor(closed(BAKED));
    for (const cure of result.cures) {
      const member = detail.tg!.members.find(({ id }) => id === cure.id)!;
      expect(cure.tgC).toBeCloseTo(member.withC!, 1);
    }
  });
});

describe('the place of the post-cure', () => {
  it('is the mould, before demould, where nothing is laid after it', () => {
    const { choice } = tgOf(BAKED);
    expect(choice).toMatchObject({ way: 'mould', runs: [{ number: 1, place: 'mould' }] });
    expect(after(startOf(BAKED, 'demould'), endOf(BAKED, 'post-cure-takedown'))).toBe(true);
    // Nothing is faired before it.
    expect(after(startOf(BAKED, 'fair:1'), endOf(BAKED, 'post-cure'))).toBe(true);
  });

  it('is on supports after the closeout, and heats it too', () => {
    const build = closed(BAKED);
    const { choice, members } = tgOf(build);
    expect(choice!.way).toBe('supports');
    expect(after(startOf(build, 'post-cure-setup'), endOf(build, 'bag-off:closeout'))).toBe(true);
    expect(after(startOf(build, 'fair:1'), endOf(build, 'post-cure-takedown'))).toBe(true);
    for (const member of members) expect(member.short, member.id).toBe(false);
  });

  it('costs least of the ways that can be done, in hands, heat and days', () => {
    const { choice } = tgOf(closed(BAKED));
    const dearer = choice!.others.filter((one) => one.why === 'dearer');
    expect(dearer.map(({ way }) => way)).toEqual(['twice']);
    for (const one of dearer) expect(one.costMinor).toBeGreaterThanOrEqual(choice!.costMinor);
  });

  it('is not the mould where the mould grows away from carbon, by the heat really held', () => {
    // 5.5e-5 /K (from memory, as the row says) x 2000 mm x (hold - 21 C).
    const long = { sizeM: [2, 0.6] as [number, number], outer: [CARBON, CARBON], inner: [CARBON] };
    const { choice } = tgOf(withZone(BAKED, long));
    expect(choice!.way).toBe('supports');
    const locks = choice!.others.find((one) => one.why === 'locks')!;
    if (locks.why !== 'locks') throw new Error('locks');
    expect(locks.growthMm).toBeCloseTo(5.5e-5 * 2000 * (locks.heldC - 21), 9);
    const glass = { ...long, outer: [GLASS, GLASS], inner: [GLASS] };
    expect(tgOf(withZone(BAKED, glass)).choice!.way).toBe('mould');
  });

  it('an edge closed between two visits is past any post-cure and meets only what follows', () => {
    const build: Build = {
      ...closed(BAKED),
      closeoutAfter: 'paint',
      outside: [...BAKED.outside!, { id: 'top', name: 'Top coat', workingDays: 1, bakeC: 40 }],
    };
    const { members, choice } = tgOf(build);
    const edge = members.find(({ id }) => id === 'closeout')!;
    expect(edge).toMatchObject({ made: 'late', neededC: 52 });
    expect(edge.withC).toBe(edge.withoutC);
    expect(choice!.way).toBe('mould');
  });
});

describe('the heat itself', () => {
  it('does not depend on the hour at which is asked', () => {
    const cold: Build = {
      ...closed(BAKED),
      room: { ...BAKED.room, temperatureC: { day: 21, night: 12 } },
    };
    const at = (hour: number) =>
      planFor(cold, 'first', NOW + (hour - 7) * 60).detail.tg!.choice!.runs[0]!.plan;
    expect(at(3)).toEqual(at(16));
  });

  it('is reckoned from the Tg that everything has once its bag is off and gel well past', () => {
    const rested = (hours: number) => {
      const practice = LIBRARY.practice.map((row) =>
        row.id === 'postcure-after-gel-hours' ? { ...row, value: hours } : row,
      );
      const outcome = planFor(closed(BAKED), 'first', NOW, { ...LIBRARY, practice });
      const [run] = outcome.detail.tg!.choice!.runs;
      const heat = outcome.result.stages.find(({ id }) => id === 'post-cure')!;
      const gels = outcome.result.cures.map(({ gelLatest }) => Date.parse(gelLatest!));
      const wait = (Date.parse(heat.start!) - Math.max(...gels)) / 3_600_000;
      return { run: run!, wait };
    };
    const [soon, gelled, usual, late] = [rested(1), rested(4), rested(12), rested(60)];
    // Four hours after gel the bag is still on: no plan heats then, and no ramp counts on it.
    expect(soon.run.plan).toEqual(gelled.run.plan);
    expect(late.run.beginsTgC!).toBeGreaterThan(usual.run.beginsTgC! + 1);
    expect(late.run.plan.minutes).toBeLessThan(usual.run.plan.minutes);
    expect(usual.wait).toBeGreaterThanOrEqual(12);
    expect(late.wait).toBeGreaterThanOrEqual(60);
    // 10 K below that Tg it may stand at once.
    const [first] = usual.run.plan.steps;
    expect(first!.kind).toBe('ramp');
    expect(first!.toC).toBeGreaterThan(usual.run.beginsTgC! - 10 - 1);
  });

  it('for a filler that wants it hotter rises no faster than what else is on the part stands', () => {
    const row = LIBRARY.consumables.find(({ use }) => use === 'edge-filler')!;
    const soft = { ...closed(BAKED), library: { consumables: [{ ...row, standsC: 44 }] } };
    const practice = LIBRARY.practice.map((one) =>
      one.id === 'tg-over-cure-c' ? { ...one, value: 10 } : one,
    );
    const [run] = planFor(soft, 'first', NOW, { ...LIBRARY, practice }).detail.tg!.choice!.runs;
    expect(run!.plan.holdC).toBe(62);
    // At 5 K/h, the rate of supports, it would be there in 8.2 h.
    const rises = joinedSteps(run!.plan.steps).filter(({ kind }) => kind === 'ramp');
    expect(rises.length).toBe(2);
    expect(rises.reduce((sum, { minutes }) => sum + minutes, 0)).toBeGreaterThan(14 * 60);
  });

  it('as printed never stands over what the part stands by then, half a degree aside', () => {
    for (const document of [BAKED, closed(BAKED)]) {
      for (const { plan, place } of tgOf(document).choice!.runs) {
        expect(place).toBe(document === BAKED ? 'mould' : 'supports');
        const reached = (steps: readonly PostCureStep[], minutes: number) => {
          let left = minutes;
          for (const step of steps) {
            if (left <= step.minutes)
              return step.fromC + ((step.toC - step.fromC) * left) / step.minutes;
            left -= step.minutes;
          }
          return steps.at(-1)!.toC;
        };
        for (let at = 0; at < plan.minutes; at += 5) {
          expect(reached(joinedSteps(plan.steps), at)).toBeLessThan(reached(plan.steps, at) + 0.5);
        }
      }
    }
  });

  it('on supports rises slower than on the mould', () => {
    const rate = (document: Build) =>
      Math.max(
        ...tgOf(document)
          .choice!.runs.flatMap(({ plan }) => plan.steps)
          .filter(({ kind }) => kind === 'ramp')
          .map(({ fromC, toC, minutes }) => ((toC - fromC) / minutes) * 60),
      );
    expect(rate(BAKED)).toBeLessThanOrEqual(10 + 1e-9);
    expect(rate(closed(BAKED))).toBeLessThanOrEqual(5 + 1e-9);
    expect(rate(BAKED)).toBeGreaterThan(5);
  });

  it('is told in few steps that add up to the same', () => {
    const { plan } = tgOf(closed(BAKED)).choice!.runs[0]!;
    const told = joinedSteps(plan.steps);
    expect(told.length).toBeLessThanOrEqual(5);
    expect(told.reduce((sum, { minutes }) => sum + minutes, 0)).toBe(plan.minutes);
  });

  it('keeps to the tent, held longer where that is enough', () => {
    const hot = (maxC: number) => tgOf({ ...BAKED, room: { ...ROOMY.room, tent: { maxC } } });
    expect(hot(60).choice!.runs[0]!.plan.holdC).toBeLessThanOrEqual(60);
    expect(hot(55).choice).toBeNull();
    expect(hot(55).blocked).toMatchObject({ why: 'limit', limit: 'tent' });
    expect(hot(55).postCure!.possible).toBe(true);
  });
});
