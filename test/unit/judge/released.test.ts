/** What an open question holds up, and what it leaves free. */
import { describe, expect, it } from 'vitest';
import type { Build } from '../../../app/document/schema.ts';
import { buildSchema } from '../../../app/document/schema.ts';
import { usualQuestions } from '../../../app/judge/questions.ts';
import { planFor, ROOMY, withPart } from './builds.ts';

const asked = (answer: string | null): Build =>
  withPart(ROOMY, { questions: [{ id: 'trim-line', text: 'Trim line?', answer, before: 'trim' }] });
const waits = (document: Build) => {
  const { stages } = planFor(document).result;
  return (id: string) => stages.find((stage) => stage.id === id)!.waitsFor;
};

describe('release to the floor', () => {
  it('is held for the stage that depends on the question and for all after it', () => {
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

describe('the usual questions', () => {
  const ids = (document: Build) =>
    usualQuestions(buildSchema.parse(document)).map((question) => question.id);

  it('bear on the build', () => {
    expect(ids(ROOMY)).toContain('length-and-trim');
    expect(ids(ROOMY)).not.toContain('stiff-for-paint');
    const painter = [{ name: 'Spray shop', workingDays: 3 }];
    expect(ids({ ...ROOMY, outside: painter })).toContain('stiff-for-paint');
    expect(ids(withPart(ROOMY, { finish: 'hidden' }))).not.toContain('colour-and-bake');
    expect(ids({ ...ROOMY, mould: { sealed: true } })).toContain('trim-line');
  });
  it('are not asked twice, and each holds up a stage of the plan', () => {
    const questions = usualQuestions(buildSchema.parse(ROOMY));
    const asking = withPart(ROOMY, { questions });
    expect(ids(asking)).toEqual([]);
    const { findings } = planFor(asking).result;
    const open = findings.filter((finding) => finding.code === 'question-open');
    expect(open).toHaveLength(questions.length);
    for (const finding of open) expect(finding.stage).not.toBeNull();
  });
});
