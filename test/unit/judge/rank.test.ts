import { describe, expect, it } from 'vitest';
import type { Finish, JointState } from '../../../app/document/schema.ts';
import { bestRoute, takenReason, type JudgedRoute } from '../../../app/judge/rank.ts';
import { takenWords } from '../../../app/messages/ranking.ts';
import { FULL_ANSWER } from '../../../app/plan/outcome.ts';
import { plan } from '../../../app/answer/plan.ts';
import { shippedSamples } from '../../../main/samples.ts';
import { library, NOW, read } from '../../support/builds.ts';

interface Counts {
  readonly end: number;
  readonly hours: number;
  readonly cost: number;
  readonly kg: number;
  readonly finish?: Finish;
  readonly late?: number;
  readonly gelsUnseen?: number;
}

/** A planned route with these counts and nothing else that ranking reads. */
const route = (
  id: string,
  { end, hours, cost, kg, finish = 'clear', late = -1, gelsUnseen = 0 }: Counts,
  joint: JointState = id.includes('+') ? 'one-bag' : 'apart',
) =>
  ({
    reasons: [],
    plan: {
      route: { id, joints: { 'a|b': joint } },
      schedule: { end, fits: late <= 0 },
      labourHours: hours,
      materialCostMinor: cost,
      massKg: kg,
      finish,
      lateMinutes: late,
      unseenGels: Array.from({ length: gelsUnseen }),
      network: { problem: { stages: [{ id: `layup:${id}` }] } },
    },
  }) as unknown as JudgedRoute;

const NONE_NAMED = new Set<string>();

const apart = route('a/b', { end: 9000, hours: 40, cost: 50_000, kg: 6 });
const idOf = (judged: JudgedRoute | undefined) => judged?.plan.route.id;

describe('the route that is taken', () => {
  it('keeps the most cures apart where that gives a lighter part or a better finish', () => {
    const heavier = route('a+b', { end: 7000, hours: 35, cost: 45_000, kg: 6.4 });
    const duller = route('a+b', { end: 7000, hours: 35, cost: 45_000, kg: 6, finish: 'painted' });
    expect(idOf(bestRoute([apart, heavier], NONE_NAMED))).toBe('a/b');
    expect(idOf(bestRoute([apart, duller], NONE_NAMED))).toBe('a/b');
    const why = takenReason([apart, heavier], apart, false);
    expect(takenWords(why)).toBe(
      'Best because it keeps the most cures apart of the 2 that fit, for the best fibre and the surest core. It gives a surface good for a clear finish; it takes 5 h more work than the least and ends 33.3 h after the soonest.',
    );
  });

  it('is, of two that keep as many apart, never one that is better in nothing', () => {
    const worse = route('a~b', { end: 7000, hours: 35, cost: 45_000, kg: 6 }, 'tack');
    const better = route('b~a', { end: 7000, hours: 34, cost: 45_000, kg: 6 }, 'tack');
    expect(idOf(bestRoute([worse, better], NONE_NAMED))).toBe('b~a');
  });

  it('has the stages that the build names, where a route that has them fits', () => {
    const better = route('a+b', { end: 7000, hours: 35, cost: 45_000, kg: 6 });
    expect(idOf(bestRoute([apart, better], new Set(['layup:a/b'])))).toBe('a/b');
  });

  it('is the least late where none fits, and says by how much', () => {
    const late = route('a/b', { end: 9000, hours: 40, cost: 1, kg: 6, late: 600 });
    const less = route('a+b', { end: 8000, hours: 44, cost: 2, kg: 7, late: 90 });
    expect(idOf(bestRoute([late, less], NONE_NAMED))).toBe('a+b');
    expect(takenWords(takenReason([late, less], less, false))).toBe(
      'Best because no route fits and this one is the least late: 1.5 h.',
    );
  });

  it('has the fewest gels that nobody sees, whatever else speaks for another', () => {
    const alone = route('a/b', { end: 6000, hours: 30, cost: 40_000, kg: 5, gelsUnseen: 1 });
    const seen = route('a+b', { end: 7000, hours: 35, cost: 45_000, kg: 6, finish: 'painted' });
    expect(idOf(bestRoute([alone, seen], NONE_NAMED))).toBe('a+b');
    expect(takenWords(takenReason([alone, seen], seen, false))).toMatch(
      /^Best because it keeps the most cures apart of those that fit and gel with somebody there \(1 of 2 would not\), /,
    );
    const late = { ...alone, plan: { ...alone.plan, schedule: { end: 6000, fits: false } } };
    expect(idOf(bestRoute([late as JudgedRoute, seen], NONE_NAMED))).toBe('a+b');
  });

  it('does not say that somebody is there where one gel of it too falls unseen', () => {
    const two = route('a/b', { end: 6000, hours: 30, cost: 40_000, kg: 5, gelsUnseen: 2 });
    const one = route('a+b', { end: 7000, hours: 35, cost: 45_000, kg: 6, gelsUnseen: 1 });
    expect(takenWords(takenReason([two, one], one, false))).toMatch(
      /of those that fit and have no more than 1 gel with nobody there \(1 of 2 have more\), /,
    );
  });

  it('says when there was no choice, and nothing where the build names the route', () => {
    const late = route('a+b', { end: 9000, hours: 40, cost: 1, kg: 6, late: 600 });
    expect(takenWords(takenReason([apart, late], apart, false))).toBe(
      'Best because it alone fits, of 2 that can be done.',
    );
    expect(takenWords(takenReason([apart], apart, false))).toContain('no other route can be done');
    expect(takenWords(takenReason([apart, late], late, true))).toBe('');
  });
});

describe.each(shippedSamples())('$name', ({ text }) => {
  it('says why its route is taken', () => {
    const found = read(JSON.parse(text()));
    if (!found.ok) throw new Error('a sample has faults');
    const { result } = plan(found.document, library(), NOW, FULL_ANSWER);
    expect(result.route.why).toMatch(/^(Best|Taken) because /);
    // In every sample some route that fits gels with somebody there.
    expect(result.findings.map(({ code }) => code)).not.toContain('gel-unattended');
  });
});
