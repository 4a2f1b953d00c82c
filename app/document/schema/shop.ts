/** Who and what builds it: people, outside parties, suppliers, rooms, heat, other jobs. */
import { z } from 'zod';
import {
  MOST,
  calendarDay,
  from,
  hours,
  id,
  localMinute,
  outsideWeek,
  shopWeek,
  temperatureC,
  text,
  wallTime,
  weekday,
  whole,
  zone,
} from './scalars.ts';

export const person = z.strictObject({
  id: id.optional(),
  name: text,
  hours: hours.default(shopWeek),
  off: z.array(calendarDay).max(MOST.days).default([]),
  /** Hours beyond the week that are worked by permission only, where a date needs them. */
  overtime: hours.default({}),
});

export const outsideParty = z.strictObject({
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
export function inVisitOrder<T extends { readonly visit: number | null }>(list: readonly T[]): T[] {
  return list
    .map((party, i) => ({ party, visit: party.visit ?? i + 1 }))
    .toSorted((a, b) => a.visit - b.visit)
    .map(({ party }) => party);
}

/** Who delivers material, by the id that rows of the library name. */
export const supplierSchema = z.strictObject({
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
export const busyBlock = z
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
export const holiday = z.strictObject({
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

/** Release and spray have the room to themselves; or may go on beside other work, at the price of a warning. */
export const AIR_RULES = ['apart', 'beside'] as const;
export type AirRule = (typeof AIR_RULES)[number];

export const roomSchema = z.strictObject({
  temperatureC: z
    .strictObject({ day: temperatureC.default(20), night: temperatureC.default(16) })
    .default({ day: 20, night: 16 }),
  dayFrom: wallTime.default('07:00'),
  nightFrom: wallTime.default('19:00'),
  humidityPct: z.number().min(0).max(100).default(55),
  tent: z.strictObject({ maxC: temperatureC }).nullable().default(null),
  /** How long tent or oven may heat while nobody is in the shop. */
  heatAlone: z.enum(HEAT_ALONE).default('nights'),
  releaseAndSpray: z.enum(AIR_RULES).default('apart'),
  measured: measuredRoom.nullable().default(null),
});

/** Tent or oven over one cure, from its sealed bag on: each step a ramp and a hold. */
export const heatProgramme = z.strictObject({
  /** Any layup of the cure. */
  layup: id,
  steps: z
    .array(z.strictObject({ temperatureC, rampKPerHour: from(0.1, 600), holdHours: from(0, 1000) }))
    .min(1)
    .max(12),
});
export type HeatProgramme = z.output<typeof heatProgramme>;
