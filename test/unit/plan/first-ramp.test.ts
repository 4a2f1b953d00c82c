import { describe, expect, it } from 'vitest';
import type { PostCureStep } from '../../../app/cure/tg.ts';
import { firstRampMinutes } from '../../../app/plan/postCure.ts';

const step = (kind: PostCureStep['kind'], minutes: number): PostCureStep => ({
  kind,
  fromC: 20,
  toC: 20,
  minutes,
});

describe('the first ramp of a post-cure', () => {
  it('lasts from heat on until it holds or cools', () => {
    expect(firstRampMinutes([step('ramp', 60), step('ramp', 30), step('hold', 480)])).toBe(90);
  });

  it('includes a hold before it, in which the part is too soft for any heat', () => {
    expect(firstRampMinutes([step('hold', 15), step('ramp', 240), step('hold', 480)])).toBe(255);
  });

  it('is none where nothing rises', () => {
    expect(firstRampMinutes([step('hold', 480), step('cool', 60)])).toBe(0);
  });
});
