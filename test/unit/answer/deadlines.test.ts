import { describe, expect, it } from 'vitest';
import { contextOf } from '../../../app/plan/context.ts';
import { FIRST_ANSWER, FULL_ANSWER } from '../../../app/plan/outcome.ts';
import { plan } from '../../../app/answer/plan.ts';
import type { PlanResult } from '../../../app/document/schema.ts';
import { containingInterval, workBetween } from '../../../app/time/calendar.ts';
import { isoToMinute } from '../../../app/time/zone.ts';
import { shippedSamples } from '../../../main/samples.ts';
import { library, NOW, read, smallBuild } from '../../support/builds.ts';

const minute = (iso: string): number => isoToMinute(iso)!;
const routeOf = ({ routes, route }: PlanResult) => routes.find(({ id }) => id === route.id)!;

function planned(document: unknown, effort = FULL_ANSWER) {
  const found = read(document);
  if (!found.ok) throw new Error(JSON.stringify(found.faults));
  const { result } = plan(found.document, library(), NOW, effort);
  return { result, context: contextOf(found.document, library(), NOW) };
}

describe.each(shippedSamples())('the next deadline of $name', ({ text }) => {
  const { result, context } = planned(JSON.parse(text()));
  const next = result.nextDeadline!;

  it('is the closing time of the taken route, at an hour at which somebody works', () => {
    expect(next.by).toBe('closing');
    expect(next.at).toBe(routeOf(result).closes);
    expect(next.stage).toBe(routeOf(result).closedBy!.stage);
    expect(containingInterval(context.shopHours, minute(next.at))).not.toBeNull();
  });

  it('is no sooner than the order of the shown plan alone would have it', () => {
    const least = Math.min(
      ...result.stages.flatMap(({ latestStart }) => (latestStart ? [minute(latestStart)] : [])),
    );
    expect(minute(next.at)).toBeGreaterThanOrEqual(least);
  });

  it('has before each date the least room of the stages that depend on it', () => {
    expect(result.spare!.length).toBeGreaterThan(0);
    const stages = new Map(result.stages.map((stage) => [stage.id, stage]));
    for (const { tightest, before, at, workDays, workMinutes, elapsedMinutes } of result.spare!) {
      const { earliestStart, latestStart } = stages.get(tightest)!;
      const [from, to] = [minute(earliestStart!), minute(latestStart!)];
      expect(elapsedMinutes).toBe(to - from);
      expect(at).toBe(before === null ? result.deadline : stages.get(before)!.start);
      const work = to >= from ? workBetween(context.shopHours, from, to) : 0;
      if (workDays === 0) expect(workMinutes).toBe(work);
      else expect(work / workDays).toBeGreaterThan(300);
    }
  });
});

describe('a plan with a booked slot', () => {
  const booked = (workingDays: number) => {
    return {
      ...smallBuild(),
      outside: [
        {
          name: 'Kestrel finishers',
          kind: 'paint',
          workingDays,
          slot: '2027-06-14',
          bakeC: 20,
        },
      ],
    };
  };

  it('counts what comes before the slot to the slot and the rest to the unveiling', () => {
    const { spare, stages } = planned(booked(3)).result;
    const slot = stages.find(({ kind }) => kind === 'outside')!;
    expect(spare!.map(({ before }) => before)).toEqual([slot.id, null]);
    const [toSlot, toEnd] = spare!;
    expect(minute(toSlot!.at)).toBeLessThan(minute(toEnd!.at));
    const tightest = stages.find(({ id }) => id === toSlot!.tightest)!;
    expect(minute(tightest.end!)).toBeLessThanOrEqual(minute(slot.start!));
  });

  it('names the order of the plan alone as its reason until closing times are known', () => {
    const { nextDeadline } = planned(booked(3), FIRST_ANSWER).result;
    expect([nextDeadline!.by, nextDeadline!.proven]).toEqual(['plan', false]);
  });
});
