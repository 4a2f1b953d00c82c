import { describe, expect, it } from 'vitest';
import { violations } from '../../../app/schedule/check.ts';
import { closingTime } from '../../support/closing.ts';
import { fitsFrom, scheduleOf } from '../../../app/schedule/solve.ts';
import { after, hour, problem, stage, wait, work } from './make-problem.ts';

describe('closing time', () => {
  it('is the latest start of a single chain, proven by its lengths', () => {
    const p = problem(
      [stage('lay', [work(4, 'ann', true)]), stage('cure', [wait(14)]), stage('trim', [work(2)])],
      [after('lay', 'cure'), after('cure', 'trim')],
      { due: hour(4, 10) },
    );
    const closing = closingTime(p);
    expect(closing).toMatchObject({
      minute: hour(3, 12),
      proven: true,
      closedBy: { stage: 'lay', resource: 'time' },
    });
    expect(violations({ ...p, from: hour(3, 12) }, closing.fitting!)).toEqual([]);
    expect(scheduleOf({ ...p, from: hour(3, 12) }, closing.fitting!)!.fits).toBe(true);
  });

  it('counts people: two jobs of one person cannot both start at the last moment', () => {
    const p = problem([stage('a', [work(4)]), stage('b', [work(4)])], [], { due: hour(4, 16) });
    const closing = closingTime(p);
    expect(closing).toMatchObject({ minute: hour(4, 8), proven: true });
    expect(closing.closedBy!.resource).toBe('ann');
    expect(fitsFrom(p, hour(4, 8))).toBe(true);
    expect(fitsFrom(p, hour(4, 8) + 1)).toBe(false);
  });

  it('leaves what has begun and what is fixed out of it', () => {
    const p = problem(
      [
        stage('done', [work(4)], { fixedStart: hour(0, 8), fixedEnd: hour(0, 12) }),
        stage('next', [work(4)]),
      ],
      [after('done', 'next')],
      { due: hour(4, 16) },
    );
    expect(closingTime(p).minute).toBe(hour(4, 12));
  });

  it('is null when it is too late already', () => {
    const p = problem([stage('a', [wait(100)])], [], { due: hour(1, 8) });
    expect(closingTime(p)).toEqual({
      minute: null,
      proven: true,
      closedBy: { stage: 'a', resource: 'time' },
      fitting: null,
    });
  });
});
