import { describe, expect, it } from 'vitest';
import { mostWaysOut, searchedInPart } from '../../../app/answer/bySize.ts';
import type { RoutePlan } from '../../../app/plan/routePlan.ts';

const planOf = (stages: number): RoutePlan =>
  ({ network: { problem: { stages: Array.from({ length: stages }) } } }) as unknown as RoutePlan;

describe('an answer by the size of its plan', () => {
  it('leaves nothing out of an ordinary build and says nothing', () => {
    expect(mostWaysOut(planOf(76))).toBe(150);
    expect(searchedInPart(planOf(76), 5000, 0)).toEqual([]);
  });

  it('says how much of a large one was searched', () => {
    expect(mostWaysOut(planOf(505))).toBe(4);
    const [note] = searchedInPart(planOf(505), 5000, 20);
    expect(note?.message).toBe(
      'This plan has 505 stages. So that its answer comes in time, 331 of the usual 5000 orders of ' +
        'work are tried, and the ways out are not all looked at (left aside: 20).',
    );
  });
});
