import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { compile } from '../../app/schedule/compile.ts';
import { NEVER } from '../../app/schedule/length.ts';
import { networksOf } from '../../app/schedule/plain/network.ts';
import { makeTimetable, placeList } from '../../app/schedule/plain/serial.ts';
import type { PlainModel } from '../../app/schedule/plain/model.ts';
import type { Problem, Relation, StageSpec } from '../../app/schedule/problem.ts';
import { earliestStarts, latestStarts } from '../../app/schedule/windows.ts';

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
      why: '',
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
    fc.assert(
      fc.property(plain, (instance) => {
        const options = { from: FROM, modeOf: null, order: [] };
        const latest = latestStarts(compile(problemOf(instance)), options);
        const { earliest } = earliestStarts(compile(problemOf(reversed(instance))), options);
        instance.minutes.forEach((length, i) => {
          expect(latest[i]).not.toBe(NEVER);
          expect(earliest[i]! - FROM).toBe(DUE - (latest[i]! + length));
        });
      }),
      { numRuns: 500, seed: 3 },
    );
  });

  it('place a list to the same makespan as the reversed network places it', () => {
    fc.assert(
      fc.property(plain, fc.array(fc.integer({ min: 1, max: 3 })), (instance, needs) => {
        const model = modelOf(instance, needs);
        const { forward, backward } = networksOf(model);
        const { backward: again } = networksOf(reversedModel(model));
        for (const [one, other] of [[forward, again]] as const) {
          const [a, b] = [new Int32Array(one.count), new Int32Array(other.count)];
          const list = one.topological;
          const makespan = placeList(one, list, a, makeTimetable(one));
          expect(placeList(other, list, b, makeTimetable(other))).toBe(makespan);
          expect([...b]).toEqual([...a]);
        }
        expect([...backward.head]).toEqual(
          [...forward.tail].map((tail, i) => tail - model.duration[i]!),
        );
      }),
      { numRuns: 200, seed: 4 },
    );
  });
});

function modelOf({ minutes, arcs }: Plain, needs: readonly number[]): PlainModel {
  return {
    duration: minutes,
    demand: minutes.map((_, i) => [needs[i] ?? 1]),
    capacity: [3],
    arcs: arcs.map(({ from, to }) => ({ from, to, lag: minutes[from]! })),
  };
}

const reversedModel = (model: PlainModel): PlainModel => ({
  ...model,
  arcs: model.arcs.map(({ from, to }) => ({ from: to, to: from, lag: model.duration[to]! })),
});
