/** The build document itself. */
import { z } from 'zod';
import { DOCUMENT_VERSION } from './versions.ts';
import {
  MOST,
  currency,
  from,
  type hours,
  id,
  localDateTime,
  priceMinor,
  temperatureC,
  text,
  whole,
  zone,
} from './scalars.ts';
import { jointState } from './words.ts';
import { benchCorrection } from './materials.ts';
import { librarySchema } from './library.ts';
import { part } from './part.ts';
import {
  busyBlock,
  heatProgramme,
  holiday,
  inVisitOrder,
  outsideParty,
  person,
  roomSchema,
  supplierSchema,
} from './shop.ts';
import { floorRecordSchema, lessons, link, pin, printedPlan, pulledLever } from './floor.ts';

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
    /** Name of the lot that is mixed from now; left out or null: all is of one lot. */
    lot: text.nullable().optional(),
    /** Lots of single cures, by layup id; all others are of the lot in use. */
    lotFor: z.record(id, text).optional(),
    /** What smear and cup said of a lot with one of its hardeners; it goes before that of the hardener. */
    benchForLot: z
      .array(z.strictObject({ lot: text, hardener: id, bench: benchCorrection }))
      .max(MOST.entries)
      .optional(),
    /** Smallest batch that is mixed, g; null: as shops usually do. */
    leastBatchG: from(10, 10_000).nullable().default(null),
  }),
  heat: z.array(heatProgramme).max(20).default([]),
  room: roomSchema.prefault({}),
  crew: z
    .array(person)
    .max(MOST.people)
    .transform((list) => list.map((p, i) => ({ ...p, id: p.id ?? `person-${i + 1}` }))),
  /** Layups at which a helper by the hour mixes and hands over, and lays nothing. */
  helperFor: z.array(id).max(20).default([]),
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
  /** Whose way of writing numbers and dates is used; left out: day before month, decimal point, 24 hours. */
  country: z
    .string()
    .regex(/^[A-Z]{2}$/, 'a country code of two letters such as PT')
    .optional(),
  /** Hours of the clock; left out: those of the country. */
  clock: z.enum(['12', '24']).optional(),
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
