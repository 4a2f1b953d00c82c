import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { compile } from '../../app/schedule/compile.ts';
import { RightPass } from '../../app/schedule/justify.ts';
import { NEVER } from '../../app/schedule/length.ts';
import type { Problem, Relation, StageSpec } from '../../app/schedule/problem.ts';
import { boardOf, listByPriority } from '../../app/schedule/pass.ts';
import { placeList } from '../../app/schedule/serial.ts';
import { earliestStarts, latestStarts } from '../../app/schedule/windows.ts';
import { forAll, tally } from '../support/draws.ts';

const FROM = 1_000_000;
const DUE = FROM + 10_000;

interface Plain {
  readonly minutes: readonly number[];
  readonly arcs: readonly { readonly from: number; readonly to: number; readonly lag: number }[];
}

/** Lengths and end-to-start lags between earlier and later numbers. */
const plain: fc.Arbitrary<Plain> = fc
  .array(fc.integer({ min: 1, max: 60 }), { minLength: 2, maxLength: 10 })
  .chain((minutes) =>
    fc.record({
      minutes: fc.constant(minutes),
      arcs: fc
        .array(
          fc.record({
            a: fc.integer({ min: 0, max: minutes.length - 1 }),
            b: fc.integer({ min: 0, max: minutes.length - 1 }),
            lag: fc.integer({ min: 0, max: 30 }),
          }),
          { maxLength: 14 },
        )
        .map((list) =>
          list
            .filter(({ a, b }) => a !== b)
            .map(({ a, b, lag }) => ({ from: Math.min(a, b), to: Math.max(a, b), lag })),
        ),
    }),
  );

function problemOf({ minutes, arcs }: Plain): Problem {
  return {
    from: FROM,
    due: DUE,
    horizon: DUE,
    resources: [],
    stages: minutes.map((length, i): StageSpec => ({
      id: `s${i}`,
      name: `s${i}`,
      kind: 'own',
      cure: null,
      modes: [{ id: 'm', uses: [], calendar: null, length: { kind: 'elapsed', minutes: length } }],
      release: null,
      due: null,
      fixedStart: null,
      fixedEnd: null,
      air: null,
      perishable: false,
    })),
    relations: arcs.map(({ from, to, lag }): Relation => ({
      type: 'at-least',
      from: `s${from}`,
      anchor: 'end',
      to: `s${to}`,
      lag,
      why: 'own-order',
    })),
    airSettleMinutes: 0,
  };
}

const reversed = ({ minutes, arcs }: Plain): Plain => ({
  minutes,
  arcs: arcs.map(({ from, to, lag }) => ({ from: to, to: from, lag })),
});

describe('forward and backward', () => {
  it('mirror each other on a reversed plain instance', () => {
    const seen = tally('arcs', 'no arcs');
    forAll(
      fc.property(plain, (instance) => {
        const options = { from: FROM, modeOf: null, order: [] };
        const latest = latestStarts(compile(problemOf(instance)), options);
        const { earliest } = earliestStarts(compile(problemOf(reversed(instance))), options);
        seen.saw(instance.arcs.length > 0 ? 'arcs' : 'no arcs');
        instance.minutes.forEach((length, i) => {
          expect(latest[i]).not.toBe(NEVER);
          expect(earliest[i]! - FROM).toBe(DUE - (latest[i]! + length));
        });
      }),
      { numRuns: 500, seed: 3, seen },
    );
  });

  it('place a list to the right as the reversed instance places it to the left', () => {
    const seen = tally('waited', 'began when its arcs let it');
    forAll(
      fc.property(
        plain,
        fc.array(fc.integer({ min: 1, max: 3 }), { maxLength: 10 }),
        (instance, needs) => {
          const compiled = compile(sharing(problemOf(instance), needs));
          const mirrored = compile(sharing(problemOf(reversed(instance)), needs));
          const options = { from: FROM, modeOf: null, order: [] };
          const { earliest } = earliestStarts(mirrored, options);
          const list = listByPriority(mirrored, earliest);
          const left = placeList(mirrored, list, {
            from: FROM,
            modeOf: null,
            raisesBeforeRepair: 0,
            allowOvertime: false,
            earliest,
          });
          if (!left.ok) throw new Error('the mirrored instance has no plan');
          const board = boardOf(compiled);
          const right = new RightPass(board, list, {
            endBy: DUE,
            modeOf: null,
            allowOvertime: false,
            allowRepairs: false,
            most: 1,
          });
          right.run();
          expect(right.misplaced).toBe(0);
          instance.minutes.forEach((_, i) => {
            expect(DUE - board.endOf(i)).toBe(left.plan.start[i]! - FROM);
            seen.saw(left.plan.start[i]! > earliest[i]! ? 'waited' : 'began when its arcs let it');
          });
        },
      ),
      { numRuns: 300, seed: 4, seen, least: 101 },
    );
  });
});

/** The same with three of one resource, of which each stage needs some. */
function sharing(problem: Problem, needs: readonly number[]): Problem {
  return {
    ...problem,
    resources: [{ id: 'r', name: 'r', capacity: 3 }],
    stages: problem.stages.map((stage, i) => ({
      ...stage,
      modes: stage.modes.map((mode) => ({
        ...mode,
        uses: [{ resource: 'r', amount: needs[i] ?? 1 }],
      })),
    })),
  };
}
