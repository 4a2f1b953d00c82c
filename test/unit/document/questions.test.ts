/** Answers with their names, and the usual questions put on the list. */
import { describe, expect, it } from 'vitest';
import { buildSchema } from '../../../app/document/schema.ts';
import { startingQuestions, usualQuestions } from '../../../app/judge/questions.ts';
import { emptyBuild } from '../../../app/document/edit/start.ts';
import { askUsual, readAnswer, writeAnswer } from '../../../app/document/edit/answers.ts';

describe('an answer', () => {
  it('keeps who gave it in its line, and reads back as it was typed', () => {
    const line = writeAnswer({ text: ' 2.94 m over the wings ', by: 'R. Osei' });
    expect(line).toBe('2.94 m over the wings — by R. Osei');
    expect(readAnswer(line)).toEqual({ text: '2.94 m over the wings', by: 'R. Osei' });
    expect(readAnswer(writeAnswer({ text: 'red — by night', by: 'Ida' }))).toEqual({
      text: 'red — by night',
      by: 'Ida',
    });
    expect(readAnswer('Two greys')).toEqual({ text: 'Two greys', by: '' });
    expect(readAnswer(null)).toEqual({ text: '', by: '' });
  });
  it('is none where only a name stands', () => {
    expect(writeAnswer({ text: '  ', by: 'Ida' })).toBe('');
  });
});

describe('the usual questions', () => {
  const whole = (document: object) =>
    buildSchema.parse({
      name: 'Own',
      unveiling: '2027-06-18',
      resin: { system: 'a', hardener: 'b' },
      ...document,
    });
  it('are on the list of a new build, open, and none is asked of it twice', () => {
    const fresh = emptyBuild('Europe/Lisbon', startingQuestions());
    const asked = fresh.part!.questions!;
    expect(asked.length).toBeGreaterThanOrEqual(4);
    expect(asked.every((question) => question.answer === null)).toBe(true);
    expect(usualQuestions(whole(fresh))).toEqual([]);
  });
  it('that a painter brings are offered when there is one, and added in one gesture', () => {
    const zones = [{ areaM2: 1, outer: [], inner: [] }];
    const fresh = emptyBuild('Europe/Lisbon', startingQuestions());
    const painted = {
      ...fresh,
      part: { ...fresh.part, zones },
      outside: [{ name: 'Slipway paint', workingDays: 4 }],
    };
    const more = usualQuestions(whole(painted));
    expect(more.map((question) => question.id)).toEqual(['stiff-for-paint']);
    const { document, label } = askUsual(painted as never, more);
    expect(label).toBe('Add question: Does the painter need a stiffer surface to block out on?');
    expect(usualQuestions(whole(document))).toEqual([]);
  });
});
