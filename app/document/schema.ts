/**
 * The one definition of the Build document, the library rows and the plan result.
 * File, channel, store and tests all parse through it; the types are inferred from it.
 *
 * Lengths, masses, temperatures and times carry their unit in the name. Money is integer minor
 * units of the build's currency. Local times are wall-clock times in the build's zone.
 */
import { z } from 'zod';
import { WEEKDAYS } from '../time/week.ts';
import { practiceRange, WIDEST } from './practiceRange.ts';

/** The Build format this program writes; older ones are migrated, newer ones refused. */
export const DOCUMENT_VERSION = 2;

/** Version of the published plan result, raised only when the shape of its JSON changes. */
export const RESULT_VERSION = 2;

// ---------------------------------------------------------------------------------------------
// Scalars

const text = z.string().trim().min(1).max(200);
const id = z
  .string()
  .min(1)
  .max(80)
  .regex(/^[A-Za-z0-9][A-Za-z0-9._:+~/-]*$/, 'an id of letters, digits and . _ : + ~ / -');
/** A number within a physical range: nothing outside it reaches arithmetic. */
const from = (least: number, most: number) => z.number().min(least).max(most);
const whole = (least: number, most: number) => z.number().int().min(least).max(most);
/** Beyond the largest hall a shop could have: a slip of the unit, not a part. */
const areaM2 = from(0.0001, 1_000);
const edgeM = from(0, 10_000);
const sideM = from(0.001, 1000);
const thicknessMm = from(0.1, 2000);
/** Potted lift by lift, each with its cure. */
const rimDepthMm = from(0.1, 300);
const densityKgM3 = from(1, 25_000);
const gigapascals = from(0.001, 1000);
const minutesEach = from(0, 100_000);
const hoursLong = from(0, 20_000);
const factor = from(0.05, 20);
const fraction = z.number().min(0).max(1);
const temperatureC = z.number().min(-40).max(250);
const money = z.number().int();
const priceMinor = from(0, 1e12);

/** Lengths of lists: what a shop could have, so that the longest is still planned. */
const MOST = {
  plies: 60,
  zones: 200,
  people: 24,
  parties: 60,
  days: 2000,
  blocks: 1000,
  rows: 2000,
  finishing: 200,
  entries: 5000,
};

/** Years in which a build may lie. */
const FIRST_YEAR = 2000;
const LAST_YEAR = 2199;

const isoDay = z.iso.date();
const isoHourMinute = z.iso.time({ precision: -1 });

/** True when `YYYY-MM-DD` names a day of the Gregorian calendar from 2000 to 2199. */
export function isCalendarDay(value: string): boolean {
  const year = Number(value.slice(0, 4));
  return year >= FIRST_YEAR && year <= LAST_YEAR && isoDay.safeParse(value).success;
}

const calendarDay = z.string().refine(isCalendarDay, 'a day that exists, as YYYY-MM-DD');
/** 24:00, the end of a day, is no time of day for zod's own check. */
const wallTime = z
  .string()
  .regex(/^(([01]\d|2[0-3]):[0-5]\d|24:00)$/, 'a time of day as HH:MM, 00:00 to 24:00');
/** zod's own local date-time takes a trailing Z and no bare day, so day and time are checked apart. */
function isLocalDateTime(value: string): boolean {
  const [day = '', time, ...more] = value.split('T');
  if (more.length > 0 || !isCalendarDay(day)) return false;
  return time === undefined || isoHourMinute.safeParse(time).success;
}
const localDateTime = z
  .string()
  .refine(isLocalDateTime, 'a day and time that exist, as YYYY-MM-DDTHH:MM (or the day alone)');

const isoInstant = z
  .string()
  .regex(/^\d{4}-\d\d-\d\dT\d\d:\d\d[+-]\d\d:\d\d$/, 'an ISO 8601 instant with offset');
/** A wall-clock minute of a day: where a day alone could mean its first minute or all of it. */
const localMinute = z
  .string()
  .refine(
    (value) => value.length === 16 && isLocalDateTime(value),
    'a day and time that exist, as YYYY-MM-DDTHH:MM',
  );

/** Of an hour that the clock shows twice a record says which of the two, by its offset from UTC. */
const OFFSET = /[+-]\d\d:\d\d$/;
const recordedTime = (least: 10 | 16) =>
  z.string().refine((value) => {
    const plain = value.length === 22 && OFFSET.test(value) ? value.slice(0, 16) : value;
    return plain.length >= least && isLocalDateTime(plain);
  }, 'a day and time that exist, as YYYY-MM-DDTHH:MM, with its offset as +01:00 where the clock shows it twice');
const recordedDateTime = recordedTime(10);
const recordedMinute = recordedTime(16);

/** Those met so far: the runtime takes long to say. */
const knownZones = new Set<string>();

/** True when the runtime knows the IANA zone. */
export function isZone(value: string): boolean {
  if (knownZones.has(value)) return true;
  try {
    new Intl.DateTimeFormat('en', { timeZone: value });
    knownZones.add(value);
    return true;
  } catch {
    return false;
  }
}
const zone = z.string().max(80).refine(isZone, 'an IANA time zone such as Europe/Lisbon');
const currency = z.string().regex(/^[A-Z]{3}$/, 'a three-letter ISO 4217 code such as EUR');

