/** What the floor gave back: records, printed plans, lessons, and what was fixed by hand. */
import { z } from 'zod';
import {
  MOST,
  areaM2,
  from,
  hoursLong,
  id,
  isoInstant,
  localDateTime,
  longId,
  minutesEach,
  recordedDateTime,
  recordedMinute,
  text,
  whole,
} from './scalars.ts';
import { jointState } from './words.ts';
import { consequenceEvent } from './library.ts';

/** What a finished build cost the shop beyond its plan: the table of consequences learns from it. */
export const lessons = z.strictObject({
  finished: z.boolean().default(false),
  hardDemould: z.boolean().nullable().default(null),
  events: z
    .array(
      z.strictObject({
        event: consequenceEvent,
        areaM2,
        /** Fairing and filling beyond those of a build without it. */
        fairMinutes: minutesEach.default(0),
        extraHours: hoursLong.default(0),
        fillerKg: from(0, 10_000).default(0),
      }),
    )
    .max(500)
    .default([]),
});

/** The schedule on the shop's wall: what it said when it was printed. */
export const printedPlan = z.strictObject({
  at: localDateTime,
  /** Since then worked by instead of the paper: its times are the ones below. */
  acceptedAt: localDateTime.optional(),
  stages: z
    .array(
      z.strictObject({
        stage: id,
        start: localDateTime,
        /** Who does it and how, by the planner's own name. */
        mode: z.string().max(400).optional(),
      }),
    )
    .max(2000),
  /** Routes that were still open then, with their last moment; null: not known. */
  routes: z
    .array(
      z.strictObject({
        route: z.string().max(400),
        cures: z.array(z.string().max(200)).max(MOST.entries),
        closes: isoInstant.nullable(),
      }),
    )
    .max(2000)
    .optional(),
  /** What the sheets said, a short hash for each line, to tell later what has changed. */
  sheets: z
    .array(z.strictObject({ id: z.string().max(200), lines: z.array(z.string().max(8)).max(1000) }))
    .max(2000)
    .optional(),
});

/** A stage fixed by hand: the planner works around it. */
export const pin = z.strictObject({ stage: id, start: localDateTime });
/** What really happened. A correction is a later record of the same stage: it says all that holds of it. */
export const floorRecordSchema = z.strictObject({
  stage: id,
  start: recordedDateTime,
  end: recordedDateTime.nullable().default(null),
  note: z.string().max(500).default(''),
  /** Takes back what was recorded of the stage before: it has not begun. */
  takenBack: z.boolean().default(false),
  /** Batches by their numbers in the cure, each from its first contact. */
  mixes: z
    .array(
      z.strictObject({
        batch: whole(1, 1000),
        at: recordedMinute,
        massG: from(0, 1e6).nullable().default(null),
      }),
    )
    .max(1000)
    .default([]),
  /** The witness smear of the cure has gelled. */
  gelAt: recordedMinute.nullable().default(null),
  /** Who did it; empty: those of the plan. */
  people: z.array(id).max(MOST.people).default([]),
  /** Work of one person; null: as the clock says. */
  workedMinutes: minutesEach.nullable().default(null),
  /** The part on the scales once the stage is done. */
  massKg: from(0, 100_000).nullable().default(null),
  /** How the layups were joined in the route that was worked by; null: not noted. */
  joints: z.record(id, jointState).nullable().default(null),
});
export type FloorRecord = z.output<typeof floorRecordSchema>;
/** An order of the shop's own between two stages. */
export const link = z.strictObject({
  before: id,
  after: id,
  minHours: hoursLong.default(0),
  maxHours: hoursLong.nullable().default(null),
});
/** A lever that was pulled; the change itself is in the fields it touched. */
export const pulledLever = z.strictObject({ id: longId, label: text });
