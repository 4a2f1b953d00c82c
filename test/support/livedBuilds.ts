/** What every plan owes the records behind it, however they came to be written down. */
import { expect } from 'vitest';
import { recordsInForce } from '../../app/document/records.ts';
import type { PlanOutcome } from '../../app/plan/outcome.ts';
import { isoToMinute, localToMinute } from '../../app/time/zone.ts';

const minute = (iso: string | null): number => isoToMinute(iso!)!;
export const lateOf = ({ result }: PlanOutcome): number => result.lateMinutes!;

/** Everything that must have come before a stage, near and far. */
function ancestors(before: PlanOutcome['detail']['before'], stage: string): Set<string> {
  const found = new Set<string>();
  const visit = (id: string): void => {
    for (const earlier of before?.[id] ?? []) {
      if (found.has(earlier)) continue;
      found.add(earlier);
      visit(earlier);
    }
  };
  visit(stage);
  return found;
}

/** Recorded times stand in the plan, and nothing that is done, implied or past is planned again. */
export function keepsRecords({ result, detail }: PlanOutcome, now: number): void {
  const stages = new Map(result.stages.map((stage) => [stage.id, stage]));
  const { zone } = detail.build;
  const gone = new Set<string>();
  for (const [id, record] of recordsInForce(detail.build)) {
    const stage = stages.get(id)!;
    expect(minute(stage.start), `start of ${id}`).toBe(localToMinute(record.start, zone)!.minute);
    if (record.end !== null) {
      expect(minute(stage.end), `end of ${id}`).toBe(localToMinute(record.end, zone)!.minute);
    } else if (stage.kind !== 'cure' && stage.kind !== 'post-cure' && stage.kind !== 'resin-warm') {
      expect(minute(stage.end), `${id} is going on`).toBeGreaterThanOrEqual(now);
    }
    for (const earlier of ancestors(detail.before, id)) gone.add(earlier);
  }
  for (const [work, wait] of [
    ['seal', 'wait:seal'],
    ['release', 'wait:release'],
    ['fair:1', 'wait:fair-1'],
    ['prime:3', 'wait:prime-3'],
  ] as const) {
    const [done, dries] = [stages.get(work), stages.get(wait)];
    if (done?.state !== 'done' || !dries || minute(done.end) >= now) continue;
    expect(dries.start, `${wait} runs by itself`).toBe(done.end);
  }
  for (const stage of result.stages) {
    if (stage.state !== undefined) continue;
    expect(gone.has(stage.id), `${stage.id} is planned although it must be over`).toBe(false);
    expect(minute(stage.start), `${stage.id} is planned in the past`).toBeGreaterThanOrEqual(now);
  }
}

/**
 * The end of the plan leaves the printed one only where a move says why.
 * @returns whether it has left it
 */
export function explainsSpare(outcome: PlanOutcome, printedLate: number): boolean {
  const moves = outcome.detail.moves!;
  if (lateOf(outcome) === printedLate) return false;
  // All of it is written down: the records are the reason.
  const last = outcome.result.stages.findLast(({ state }) => state === undefined);
  if (!last) return true;
  expect(moves.length, 'the end moved and nothing else').toBeGreaterThan(0);
  const ended = moves.find(({ stage }) => stage === last.id);
  expect(ended, `${last.id} ends otherwise and is in no list`).toBeDefined();
  expect(ended!.why.kind, `${last.id} moved`).not.toBe('plan');
  return true;
}
