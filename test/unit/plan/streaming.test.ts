import { describe, expect, it } from 'vitest';
import { planResultSchema, type Build } from '../../../app/document/schema.ts';
import { FULL_ANSWER } from '../../../app/plan/outcome.ts';
import { plan } from '../../../app/answer/plan.ts';
import { isoToMinute } from '../../../app/time/zone.ts';
import { answerPlanRequest } from '../../../app/answer/worker.ts';
import { library, NOW, smallBuild } from '../../support/builds.ts';

const build: Build = { ...smallBuild(), crew: [...smallBuild().crew, { name: 'Una Birk' }] };
const request = { revision: 7, document: build, library: library(), now: NOW };
const pieces = [...answerPlanRequest(request)];
const replies = pieces.filter((piece) => piece !== null);
const endOf = (result: (typeof replies)[number]['outcome']['result']) =>
  Math.max(...result.stages.map((stage) => isoToMinute(stage.end!)!));

describe('the answer of the worker', () => {
  it('begins with a good plan and ends with the whole answer', () => {
    expect(replies.length).toBeGreaterThan(1);
    expect(replies.map((reply) => reply.done)).toEqual([
      ...replies.slice(1).map(() => false),
      true,
    ]);
    expect(replies.at(-1)!.outcome.result).toEqual(plan(build, library(), NOW, FULL_ANSWER).result);
    for (const { revision, outcome } of replies) {
      expect(revision).toBe(7);
      expect(planResultSchema.safeParse(outcome.result).success).toBe(true);
    }
  });

  it('never gets worse, and leaves closing times and levers to the end', () => {
    const ends = replies.map((reply) => endOf(reply.outcome.result));
    expect(ends).toEqual([...ends].sort((a, b) => b - a));
    const closes = (reply: (typeof replies)[number]) =>
      reply.outcome.result.routes.some((route) => route.closes !== null);
    expect(replies.map(closes)).toEqual(replies.map((reply) => reply.done));
  });

  it('breathes often enough to be left, and crosses threads', () => {
    expect(pieces.length).toBeGreaterThan(20);
    for (const reply of replies) expect(structuredClone(reply)).toEqual(reply);
  });

  it('says how good the plan is known to be', () => {
    const { search } = replies.at(-1)!.outcome.result;
    expect(search!.schedules).toBeGreaterThan(0);
    expect(search!.provenBest ? search!.gapHours === 0 : search!.gapHours! >= 0).toBe(true);
  });
});
