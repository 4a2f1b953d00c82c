/** What an open question holds up, and what it leaves free. */
import { describe, expect, it } from 'vitest';
import type { Build } from '../../../app/build/schema.ts';
import { planFor, ROOMY, withPart } from './builds.ts';

const asked = (answer: string | null): Build =>
  withPart(ROOMY, { questions: [{ id: 'trim-line', text: 'Trim line?', answer, before: 'trim' }] });
const waits = (document: Build) => {
  const { stages } = planFor(document).result;
  return (id: string) => stages.find((stage) => stage.id === id)!.waitsFor;
};

describe('release to the floor', () => {
  it('is held for the stage that hangs on the question and for all after it', () => {
    const of = waits(asked(null));
    expect(of('trim')).toEqual(['trim-line']);
    expect(of('hand-over')).toEqual(['trim-line']);
  });
  it('is free for what comes before', () => {
    const of = waits(asked(null));
    for (const id of ['layup:skin', 'release', 'demould']) expect(of(id)).toEqual([]);
  });
  it('is free for all once the question is answered', () => {
    const { stages } = planFor(asked('Confirmed by the client')).result;
    expect(stages.every((stage) => stage.waitsFor!.length === 0)).toBe(true);
  });
});
