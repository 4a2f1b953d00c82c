/** Builds recorded stamp by stamp with drawn delays: the plan never contradicts a record and plans nothing done. */
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { plan } from '../../app/answer/plan.ts';
import { writeRecords } from '../../app/document/edit/records.ts';
import { recordsInForce } from '../../app/document/records.ts';
import type { Build } from '../../app/document/schema.ts';
import { FIRST_ANSWER, type PlanOutcome } from '../../app/plan/outcome.ts';
import { printedRecord } from '../../app/plan/replanPrinted.ts';
import { impliedEntries } from '../../app/plan/records.ts';
import { benchAt } from '../../app/shop/floor/bench.ts';
import { stampEntries } from '../../app/shop/floor/steps.ts';
import { isoToMinute } from '../../app/time/zone.ts';
import { library, NOW, smallBuild } from '../support/builds.ts';
import { forAll, tally } from '../support/draws.ts';
import { explainsSpare, keepsRecords, lateOf } from '../support/livedBuilds.ts';

const at = (build: Build, now: number): PlanOutcome => plan(build, library(), now, FIRST_ANSWER);
const minute = (iso: string | null): number => isoToMinute(iso!)!;

const seen = tally('held', 'on time', 'late', 'overnight', 'unrecorded', 'corrected', 'explained');

it('a build lived by drawn delays keeps every record, plans nothing twice and gains or loses no time unseen', () => {
  const draw = fc.record({
    apart: fc.boolean(),
    delays: fc.array(
      fc.oneof(
        { weight: 6, arbitrary: fc.constant(0) },
        { weight: 3, arbitrary: fc.integer({ min: 1, max: 90 }) },
        { weight: 1, arbitrary: fc.integer({ min: 600, max: 2000 }) },
      ),
      { minLength: 60, maxLength: 60 },
    ),
    skips: fc.array(fc.integer({ min: 0, max: 9 }), { minLength: 60, maxLength: 60 }),
  });
  const live = ({
    apart,
    delays,
    skips,
  }: {
    apart: boolean;
    delays: number[];
    skips: number[];
  }) => {
    let now = NOW;
    const joints = apart
      ? ({ 'skin-core': 'apart', 'core-inner': 'apart' } as const)
      : ({ 'skin-core': 'one-bag', 'core-inner': 'one-bag' } as const);
    let build: Build = { ...smallBuild(), route: { joints } };
    let outcome = at(build, now);
    build = { ...build, printed: printedRecord(outcome, now) };
    outcome = at(build, now);
    const printedLate = lateOf(outcome);
    for (let i = 0; i < 60; i++) {
      const { current } = benchAt(outcome, now, null);
      if (!current) break;
      const delay = delays[i]!;
      const planned = Math.max(now, current.at ?? now);
      const late = lateOf(outcome);
      const left = planned + delay;
      const slides = outcome.result.stages.some(
        ({ id, state, start }) => !state && id !== current.stage && minute(start) < left,
      );
      now = left;
      outcome = at(build, now);
      keepsRecords(outcome, now);
      if (explainsSpare(outcome, printedLate)) seen.saw('explained');
      // Some work is done and not written down: the next record implies it.
      if (skips[i] === 0 && current.stamp === 'started') {
        seen.saw('unrecorded');
        const after = benchAt(outcome, now, null).steps.find(
          ({ stage }) => stage !== current.stage,
        );
        if (!after) continue;
      }
      const entries = stampEntries(outcome, current, now);
      if (recordsInForce(outcome.detail.build).size > 0 && skips[i]! >= 5) seen.saw('unrecorded');
      const implied = skips[i]! < 5 ? impliedEntries(outcome, entries) : [];
      build = writeRecords(build, [...implied, ...entries], current.key).document as Build;
      outcome = at(build, now);
      keepsRecords(outcome, now);
      if (explainsSpare(outcome, printedLate)) seen.saw('explained');
      seen.saw(delay === 0 ? 'on time' : delay < 600 ? 'late' : 'overnight');
      if (skips[i] === 1) {
        // Stamped twice, the second time to stay: only the newest record counts.
        build = writeRecords(build, entries, 'again').document as Build;
        outcome = at(build, now);
        keepsRecords(outcome, now);
        seen.saw('corrected');
      }
      // As planned, to the minute, and nothing else let slide: the end of the plan stays where it was.
      if (delay === 0 && planned === current.at && !slides) {
        seen.saw('held');
        expect(lateOf(outcome), `${current.key} as planned moves the end`).toBe(late);
      }
    }
  };
  forAll(fc.property(draw, live), { seed: 1411, numRuns: 6, seen });
});