const weekday = z.enum(WEEKDAYS);
const span = z
  .tuple([wallTime, wallTime])
  .refine(([from, to]) => from < to, 'a span whose end is after its start');
const spans = z
  .array(span)
  .max(24)
  .refine(
    (list) => list.every((s, i) => i === 0 || list[i - 1]![1] <= s[0]),
    'spans in order that do not overlap',
  );
const hours = z.partialRecord(weekday, spans);

/** Default working week of crew and outside parties: common practice, shown as an assumption. */
const shopWeek = () => {
  const day: [string, string][] = [
    ['07:30', '12:00'],
    ['12:30', '16:30'],
  ];
  return { mon: day, tue: day, wed: day, thu: day, fri: day };
};
const outsideWeek = () => {
  const day: [string, string][] = [['08:00', '17:00']];
  return { mon: day, tue: day, wed: day, thu: day, fri: day };
};

// ---------------------------------------------------------------------------------------------
// Words shared by build, library and result

/** What a stage is. Trade words; the order is the order in which a build meets them. */
export const STAGE_KINDS = [
  'sign-off',
  'order',
  'arrival',
  'machining',
  'mould',
  'seal',
  'bag-test',
  'test-panel',
  'release',
  'resin-warm',
  'mould-heat',
  'cutting',
  'core-fit',
  'inserts',
  'rehearsal',
  'prepare',
  'layup',
  'watched-vacuum',
  'cure',
  'bag-off',
  'tap-test',
  'heat-setup',
  'post-cure',
  'heat-takedown',
  'demould',
  'repair',
  'trim',
  'dry-fit',
  'closeout',
  'edge-fill',
  'rim',
  'fit-check',
  'fair',
  'prime',
  'wait',
  'wrap',
  'drive',
  'outside',
  'hardware',
  'hand-over',
  'own',
] as const;
const stageKind = z.enum(STAGE_KINDS);
export type StageKind = z.infer<typeof stageKind>;

export const JOINT_STATES = ['apart', 'tack', 'one-bag'] as const;
const jointState = z.enum(JOINT_STATES);
export type JointState = z.infer<typeof jointState>;

export const FINISHES = ['clear', 'painted', 'hidden'] as const;
const finish = z.enum(FINISHES);
export type Finish = z.infer<typeof finish>;

/** Room air: two different ones never share a room, and an hour is needed to clean between. */
export const AIR_KINDS = ['dust', 'wet', 'release', 'spray'] as const;
const airKind = z.enum(AIR_KINDS);
export type AirKind = z.infer<typeof airKind>;

export const MILESTONES = [
  'open',
  'gel',
  'tackFree',
  'debag',
  'demould',
  'sand',
  'bondUntil',
  'full',
] as const;
export type Milestone = (typeof MILESTONES)[number];

export const HAZARDS = [
  'skin-sensitiser',
  'corrosive',
  'peroxide',
  'styrene',
  'solvent',
  'dust',
  'exotherm',
  'lifting',
  'isocyanate',
] as const;
const hazard = z.enum(HAZARDS);
export type Hazard = z.infer<typeof hazard>;

// ---------------------------------------------------------------------------------------------
// Library rows

const provenance = z.strictObject({
  kind: z.enum(['data-sheet', 'measured', 'published', 'common-practice', 'assumed', 'demo']),
  source: z.string().max(300),
  /** A figure of the row is quoted from memory: nobody has looked it up. */
  fromMemory: z.literal(true).optional(),
  /** How the row was typed into its build: as a sheet, or from one pot-life row. */
  typed: z.enum(['sheet', 'pot-life']).optional(),
});
export type Provenance = z.infer<typeof provenance>;

const rowBase = {
  id,
  revision: whole(1, 1e9).default(1),
  name: text,
  provenance,
  /** A build that froze its table before the row was there does without it until it takes it. */
  byOffer: z.literal(true).optional(),
};
const purchase = {
  /** Price of one `unit` in minor currency units; null and 0: not known. */
  priceMinor: priceMinor.nullable().default(null),
  /** Working days of the supplier from order to arrival; null: not known. */
  leadDays: whole(0, 3650).nullable().default(null),
  /** Who delivers it; null: everything comes in one delivery, as in builds of before. */
  supplier: id.nullable().default(null),
};

/** What a smear and a leftover cup said against the sheet. */
const benchCorrection = z.strictObject({
  /** Times of the film over those of the sheet's own curve. */
  filmTimes: from(0.125, 8).default(1),
  /** Pace of the reaction in a cup over the one that the sheet's own curve gives it. */
  cupPace: from(1 / 64, 64).default(1),
});

/** One row of a resin data sheet, or one read off the shop's own cup or flange. */
const sheetRow = z.strictObject({
  what: z.enum([
    'pot-life',
    'film-open',
    'film-gel',
    'tack-free',
    'debag',
    'demould',
    'sand',
    'bond-until',
    'full',
  ]),
  temperatureC,
  minutes: from(0.1, 200_000),
  /** Mixed mass, for pot life rows. */
  massG: from(1, 200_000).optional(),
  vessel: z.enum(['cup', 'tray', 'film']).optional(),
});
export type SheetRow = z.infer<typeof sheetRow>;

