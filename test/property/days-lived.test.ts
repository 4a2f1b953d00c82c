/**
 * Builds that are looked at every few days: what should have happened is answered by the day or one by one,
 * as planned, at drawn other times, or not done.
 */
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { plan } from '../../app/answer/plan.ts';
import { writeRecords, type FloorEntry } from '../../app/document/edit/records.ts';
import type { Build } from '../../app/document/schema.ts';
import { FIRST_ANSWER, type PlanOutcome } from '../../app/plan/outcome.ts';
import { askAbout, canBeTaken, localMinuteOf } from '../../app/plan/records.ts';
import { printedRecord } from '../../app/plan/replanPrinted.ts';
import { byDay, unansweredSince } from '../../app/shop/floor/gap.ts';
import { isoToMinute, localToMinute } from '../../app/time/zone.ts';
import { library, NOW, smallBuild } from '../support/builds.ts';
import { forAll, tally } from '../support/draws.ts';
import { explainsSpare, keepsRecords, lateOf } from '../support/livedBuilds.ts';

const DAY = 24 * 60;
/** Looked at so often: more than the small build lasts. */
const LOOKS = 16;
const at = (build: Build, now: number): PlanOutcome => plan(build, library(), now, FIRST_ANSWER);

const seen = tally(
  'whole day',
  'as planned',
  'other times',
  'planned again',
  'held',
  'explained',
  'ended',
);

/** Answer to one question: as planned, later by so many minutes, or not done. */
const answer = fc.oneof(
  { weight: 5, arbitrary: fc.constant('planned' as const) },
  { weight: 3, arbitrary: fc.integer({ min: 1, max: 240 }) },
  { weight: 2, arbitrary: fc.constant('not' as const) },
);
type Answer = 'planned' | 'not' | number;

const draw = fc.record({
  apart: fc.boolean(),
  gaps: fc.array(fc.integer({ min: 1, max: 5 }), { minLength: LOOKS, maxLength: LOOKS }),
  wholeDays: fc.array(fc.boolean(), { minLength: LOOKS, maxLength: LOOKS }),
  answers: fc.array(answer, { minLength: 90, maxLength: 90 }),
});

/** What was planned, later by some minutes, and no later than now. */
function laterBy(entry: FloorEntry, minutes: number, now: number, zone: string): FloorEntry {
  const later = (local: string): string =>
    localMinuteOf(Math.min(now, localToMinute(local, zone)!.minute + minutes), zone);
  return { ...entry, start: later(entry.start), end: entry.end ? later(entry.end) : null };
}

it('a build answered for day by day keeps every record, plans nothing done and moves its end for a reason', () => {
  forAll(fc.property(draw, live), { seed: 1412, numRuns: 4, seen });
});

function live({
  apart,
  gaps,
  wholeDays,
  answers,
}: {
  apart: boolean;
  gaps: number[];
  wholeDays: boolean[];
  answers: Answer[];
}): void {
  let looked = NOW;
  const state = apart ? 'apart' : 'one-bag';
  const route = { joints: { 'skin-core': state, 'core-inner': state } } as const;
  let build: Build = { ...smallBuild(), route };
  build = { ...build, printed: printedRecord(at(build, looked), looked) };
  const printedLate = lateOf(at(build, looked));
  let asked = 0;
  for (let i = 0; i < LOOKS; i++) {
    const now = looked + gaps[i]! * DAY;
    const then = at(build, looked);
    const opened = at(build, now);
    const { zone } = opened.detail.build;
    const list = unansweredSince(then, opened.detail.build, now);
    const notDone = new Set<string>();
    const written: FloorEntry[] = [];
    for (const [, day] of byDay(list)) {
      if (wholeDays[i]) {
        written.push(...day.map(({ asPlanned }) => asPlanned));
        seen.saw('whole day');
        continue;
      }
      for (const { stage, asPlanned } of day) {
        const said = answers[asked++ % answers.length]!;
        if (said === 'not') {
          notDone.add(stage);
          continue;
        }
        const entry = said === 'planned' ? asPlanned : laterBy(asPlanned, said, now, zone);
        if (!canBeTaken(askAbout(opened, [entry], now)[0]!.doubts)) continue;
        written.push(entry);
        seen.saw(said === 'planned' ? 'as planned' : 'other times');
      }
    }
    build = writeRecords(build, written, 'answered').document as Build;
    const outcome = at(build, now);
    keepsRecords(outcome, now);
    if (explainsSpare(outcome, printedLate)) seen.saw('explained');
    // All of it as planned, to the minute, and nothing still going: no time is lost by the asking.
    if (wholeDays[i] && written.length > 0 && written.every(({ end }) => end !== null)) {
      seen.saw('held');
      expect(lateOf(outcome), `look ${i}`).toBeLessThanOrEqual(lateOf(then));
    }
    for (const { id, state, start } of outcome.result.stages) {
      if (!notDone.has(id) || state !== undefined) continue;
      seen.saw('planned again');
      expect(isoToMinute(start!), `${id} was not done`).toBeGreaterThanOrEqual(now);
    }
    looked = now;
    if (outcome.result.stages.every(({ state }) => state !== undefined)) {
      seen.saw('ended');
      break;
    }
  }
}
