/** Bare dates on a day whose midnight the clocks skip: they plan as any other day does. */
import { describe, expect, it } from 'vitest';
import { readDocument } from '../../../app/document/read.ts';
import { buildSchema, type Build } from '../../../app/document/schema.ts';
import { contextOf } from '../../../app/plan/context.ts';
import { MINUTES_PER_DAY } from '../../../app/time/instant.ts';
import { localToMinute, minuteToLocal } from '../../../app/time/zone.ts';
import { addDays } from '../../support/builds.ts';
import { LIBRARY, planFor, ROOMY } from '../judge/builds.ts';

const DAYS = [
  ['Africa/Cairo', '2027-04-30'],
  ['America/Santiago', '2027-09-05'],
] as const;

/** Open round the clock, so that a day opens with its first minute. */
const ALWAYS = Object.fromEntries(
  ['mon', 'tue', 'wed', 'thu', 'fri', 'sat', 'sun'].map((day) => [day, [['00:00', '24:00']]]),
) as NonNullable<Build['crew'][number]['hours']>;

describe.each(DAYS)('%s on %s', (zone, day) => {
  const before = addDays(day, -14);
  const now = localToMinute(before, zone)!.minute;
  const minute = (text: string): number => localToMinute(text, zone)!.minute;
  const build = (changes: Partial<Build>): Build => ({
    ...ROOMY,
    zone,
    unveiling: addDays(day, 60),
    ...changes,
  });

  it('is a day for every field that holds a date', () => {
    const stage = planFor(build({}), 'first', now).result.stages[0]!.id;
    const fields: Partial<Build>[] = [
      { unveiling: day },
      { earliestStart: day },
      { crew: [{ id: 'a', name: 'A', off: [day] }] },
      { outside: [{ id: 'p', name: 'Painter', slot: day, off: [addDays(day, 1)] }] },
      { pins: [{ stage, start: day }] },
      { records: [{ stage, start: day, end: null }] },
    ] as Partial<Build>[];
    let planned = 0;
    for (const field of fields) {
      const document = build(field);
      const parsed = buildSchema.safeParse(document);
      // Pins and records may be held to a time of day: then there is no bare date to plan.
      if (!parsed.success) continue;
      expect(readDocument(document, LIBRARY).ok).toBe(true);
      expect(planFor(document, 'first', now).result.stages.length).toBeGreaterThan(0);
      planned++;
    }
    expect(planned).toBeGreaterThanOrEqual(4);
  });

  it('begins with its first minute as the earliest start, and at 09:00 as the unveiling', () => {
    const started = contextOf(build({ earliestStart: day }), LIBRARY, now);
    expect(minuteToLocal(started.from, zone)).toMatchObject({ date: day, time: '01:00' });
    const unveiled = contextOf(build({ unveiling: day }), LIBRARY, now);
    expect(minuteToLocal(unveiled.deadline, zone)).toMatchObject({ date: day, time: '09:00' });
  });

  it('opens a slot with the hours of the party', () => {
    const outside = [
      { id: 'p', name: 'Painter', kind: 'paint', hours: ALWAYS, slot: day, workingDays: 1 },
    ];
    const crew = [
      { id: 'a', name: 'A', hours: ALWAYS },
      { id: 'b', name: 'B', hours: ALWAYS },
    ];
    const { result } = planFor(build({ outside, crew } as Partial<Build>), 'first', now);
    const job = result.stages.find((one) => one.kind === 'outside')!;
    expect(Date.parse(job.start!) / 60_000).toBe(minute(day));
    expect(Date.parse(job.end!) / 60_000).toBe(minute(day) + MINUTES_PER_DAY);
  });
});