const hardenerRow = z.strictObject({
  id,
  name: text,
  provenance,
  /** Grams of hardener for 100 g of resin. */
  partsPer100ByMass: from(0.1, 500),
  partsPer100ByVolume: from(0.1, 500).nullable().default(null),
  densityKgM3: densityKgM3.default(1000),
  sheet: z.array(sheetRow).min(1).max(200),
  /** Lowest temperature at which the maker allows its use. */
  minimumC: temperatureC.default(15),
  /** Highest glass transition, after full post-cure. */
  tgFullC: temperatureC.nullable().default(null),
  postCure: z
    .array(z.strictObject({ temperatureC, hours: from(0.1, 1000) }))
    .max(20)
    .default([]),
  heatOfReactionJG: from(10, 1500).nullable().default(null),
  hazards: z
    .array(hazard)
    .max(HAZARDS.length)
    .default(['skin-sensitiser', 'corrosive', 'exotherm']),
  /** What smear and leftover cup said against the sheet; absent: nothing yet. */
  bench: benchCorrection.optional(),
  ...purchase,
});
export type HardenerRow = z.infer<typeof hardenerRow>;

const resinRow = z.strictObject({
  ...rowBase,
  chemistry: z.enum(['epoxy', 'polyester', 'vinyl-ester']).default('epoxy'),
  densityKgM3: densityKgM3.default(1150),
  curedDensityKgM3: densityKgM3.default(1180),
  hazards: z.array(hazard).max(HAZARDS.length).default(['skin-sensitiser', 'exotherm']),
  hardeners: z.array(hardenerRow).min(1).max(60),
  ...purchase,
});
export type ResinRow = z.infer<typeof resinRow>;

const clothRow = z.strictObject({
  ...rowBase,
  fibre: z.enum(['carbon', 'glass', 'aramid', 'flax', 'other']),
  weave: z.string().max(60).default(''),
  arealGM2: from(1, 10_000),
  fibreDensityKgM3: densityKgM3,
  /** Fibre volume fraction reached by hand wet-out under a vacuum bag. */
  fibreFraction: from(0.01, 0.9).default(0.45),
  /** In-plane moduli of the cured ply, for stiffness. */
  e1GPa: gigapascals.nullable().default(null),
  e2GPa: gigapascals.nullable().default(null),
  g12GPa: gigapascals.nullable().default(null),
  nu12: z.number().min(0).max(0.9).nullable().default(null),
  rollWidthMm: from(10, 20_000).default(1270),
  /** Price per square metre. */
  ...purchase,
});
export type ClothRow = z.infer<typeof clothRow>;

const CORE_TREATMENTS = ['plain', 'drilled', 'scored', 'grooved'] as const;
const coreTreatment = z.enum(CORE_TREATMENTS);

const coreRow = z.strictObject({
  ...rowBase,
  family: z.enum(['pvc', 'san', 'pet', 'balsa', 'xps', 'eps', 'honeycomb', 'other']),
  densityKgM3,
  shearModulusMPa: from(0.01, 50_000).nullable().default(null),
  shearStrengthMPa: from(0.001, 1000).nullable().default(null),
  maxC: temperatureC,
  /** Bag pressure the core takes for hours without creeping. */
  maxVacuumKPa: from(1, 110).default(95),
  /** False when styrene dissolves it. */
  takesStyrene: z.boolean(),
  sheetMm: z.tuple([from(10, 20_000), from(10, 20_000)]).default([1200, 1000]),
  thicknessesMm: z.array(thicknessMm).max(200).default([]),
  /** Resin taken by one bonded face and its kerfs, by treatment. */
  uptakeGM2: z.record(coreTreatment, from(0, 20_000)),
  /** Price per cubic metre. */
  ...purchase,
});
export type CoreRow = z.infer<typeof coreRow>;

const consumableRow = z.strictObject({
  ...rowBase,
  use: z.enum([
    'peel-ply',
    'release-film',
    'flow-mesh',
    'breather',
    'bag-film',
    'sealant-tape',
    'filler',
    'primer',
    'abrasive',
    'gloves',
    'cups',
    'sticks',
    'brushes',
    'solvent',
    'sealer',
    'edge-filler',
    'wrap',
    'potting',
  ]),
  unit: z.enum(['m2', 'm', 'kg', 'piece']),
  /** Quantity = perM2 x area + perEdgeM x edge + perBatch x batches + fixed. */
  perM2: from(0, 10_000).default(0),
  perEdgeM: from(0, 10_000).default(0),
  perBatch: from(0, 10_000).default(0),
  fixed: from(0, 10_000).default(0),
  /** Counted once for every bag (true) or once for the part (false). */
  everyBag: z.boolean().default(false),
  finishes: z
    .array(finish)
    .max(FINISHES.length)
    .default([...FINISHES]),
  /** Hottest that it stands once hard, cured in the room, C; null: not known. Fillers alone. */
  standsC: temperatureC.nullable().default(null),
  /** A fairing filler by its sheet: null for one that is not chosen by the plan, and for all else. */
  filling: z
    .strictObject({
      /** Thickest in one pass. */
      liftMm: from(0.1, 100),
      /** At 20 C, before the next lift goes on, and before the last one is sanded. */
      cureHours: hoursLong,
      sandAfterHours: hoursLong,
      /** A bake above what it stands; paint that is seen, under which it sinks later. */
      notUnder: z
        .array(z.enum(['bake', 'seen-paint']))
        .max(2)
        .default([]),
    })
    .nullable()
    .default(null),
  hazards: z.array(hazard).max(HAZARDS.length).default([]),
  ...purchase,
});
export type ConsumableRow = z.infer<typeof consumableRow>;

