/** Rows of the library for what is done: labour, finishing, consequences, practice; and the library whole. */
import { z } from 'zod';
import { practiceRange, WIDEST } from '../practiceRange.ts';
import {
  MOST,
  factor,
  fraction,
  from,
  hoursLong,
  id,
  minutesEach,
  temperatureC,
  whole,
} from './scalars.ts';
import { FINISHES, HAZARDS, airKind, finish, hazard, stageKind } from './words.ts';
import {
  clothRow,
  consumableRow,
  coreRow,
  mouldRow,
  releaseRow,
  resinRow,
  rowBase,
} from './materials.ts';

const taughtRate = z.strictObject({
  /** Minutes of the row over those before any record counted. */
  factor,
  /** Spread before any record counted. */
  spread: fraction,
  /** By build, natural logarithms of worked over planned by the rates before any record counted. */
  builds: z
    .array(
      z.strictObject({
        build: id,
        records: whole(1, MOST.entries),
        logSum: from(-2 * MOST.entries, 2 * MOST.entries),
        squareSum: from(0, 2 * MOST.entries),
      }),
    )
    .max(MOST.rows),
});

/** Person-minutes of a stage = setup + perM2 x area + perPlyM2 x ply area + perEdgeM x edge. */
const labourRow = z.strictObject({
  ...rowBase,
  stage: stageKind,
  setupMinutes: minutesEach.default(0),
  minutesPerM2: minutesEach.default(0),
  minutesPerPlyM2: minutesEach.default(0),
  minutesPerEdgeM: minutesEach.default(0),
  shapeFactor: z
    .strictObject({ flat: factor, single: factor, double: factor })
    .default({ flat: 1, single: 1.15, double: 1.4 }),
  verticalFactor: factor.default(1.2),
  peopleMin: whole(1, 24).default(1),
  peopleMax: whole(1, 24).default(2),
  /** What area and edge are counted over: the whole part, or what lies under the bag of the layup. */
  over: z.enum(['part', 'bag']).default('part'),
  /** Minutes of ply grow with its area to this power: 1 in proportion; they are as stated at 1 m2. */
  plyExponent: from(0.3, 1).default(1),
  /** Spread of the hours by hand, as a fraction either way, where the two below are not given. */
  spread: fraction.default(0.25),
  /** Shortest and longest that it takes, times the likely hours; null: by the spread. */
  low: from(0.05, 1).nullable().default(null),
  high: from(1, 20).nullable().default(null),
  /** What the shop's own records made of the row; absent where none has counted. */
  taught: taughtRate.optional(),
});
export type LabourRow = z.infer<typeof labourRow>;

/** One round of fairing, priming or sanding, in order of `step`. */
const finishingRow = z.strictObject({
  ...rowBase,
  stage: z.enum(['fair', 'prime']),
  step: whole(1, 200),
  /** The last paper on the surface, P grade (FEPA); null: nothing is sanded, or it is not known. */
  lastGrit: whole(12, 5000).nullable().default(null),
  finishes: z.array(finish).max(FINISHES.length),
  minutesPerM2: from(0.01, 10_000),
  setupMinutes: minutesEach.default(15),
  air: airKind,
  /** Hours at 20 C before the next round may touch it. */
  waitHoursAt20C: hoursLong,
  massKgM2: from(0, 100),
  /** The round that fills: in as many lifts as the filler of the plan asks for. */
  fills: z.boolean().default(false),
  /** Hottest that what it leaves on the part stands, C; null: not known, or it leaves nothing. */
  standsC: temperatureC.nullable().default(null),
  hazards: z.array(hazard).max(HAZARDS.length).default(['dust']),
});
export type FinishingRow = z.infer<typeof finishingRow>;

export const consequenceEvent = z.enum([
  'joint-tack',
  'joint-one-bag',
  'joint-one-shot',
  'hard-demould',
  'wax-release',
  'vertical-core',
  'bond-window-missed',
  'many-thin-fills',
  'local-after',
  'section-joint',
  'dull-core',
  'repair-release',
  'repair-draft',
  'repair-core',
  'ground-through',
]);

/** What a choice at the bench costs later. */
const consequenceRow = z.strictObject({
  ...rowBase,
  event: consequenceEvent,
  fairMinutesPerM2: from(-100_000, 100_000).default(0),
  /** Work along the edge of what it touches. */
  fairMinutesPerEdgeM: from(-100_000, 100_000).default(0),
  fillerKgM2: from(-100, 100).default(0),
  extraHours: from(-20_000, 20_000).default(0),
  /** Hours at 20 C that nothing can be done on the part. */
  waitHoursAt20C: hoursLong.default(0),
  /** Joints: counts only in the bag of the outer skin (its face shows), or wherever it happens. */
  touches: z.enum(['face', 'any']).default('face'),
  /** The best finish that may still be promised. */
  bestFinish: finish,
  note: z.string().max(400).default(''),
});
export type ConsequenceRow = z.infer<typeof consequenceRow>;

/** A single number of trade practice, which a shop may hold otherwise. */
const practiceRow = z
  .strictObject({
    ...rowBase,
    value: from(...WIDEST),
    unit: z.string().max(30),
  })
  .superRefine((row, context) => {
    const { value, unit } = row;
    const [least, most] = practiceRange(row);
    if (value >= least && value <= most) return;
    const message = `${least} to ${most}${unit === '' ? '' : ` ${unit}`}`;
    context.addIssue({ code: 'custom', path: ['value'], message });
  });
export type PracticeRow = z.infer<typeof practiceRow>;

/** All tables of a library. A build embeds one that holds the rows it uses and no others. */
export const librarySchema = z.strictObject({
  resins: z.array(resinRow).max(MOST.rows).default([]),
  cloths: z.array(clothRow).max(MOST.rows).default([]),
  cores: z.array(coreRow).max(MOST.rows).default([]),
  consumables: z.array(consumableRow).max(MOST.rows).default([]),
  releases: z.array(releaseRow).max(MOST.rows).default([]),
  moulds: z.array(mouldRow).max(MOST.rows).default([]),
  labour: z.array(labourRow).max(MOST.rows).default([]),
  finishing: z.array(finishingRow).max(MOST.finishing).default([]),
  consequences: z.array(consequenceRow).max(MOST.rows).default([]),
  practice: z.array(practiceRow).max(MOST.rows).default([]),
});
export type Library = z.output<typeof librarySchema>;
export type LibraryTable = keyof Library;
