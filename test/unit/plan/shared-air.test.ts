/** Release and spray beside other work: only where the shop allows it, and then only where a date needs it. */
import { beforeAll, describe, expect, it } from 'vitest';
import type { PlanOutcome } from '../../../app/plan/outcome.ts';
import type { Build } from '../../../app/document/schema.ts';
import { plan } from '../../../app/answer/plan.ts';
import { FULL_ANSWER } from '../../../app/plan/outcome.ts';
import { MINUTES_PER_HOUR } from '../../../app/time/instant.ts';
import { isoToMinute } from '../../../app/time/zone.ts';
import { library, sampleOf } from '../../support/builds.ts';

const sign = (): Build => sampleOf('harbour-gate-sign');
const CLOSE = isoToMinute('2027-04-22T08:00Z')!;
const EARLY = isoToMinute('2027-02-01T08:00Z')!;
const beside = (document: Build): Build => ({
  ...document,
  room: { ...document.room, releaseAndSpray: 'beside' },
});
const full = (document: Build, now = CLOSE): PlanOutcome =>
  plan(document, library(), now, FULL_ANSWER);
const codes = ({ result }: PlanOutcome): string[] => result.findings.map(({ code }) => code);

/** Pairs of stages whose air is in the room at once, or within the hour in which it settles. */
function together({ detail, result }: PlanOutcome): [string, string][] {
  const air = detail.shown!.air;
  const users = result.stages
    .filter(({ id }) => air[id])
    .map(({ id, start, end }) => ({ id, start: isoToMinute(start!)!, end: isoToMinute(end!)! }))
    .filter(({ start, end }) => end > start);
  return users.flatMap((a, i) =>
    users
      .slice(i + 1)
      .filter((b) => air[a.id] !== air[b.id])
      .filter((b) => a.start < b.end + MINUTES_PER_HOUR && b.start < a.end + MINUTES_PER_HOUR)
      .map((b): [string, string] => [air[a.id]!, air[b.id]!].sort() as [string, string]),
  );
}

describe('release and spray beside other work', () => {
  let apart: PlanOutcome;
  let shared: PlanOutcome;
  beforeAll(() => {
    apart = full(sign());
    shared = full(beside(sign()));
  }, 120_000);

  it('has the air to itself where the shop has not said otherwise, though it is late by that', () => {
    expect(apart.result.lateMinutes).toBeGreaterThan(0);
    expect(codes(apart)).not.toContain('air-shared');
    expect(together(apart)).toEqual([]);
  });

  it('makes the date where the shop allows it, and says what goes on beside what', () => {
    expect(shared.result.lateMinutes).toBeLessThanOrEqual(0);
    const told = shared.result.findings.filter(({ code }) => code === 'air-shared');
    expect(told.map(({ severity }) => severity)).toEqual(told.map(() => 'warn'));
    expect(told.length).toBeGreaterThan(0);
    const pairs = together(shared);
    expect(pairs.length).toBeGreaterThan(0);
    for (const pair of pairs) expect(pair).not.toEqual(['dust', 'wet']);
  });

  it('is not made use of where there is time', () => {
    const canopy = sampleOf('low-water-canopy');
    expect(full(canopy, EARLY).result.lateMinutes).toBeLessThanOrEqual(0);
    expect(codes(full(beside(canopy), EARLY))).not.toContain('air-shared');
  });
});