const releaseRow = z.strictObject({
  ...rowBase,
  type: z.enum(['wax', 'semi-permanent', 'pva', 'film']),
  coats: whole(1, 50),
  minutesPerM2: from(0.01, 10_000),
  betweenCoatsMinutes: whole(0, 100_000),
  /** From the last coat to the first mix, at least. */
  lastWaitMinutes: whole(0, 100_000),
  /** From the last coat to the first mix, at most: dust and fingers spoil it after. */
  keepsHours: from(0.1, 20_000),
  /** Film lies on flat or single curvature only. */
  shapes: z
    .array(z.enum(['flat', 'single', 'double']))
    .max(3)
    .default(['flat', 'single', 'double']),
  hardDemouldChance: fraction,
  hazards: z.array(hazard).max(HAZARDS.length).default(['solvent']),
  /** Price per square metre of mould. */
  ...purchase,
});
export type ReleaseRow = z.infer<typeof releaseRow>;

const mouldRow = z.strictObject({
  ...rowBase,
  maxC: temperatureC,
  growthPerK: from(0, 0.001),
  takesStyrene: z.boolean(),
  sealCoats: whole(0, 50).default(3),
  sealMinutesPerM2: from(0, 10_000).default(8),
  sealCureHours: hoursLong.default(24),
  /** Hours in which it comes within 1/e of a change of the room. */
  lagHours: from(0, 1000).default(0),
  /** Price per square metre of mould surface, blank and machining stated apart. */
  blankMinorPerM2: priceMinor.default(0),
  machiningMinorPerM2: priceMinor.default(0),
  /** Who delivers the blank, and in how many of its working days; null: not known. */
  supplier: id.nullable().default(null),
  blankLeadDays: whole(0, 3650).nullable().default(null),
});
export type MouldRow = z.infer<typeof mouldRow>;

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

