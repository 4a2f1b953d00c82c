/** The open instances of test/data/psplib (sources there), by the bench's own way of counting. */
import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, describe, expect, it } from 'vitest';
import { problemOf, runSet } from '../../bench/psplib.ts';
import { readSch, readSm } from '../../bench/psplib-read.ts';
import { solve } from '../../../app/schedule/solve.ts';

const data = fileURLToPath(new URL('../../data/psplib', import.meta.url));

describe('open instances', () => {
  it('reads both formats', () => {
    const sm = readSm(readFileSync(join(data, 'j30', 'j301_1.sm'), 'utf8'));
    expect(sm.duration).toHaveLength(32);
    expect(sm.capacity).toEqual([12, 13, 4, 12]);
    const sch = readSch(readFileSync(join(data, 'ubo10', 'psp1.sch'), 'utf8'));
    expect(sch.duration).toHaveLength(12);
    expect(sch.arcs).toContainEqual({ from: 5, to: 6, lag: -5 });
  });

  it('reaches every optimum of the j30 sample', { timeout: 60_000 }, () => {
    const { figures } = runSet(data, 'j30', { schedules: 20_000, seed: 1 });
    expect(figures).toMatchObject({ instances: 4, solved: 4, atBest: 4, wrong: 0 });
  });

  it('solves what is feasible with greatest lags and proves the rest infeasible', () => {
    const { figures } = runSet(data, 'ubo10', { schedules: 5000, seed: 1 });
    expect(figures).toMatchObject({ solved: 3, atBest: 3, infeasibleReported: 1, wrong: 0 });
  });

  it('solves them with the rules of a workshop added, within 2 % of the makespans without', () => {
    const dressed = { schedules: 2000, seed: 1, dressed: true };
    const plain = runSet(data, 'j30', { schedules: 2000, seed: 1 });
    const { figures, answers } = runSet(data, 'j30', dressed);
    expect(figures).toMatchObject({ instances: 4, solved: 4, wrong: 0 });
    const total = (of: typeof answers) => of.reduce((sum, one) => sum + one.makespan!, 0);
    expect(total(answers)).toBeLessThanOrEqual(1.02 * total(plain.answers));
    expect(runSet(data, 'ubo10', dressed).figures).toMatchObject({
      solved: 3,
      atBest: 3,
      infeasibleReported: 1,
      wrong: 0,
    });
  });

  it('never generates more schedules than it may, and the same ones for a seed', () => {
    const problem = problemOf(readSm(readFileSync(join(data, 'j30', 'j3013_1.sm'), 'utf8')));
    for (const schedules of [2, 17, 300]) {
      const first = solve(problem, { schedules, seed: 4 });
      expect(first.generated).toBeLessThanOrEqual(schedules);
      expect(solve(problem, { schedules, seed: 4 })).toEqual(first);
    }
  });

  describe('with the values of the table blanked', () => {
    const copy = mkdtempSync(join(tmpdir(), 'psplib-'));
    afterAll(() => rmSync(copy, { recursive: true }));

    it('gives the same starts', () => {
      cpSync(data, copy, { recursive: true });
      const table = readFileSync(join(data, 'j30.csv'), 'utf8').trim().split('\n');
      const blank = table.map((row, i) =>
        i === 0
          ? row
          : row
              .split(',')
              .map((cell, k) => (k >= 2 && k <= 4 ? '' : cell))
              .join(','),
      );
      writeFileSync(join(copy, 'j30.csv'), `${blank.join('\n')}\n`);
      const blanked = runSet(copy, 'j30', { schedules: 200, seed: 1 });
      expect(blanked.answers).toEqual(runSet(data, 'j30', { schedules: 200, seed: 1 }).answers);
      expect(blanked.figures.overBestPct).toBeNull();
    });
  });
});
