import { describe, expect, it } from 'vitest';
import { neededTgC, postCureFor, tgFromCureC, type PostCureNeed } from '../../../app/cure/tg.ts';
import { practice } from './practice-rows.ts';

const need = (more: Partial<PostCureNeed> = {}): PostCureNeed => ({
  neededTgC: 72,
  bakeC: 60,
  fromC: 20,
  hardener: { tgFullC: 82, postCure: [{ temperatureC: 60, hours: 8 }] },
  mouldMaxC: 70,
  coreMaxC: 75,
  ...more,
});

describe('glass transition by practice', () => {
  it('stands 20 C above a room cure, as far as the resin goes', () => {
    expect(tgFromCureC(22, 82, practice)).toBe(42);
    expect(tgFromCureC(70, 82, practice)).toBe(82);
  });
  it('is needed above the hottest of bake and service', () => {
    expect(neededTgC(60, 50, practice)).toBe(72);
    expect(neededTgC(null, 50, practice)).toBe(62);
    expect(neededTgC(40, 75, practice)).toBe(87);
  });
});

describe('the post-cure', () => {
  it('rises at 10 C an hour at most, holds as the sheet says, cools to 40 C', () => {
    const plan = postCureFor(need(), practice);
    expect(plan).toMatchObject({ possible: true, holdC: 60, reachesTgC: 80 });
    if (!plan.possible) return;
    expect(plan.steps.map((s) => [s.kind, s.toC, s.minutes])).toEqual([
      ['ramp', 60, 240],
      ['hold', 60, 480],
      ['cool', 40, 120],
    ]);
    expect(plan.minutes).toBe(840);
  });
  it('is never cooler than the bake and never hotter than mould or core takes', () => {
    expect(postCureFor(need({ bakeC: 65 }), practice)).toMatchObject({ holdC: 65 });
    expect(postCureFor(need({ mouldMaxC: 55 }), practice)).toEqual({
      possible: false,
      reason: 'mould',
      wantedC: 60,
      limitC: 55,
    });
    expect(postCureFor(need({ coreMaxC: 58 }), practice)).toMatchObject({ reason: 'core' });
  });
  it('cannot lift a resin above its own highest', () => {
    expect(postCureFor(need({ neededTgC: 87 }), practice)).toMatchObject({
      possible: false,
      reason: 'resin',
      limitC: 82,
    });
  });
});