const consequenceEvent = z.enum([
  'joint-tack',
  'joint-one-bag',
  'hard-demould',
  'wax-release',
  'vertical-core',
  'bond-window-missed',
  'many-thin-fills',
  'local-after',
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

// ---------------------------------------------------------------------------------------------
// The Build document

const ply = z.strictObject({
  cloth: id,
  angleDeg: z.number().min(-90).max(90).default(0),
});
export type Ply = z.output<typeof ply>;

const partZone = z.strictObject({
  id: id.optional(),
  name: text.optional(),
  areaM2,
  /** Free edge to close; assumed to be four times the square root of the area. */
  edgeM: edgeM.optional(),
  shape: z.enum(['flat', 'single', 'double']).default('single'),
  vertical: z.boolean().default(false),
  /** What is seen of it; null: the finish of the part. */
  finish: finish.nullable().default(null),
  /** Length along the 0 line and girth across it; null: read as a square of the area. */
  sizeM: z.tuple([sideM, sideM]).nullable().default(null),
  /** Tightest radius that the core is bent to; null: not given. */
  radiusMm: from(0.1, 1e6).nullable().default(null),
  /** Room for the whole stack, to a counter-mould or a neighbouring part; null: open. */
  gapMm: from(0.1, 10_000).nullable().default(null),
  outer: z.array(ply).max(MOST.plies),
  core: z
    .strictObject({
      material: id,
      thicknessMm,
      treatment: coreTreatment.default('drilled'),
    })
    .nullable()
    .default(null),
  inner: z.array(ply).max(MOST.plies),
  local: z
    .array(
      z.strictObject({
        ...ply.shape,
        place: z.enum(['outer', 'between', 'inner', 'after']),
        areaM2: areaM2.optional(),
      }),
    )
    .max(MOST.plies)
    .default([]),
  closeout: z
    .strictObject({
      widthMm: thicknessMm.default(60),
      plies: z.array(ply).max(MOST.plies),
      peelPly: z.boolean().default(true),
    })
    .nullable()
    .default(null),
});

const question = z.strictObject({
  id,
  text,
  answer: z.string().max(500).nullable().default(null),
  before: stageKind,
  /** Before an order: of what alone; null: of everything. */
  of: z.enum(['resin']).nullable().default(null),
});

const part = z.strictObject({
  finish: finish.default('painted'),
  targetMassKg: from(0.001, 100_000).nullable().default(null),
  targetIncludes: z.enum(['shell', 'faired', 'painted']).default('shell'),
  serviceMaxC: temperatureC.default(50),
  structural: z.boolean().default(false),
  /** How well the crew knows parts like this one. */
  familiarity: z.enum(['first', 'some', 'usual']).default('usual'),
  zones: z
    .array(partZone)
    .max(MOST.zones)
    .transform((list) =>
      list.map((z, i) => ({
        ...z,
        id: z.id ?? `zone-${i + 1}`,
        name: z.name ?? `Zone ${i + 1}`,
        edgeM: z.edgeM ?? Math.round(4 * Math.sqrt(z.areaM2) * 100) / 100,
      })),
    ),
  questions: z.array(question).max(500).default([]),
  /** How the edge is closed; null: filled and taped as the shop sees fit. */
  edge: z
    .strictObject({
      /** Tape goes on the wet filler, or after a night and a sanding: between the two it is neither. */
      tape: z.enum(['at-once', 'after-night']).default('at-once'),
      /** Potted solid, level on a released flat: how deep from the edge, and through what thickness. */
      rim: z.strictObject({ widthMm: thicknessMm, depthMm: rimDepthMm }).nullable().default(null),
    })
    .nullable()
    .default(null),
  /** Deepest hollow that is filled once the part is out of its mould, mm; null: as the shop's practice has it. */
  deepestFillMm: thicknessMm.nullable().default(null),
  /** Solid laminate made on a flat beside the chain, and let into the core. */
  inserts: z
    .array(
      z.strictObject({
        name: text,
        count: whole(1, 500),
        /** Area of one, m2. */
        areaM2,
        cloth: id,
        plies: whole(1, MOST.plies),
      }),
    )
    .max(60)
    .default([]),
  /** When the frame or the place that it goes on is there to be fitted to; null: at any time. */
  frame: z
    .strictObject({
      from: localDateTime.nullable().default(null),
      until: localDateTime.nullable().default(null),
    })
    .nullable()
    .default(null),
  /** What repair takes once the part has been looked over, and whether plies are replaced; null: not seen yet. */
  repair: z
    .strictObject({ hours: hoursLong.default(0), plies: z.boolean().default(false) })
    .nullable()
    .default(null),
});

const person = z.strictObject({
  id: id.optional(),
  name: text,
  hours: hours.default(shopWeek),
  off: z.array(calendarDay).max(MOST.days).default([]),
  /** Hours beyond the week that are worked by permission only, where a date needs them. */
  overtime: hours.default({}),
});

const outsideParty = z.strictObject({
  id: id.optional(),
  name: text,
  /** When the part comes to it, counted from 1; null: by its place in the list. */
  visit: whole(1, 1000).nullable().default(null),
  kind: z.enum(['machining', 'paint', 'transport', 'install', 'other']).default('paint'),
  workingDays: from(0.05, 1000),
  /** Zone of the party's own clock; the build's when absent. */
  zone: zone.nullable().default(null),
  hours: hours.default(outsideWeek),
  off: z.array(calendarDay).max(MOST.days).default([]),
  /** The booked first day, or null while nothing is booked. */
  slot: calendarDay.nullable().default(null),
  /** Hottest bake the part will see there. */
  bakeC: temperatureC.nullable().default(null),
  /** The weekday on which the party takes work in; null: any day it works. */
  leavesFrom: weekday.nullable().default(null),
  /** Who carries the part there and back: the shop or the party; null: nobody has said. */
  carriedBy: z.enum(['shop', 'party']).nullable().default(null),
  /** Drive one way, h; null: not known. */
  driveHours: from(0, 100).nullable().default(null),
});

/** By the number of their visit, which is their place in the list where none is given. */
function inVisitOrder<T extends { readonly visit: number | null }>(list: readonly T[]): T[] {
  return list
    .map((party, i) => ({ party, visit: party.visit ?? i + 1 }))
    .toSorted((a, b) => a.visit - b.visit)
    .map(({ party }) => party);
}

/** Who delivers material, by the id that rows of the library name. */
const supplierSchema = z.strictObject({
  id,
  name: text,
  /** When it takes orders and when its goods are taken in, on the build's own clock. */
  hours: hours.default(outsideWeek),
  off: z.array(calendarDay).max(MOST.days).default([]),
  /** Its working days from order to arrival for all that it delivers; null: as its rows say. */
  leadDays: whole(0, 3650).nullable().default(null),
});

/** Gear that another job can take for some hours. */
const sharedGear = z.enum(['mould', 'pump', 'tent', 'bench']);

/** Another job or an absence: hours of a person or party, or gear of the shop, that are not to be had. */
const busyBlock = z
  .strictObject({
    id: id.optional(),
    what: text,
    who: z.discriminatedUnion('kind', [
      z.strictObject({ kind: z.literal('person'), id }),
      z.strictObject({ kind: z.literal('outside'), id }),
      z.strictObject({ kind: sharedGear, amount: whole(1, 60).default(1) }),
    ]),
    /** On the build's wall clock, for an outside party as well. */
    from: localMinute,
    until: localMinute,
  })
  .refine((block) => block.from < block.until, {
    path: ['until'],
    message: 'a time after the one it begins at',
    when: ({ issues }) => issues.length === 0,
  });

/** A day on which nobody works, kept in the document so that no library can move it later. */
const holiday = z.strictObject({
  date: calendarDay,
  name: text,
  /** `outside`: suppliers and every outside party. */
  for: z.union([z.literal('shop'), z.literal('outside'), z.strictObject({ party: id })]),
  /** Where the day was taken from. */
  source: z.string().trim().max(200).default('own entry'),
});

/** A logger's file folded to even steps, in place of what the room was expected to be. */
const measuredRoom = z.strictObject({
  name: text,
  /** Where the logger lay: in the air of the room, or on the coldest spot of mould and part. */
  place: z.enum(['air', 'part']).default('air'),
  /** Start of the first step, UTC. */
  from: z.iso.datetime(),
  stepMinutes: z.number().int().min(1).max(1440).default(60),
  temperaturesC: z.array(temperatureC).min(1).max(20_000),
});

/** Never; through nights, but not through a day on which nobody works; always. */
export const HEAT_ALONE = ['never', 'nights', 'weekends'] as const;
export type HeatAlone = (typeof HEAT_ALONE)[number];

const roomSchema = z.strictObject({
  temperatureC: z
    .strictObject({ day: temperatureC.default(20), night: temperatureC.default(16) })
    .default({ day: 20, night: 16 }),
  dayFrom: wallTime.default('07:00'),
  nightFrom: wallTime.default('19:00'),
  humidityPct: z.number().min(0).max(100).default(55),
  tent: z.strictObject({ maxC: temperatureC }).nullable().default(null),
  /** How long tent or oven may heat while nobody is in the shop. */
  heatAlone: z.enum(HEAT_ALONE).default('nights'),
  measured: measuredRoom.nullable().default(null),
});

/** Tent or oven over one cure, from its sealed bag on: each step a ramp and a hold. */
const heatProgramme = z.strictObject({
  /** Any layup of the cure. */
  layup: id,
  steps: z
    .array(z.strictObject({ temperatureC, rampKPerHour: from(0.1, 600), holdHours: from(0, 1000) }))
    .min(1)
    .max(12),
});
export type HeatProgramme = z.output<typeof heatProgramme>;

/** What a finished build cost the shop beyond its plan: the table of consequences learns from it. */
const lessons = z.strictObject({
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
const printedPlan = z.strictObject({
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
const pin = z.strictObject({ stage: id, start: localDateTime });
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
const link = z.strictObject({
  before: id,
  after: id,
  minHours: hoursLong.default(0),
  maxHours: hoursLong.nullable().default(null),
});
/** A lever that was pulled; the change itself is in the fields it touched. */
const pulledLever = z.strictObject({ id, label: text });

const buildFields = {
  formatVersion: z.number().int().min(1).default(DOCUMENT_VERSION),
  id: id.default('build'),
  name: text,
  zone,
  currency: currency.default('EUR'),
  unveiling: localDateTime,
  earliestStart: localDateTime.nullable().default(null),
  part,
  mould: z
    .strictObject({
      material: id.default('board-medium'),
      maxC: temperatureC.nullable().default(null),
      release: id.default('wax-paste'),
      sealed: z.boolean().default(false),
      /** The shop machines it itself; an outside party for machining goes before it. */
      machinedInHouse: z.boolean().default(false),
      /** Agreed price of the machining; null: the rate of the mould's row, or not known in the house. */
      machiningMinor: priceMinor.nullable().default(null),
      /** A small panel of resin, release and primer is laid before the mould is released. */
      testPanel: z.boolean().default(false),
      /** Draft of its steepest wall, degrees; null: not given. */
      draftDeg: from(0, 90).nullable().default(null),
      /** Hours that the mould is warmed before the first mix; null: not at all. */
      warmUpHours: from(0.5, 48).nullable().default(null),
    })
    .prefault({}),
  resin: z.strictObject({
    system: id,
    hardener: id,
    /** Another hardener of the system for single layups, by layup id. */
    hardenerFor: z.record(id, id).default({}),
    /** What smear and cup said of one cure alone, by its layups; it goes before that of the hardener. */
    benchFor: z.record(id, benchCorrection).default({}),
  }),
  heat: z.array(heatProgramme).max(20).default([]),
  room: roomSchema.prefault({}),
  crew: z
    .array(person)
    .max(MOST.people)
    .transform((list) => list.map((p, i) => ({ ...p, id: p.id ?? `person-${i + 1}` }))),
  gear: z
    .strictObject({
      moulds: whole(0, 60).default(1),
      pumpPorts: whole(0, 60).default(2),
      tents: whole(0, 60).default(0),
      benches: whole(0, 60).default(1),
    })
    .prefault({}),
  outside: z
    .array(outsideParty)
    .max(MOST.parties)
    .default([])
    .transform((list) =>
      inVisitOrder(list.map((o, i) => ({ ...o, id: o.id ?? `outside-${i + 1}` }))),
    ),
  suppliers: z.array(supplierSchema).max(MOST.parties).default([]),
  busy: z
    .array(busyBlock)
    .max(MOST.blocks)
    .default([])
    .transform((list) => list.map((block, i) => ({ ...block, id: block.id ?? `busy-${i + 1}` }))),
  holidays: z.array(holiday).max(MOST.days).default([]),
  route: z
    .union([z.literal('best'), z.strictObject({ joints: z.record(id, jointState) })])
    .default('best'),
  /** The outside visit after which the edge is closed; null: before anything leaves the shop. */
  closeoutAfter: id.nullable().default(null),
  pins: z.array(pin).max(MOST.entries).default([]),
  links: z.array(link).max(500).default([]),
  levers: z.array(pulledLever).max(500).default([]),
  records: z.array(floorRecordSchema).max(MOST.entries).default([]),
  printed: printedPlan.nullable().default(null),
  /** Size of the paper; left out: that of the place. */
  paper: z.enum(['a4', 'letter']).optional(),
  lessons: lessons.prefault({}),
  /** What lies in the shop, by kit line id, in the unit of the line. */
  stock: z
    .array(z.strictObject({ row: id, quantity: from(0, 1e6) }))
    .max(MOST.rows)
    .default([]),
  library: librarySchema.prefault({}),
};

export const buildSchema = z.strictObject(buildFields);
/** The document as it is stored and typed: what is absent is assumed, and shown as assumed. */
export type Build = z.input<typeof buildSchema>;
/** The document with every assumption filled in; what the pipeline works on. */
export type FullBuild = z.output<typeof buildSchema>;
export type PartZone = FullBuild['part']['zones'][number];
export type OutsideParty = FullBuild['outside'][number];
export type Supplier = FullBuild['suppliers'][number];
export type Person = FullBuild['crew'][number];
export type BusyBlock = FullBuild['busy'][number];
export type Holiday = FullBuild['holidays'][number];
export type Hours = z.output<typeof hours>;

// ---------------------------------------------------------------------------------------------
// The plan result: the contract of the headless command

const maybeInstant = isoInstant.nullable();

const lever = z.strictObject({
  id: z.string(),
  label: z.string(),
  hoursGained: z.number(),
  cost: money,
  sideEffects: z.array(z.string()),
  /** Codes of the findings that it would clear. */
  clears: z.array(z.string()),
  /** What the plan says once it is pulled, planned again with everything else as it is. */
  after: z
    .strictObject({
      fits: z.boolean(),
      /** Minutes late at the worst moment that is due; negative: to spare; null: not placed. */
      lateMinutes: z.number().nullable(),
      /** Findings that still stop. */
      stops: z.number().int(),
    })
    .optional(),
});
export type Lever = z.infer<typeof lever>;

const finding = z.strictObject({
  code: z.string().regex(/^[a-z0-9]+(-[a-z0-9]+)*$/),
  severity: z.enum(['stop', 'warn', 'note']),
  stage: z.string().nullable(),
  message: z.string(),
  numbers: z.record(z.string(), z.union([z.number(), z.string(), z.null()])),
  levers: z.array(lever),
  /** True where it withholds the cards of what it makes unsafe. */
  unsafe: z.literal(true).optional(),
});
export type Finding = z.infer<typeof finding>;

/**
 * Recorded with its end; going on now; not recorded, but what is recorded can only have come after it.
 */
export const STAGE_STATES = ['done', 'running', 'implied'] as const;

const stageResult = z.strictObject({
  id: z.string(),
  name: z.string(),
  kind: stageKind,
  /** The cure it belongs to, if any. */
  cure: z.string().nullable(),
  start: maybeInstant,
  end: maybeInstant,
  earliestStart: maybeInstant,
  latestStart: maybeInstant,
  latestEnd: maybeInstant,
  floatHours: z.number().nullable(),
  critical: z.boolean(),
  people: z.array(z.string()),
  gear: z.array(z.string()),
  attended: z.array(z.strictObject({ start: isoInstant, end: isoInstant })),
  /** Unanswered questions that it waits for; while there are any it is not released. */
  waitsFor: z.array(z.string()).optional(),
  /** Why it may not be done, in the words of the findings; left out where it may. */
  withheld: z.array(z.string()).optional(),
  /** Left out where it has not begun. */
  state: z.enum(STAGE_STATES).optional(),
});
export type StageResult = z.infer<typeof stageResult>;

const cureResult = z.strictObject({
  id: z.string(),
  name: z.string(),
  temperatureC: z.strictObject({ min: z.number(), max: z.number() }).nullable(),
  firstMix: maybeInstant,
  /** Until then the film on the mould can be worked. */
  openUntil: maybeInstant,
  bagBy: maybeInstant,
  /** Earliest gel: bag down well before, somebody there from here on. */
  gel: maybeInstant,
  /** Latest gel, of the resin mixed last: the pump runs until then; the smear decides. */
  gelLatest: maybeInstant,
  debagFrom: maybeInstant,
  demouldFrom: maybeInstant,
  sandFrom: maybeInstant,
  bondUntil: maybeInstant,
  fullFrom: maybeInstant,
  /** Glass transition when it may leave the mould. */
  tgAtDemouldC: z.number().nullable(),
  /** Glass transition as it will be, post-cure counted. */
  tgC: z.number().nullable(),
  peakC: z.number().nullable(),
});
export type CureResult = z.infer<typeof cureResult>;

const mixResult = z.strictObject({
  cure: z.string(),
  batch: z.number().int().min(1),
  resinG: z.number(),
  hardenerG: z.number(),
  totalG: z.number(),
  mixAt: maybeInstant,
  useBy: maybeInstant,
  potLifeMin: z.number().nullable(),
  peakC: z.number().nullable(),
});
export type MixResult = z.infer<typeof mixResult>;

const routeResult = z.strictObject({
  id: z.string(),
  cures: z.array(z.string()),
  joints: z.record(z.string(), jointState),
  closes: maybeInstant,
  closesProven: z.boolean(),
  closedBy: z.strictObject({ stage: z.string(), resource: z.string() }).nullable(),
  open: z.boolean(),
  possible: z.boolean(),
  fits: z.boolean(),
  labourHours: z.number(),
  materialCost: money,
  massKg: z.number(),
  finish,
  onTime: z.number().min(0).max(1).nullable(),
  /** When its plan is done; null: it cannot be placed. */
  ready: maybeInstant.optional(),
  /** The least that its plan has to spare, before which of its stages; `before` null: the unveiling. */
  spare: z
    .strictObject({
      before: z.string().nullable(),
      workDays: z.number().int(),
      workMinutes: z.number().int(),
    })
    .nullish(),
  findings: z.array(finding),
  /** When it closes and what is left after that, in words; null while it is not known. */
  closingWords: z.strictObject({ closes: z.string(), after: z.string() }).nullish(),
  /** What its joints, release and shape cost later, line by line. */
  price: z
    .array(
      z.strictObject({
        event: z.string(),
        name: z.string(),
        /** How sure it is, 0 to 1; hours and mass are already multiplied by it. */
        chance: fraction,
        hours: z.number(),
        fillerKg: z.number(),
        bestFinish: finish,
      }),
    )
    .optional(),
});
export type RouteResult = z.infer<typeof routeResult>;

const totalRow = z.strictObject({ id: z.string(), name: z.string(), value: z.number() });

export const planResultSchema = z.strictObject({
  /** `RESULT_VERSION` of the program that planned; it says nothing about the document's format. */
  formatVersion: z.number().int(),
  build: z.strictObject({ id: z.string(), name: z.string(), zone, currency }),
  now: isoInstant,
  deadline: isoInstant,
  fits: z.boolean(),
  route: z.strictObject({
    id: z.string(),
    cures: z.array(
      z.strictObject({ id: z.string(), name: z.string(), layups: z.array(z.string()) }),
    ),
    /** Why it is taken, in one sentence; left out where the document names it, or is not known yet. */
    why: z.string().optional(),
  }),
  stages: z.array(stageResult),
  cures: z.array(cureResult),
  mixes: z.array(mixResult),
  routes: z.array(routeResult),
  findings: z.array(finding),
  /** From the unveiling to the end of the plan; negative: to spare. null: nothing is placed. */
  lateMinutes: z.number().int().nullish(),
  /** The next moment that cannot move; null: nothing is left to start, or nothing is placed. */
  nextDeadline: z
    .strictObject({
      at: isoInstant,
      stage: z.string(),
      /** The closing time of the taken route, or (a first answer) the order of this plan alone. */
      by: z.enum(['closing', 'plan']),
      /** No other plan of the route puts it off. */
      proven: z.boolean(),
    })
    .nullish(),
  /** What is to spare before each date that binds, nearest first. */
  spare: z
    .array(
      z.strictObject({
        /** The stage whose date it is: a booked slot, a pin; null: the unveiling. */
        before: z.string().nullable(),
        at: isoInstant,
        /** In the shop's hours: whole days, and minutes beyond them; negative: too late by so much. */
        workDays: z.number().int(),
        workMinutes: z.number().int(),
        elapsedMinutes: z.number().int(),
        tightest: z.string(),
      }),
    )
    .optional(),
  /** Stages that start at another moment than the printed schedule says. */
  moved: z
    .array(z.strictObject({ stage: z.string(), from: isoInstant, to: isoInstant }))
    .optional(),
  /** How good the plan is known to be. */
  search: z
    .strictObject({
      /** No better plan of this route exists. */
      provenBest: z.boolean(),
      /** No plan of this route ends sooner by more than this; 0 when proven; null while not known. */
      gapHours: z.number().nullable(),
      /** Schedules looked at for it. */
      schedules: z.number().int(),
    })
    .optional(),
  totals: z.strictObject({
    labourHours: z.number(),
    materialCost: money,
    massKg: z.number(),
    targetMassKg: z.number().nullable(),
    /** Lines of the kit that have no price: they are not in `materialCost`. */
    unpricedLines: z.number().int().optional(),
    /** Lines of the kit whose time from order to arrival is not known. */
    linesWithoutLeadTime: z.number().int().optional(),
    /** Who machines the mould, and its price; null: not known, and not in `materialCost`. */
    machining: z
      .strictObject({
        by: z.enum(['outside', 'house', 'hand', 'none']),
        cost: money.nullable(),
      })
      .optional(),
  }),
  /** What the totals are made up of; each list adds up to its total to the last digit. */
  breakdown: z
    .strictObject({
      labourHours: z.array(totalRow),
      materialCost: z.array(z.strictObject({ ...totalRow.shape, value: money.nullable() })),
      massKg: z.array(totalRow),
    })
    .optional(),
});
export type PlanResult = z.infer<typeof planResultSchema>;
