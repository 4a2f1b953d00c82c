/** Rows of the library for what is bought: resin, cloth, core, consumables, release, mould. */
import { z } from 'zod';
import {
  densityKgM3,
  fraction,
  from,
  gigapascals,
  hoursLong,
  id,
  priceMinor,
  temperatureC,
  text,
  thicknessMm,
  whole,
} from './scalars.ts';
import { FINISHES, HAZARDS, PROCESSES, finish, hazard, process } from './words.ts';

const provenance = z.strictObject({
  kind: z.enum(['data-sheet', 'measured', 'published', 'common-practice', 'assumed', 'demo']),
  source: z.string().max(300),
  /** A figure of the row is quoted from memory: nobody has looked it up. */
  fromMemory: z.literal(true).optional(),
  /** How the row was typed into its build: as a sheet, or from one pot-life row. */
  typed: z.enum(['sheet', 'pot-life']).optional(),
});
export type Provenance = z.infer<typeof provenance>;

export const rowBase = {
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
export const benchCorrection = z.strictObject({
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

export const resinRow = z.strictObject({
  ...rowBase,
  chemistry: z.enum(['epoxy', 'polyester', 'vinyl-ester']).default('epoxy'),
  densityKgM3: densityKgM3.default(1150),
  curedDensityKgM3: densityKgM3.default(1180),
  hazards: z.array(hazard).max(HAZARDS.length).default(['skin-sensitiser', 'exotherm']),
  hardeners: z.array(hardenerRow).min(1).max(60),
  ...purchase,
});
export type ResinRow = z.infer<typeof resinRow>;

export const clothRow = z.strictObject({
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
export const coreTreatment = z.enum(CORE_TREATMENTS);

export const coreRow = z.strictObject({
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

export const consumableRow = z.strictObject({
  ...rowBase,
  use: z.enum([
    'peel-ply',
    'release-film',
    'flow-mesh',
    'infusion-line',
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
  /** Ways of laying up that take it; absent: all of them. */
  processes: z.array(process).max(PROCESSES.length).optional(),
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

export const releaseRow = z.strictObject({
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
  /** The chance as it was before demoulds of the shop's own counted. */
  tableChance: fraction.optional(),
  hazards: z.array(hazard).max(HAZARDS.length).default(['solvent']),
  /** Price per square metre of mould. */
  ...purchase,
});
export type ReleaseRow = z.infer<typeof releaseRow>;

export const mouldRow = z.strictObject({
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
