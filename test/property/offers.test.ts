/** The three offers of the search over all levers against the list under them, over drawn fronts. */
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { FINISHES, type Build } from '../../app/document/schema.ts';
import { recommend } from '../../app/judge/recommend.ts';
import type { Choice } from '../../app/judge/search.ts';
import { forAll, tally } from '../support/draws.ts';

const choice = fc.record({
  fits: fc.boolean(),
  onTime: fc.integer({ min: 0, max: 10 }).map((tenth) => tenth / 10),
  costMinor: fc.integer({ min: 1, max: 9 }).map((step) => step * 10_000),
  massKg: fc.integer({ min: 30, max: 60 }).map((tenth) => tenth / 10),
  labourHours: fc.integer({ min: 10, max: 60 }),
  finish: fc.constantFrom(...FINISHES),
});
const front = fc.array(choice, { minLength: 1, maxLength: 9 }).map((drawn) =>
  drawn.map((one, i): Choice => ({
    ...one,
    id: `choice-${i}`,
    levers: [],
    route: 'skin/core',
    joints: {},
    document: {} as Build,
    lateBound: 0,
    lateMinutes: one.fits ? -60 : 60,
    onTimeCounted: true,
    codes: [],
  })),
);

it('no offer is called what another of the list is more of', () => {
  const seen = tally('surest', 'cheapest', 'next surest', 'none fits', 'all too heavy');
  forAll(
    fc.property(front, (listed) => {
      const offers = recommend(listed, { targetMassKg: 5, currency: 'EUR' });
      expect(new Set(offers.map((one) => one.choice.id)).size).toBe(offers.length);
      const fitting = listed.filter(({ fits }) => fits);
      const class_ = fitting.length > 0 ? fitting : listed;
      const light = class_.filter(({ massKg }) => massKg <= 5);
      const rivals = light.length > 0 ? light : class_;
      expect(offers).toHaveLength(Math.min(3, rivals.length));
      if (fitting.length === 0) seen.saw('none fits');
      if (light.length === 0) seen.saw('all too heavy');
      for (const { choice: one, why, sentence } of offers) {
        // What does not fit, or is too heavy, is never offered before what does and is not.
        expect(rivals).toContain(one);
        if (why.includes('surest')) {
          seen.saw('surest');
          expect(sentence).toMatch(/^Surest/);
          expect(one.onTime).toBe(Math.max(...rivals.map(({ onTime }) => onTime)));
        }
        if (why.includes('next-surest')) seen.saw('next surest');
        if (!why.includes('cheapest')) continue;
        seen.saw('cheapest');
        // Only what is less likely to be in time costs less.
        for (const cheaper of rivals.filter(({ costMinor }) => costMinor < one.costMinor)) {
          expect(cheaper.onTime).toBeLessThan(one.onTime);
        }
      }
    }),
    { seed: 4, seen, numRuns: 300 },
  );
});
