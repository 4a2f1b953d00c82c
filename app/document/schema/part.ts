/** The part: zones, plies, core, features, questions. */
import { z } from 'zod';
import {
  MOST,
  areaM2,
  edgeM,
  from,
  hoursLong,
  id,
  localDateTime,
  rimDepthMm,
  sideM,
  temperatureC,
  text,
  thicknessMm,
  whole,
} from './scalars.ts';
import { finish, process, stageKind } from './words.ts';
import { coreTreatment } from './materials.ts';

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

const sectionCount = whole(1, MOST.sections).default(1);

const question = z.strictObject({
  id,
  text,
  answer: z.string().max(500).nullable().default(null),
  before: stageKind,
  /** Before an order: of what alone; null: of everything. */
  of: z.enum(['resin']).nullable().default(null),
});

export const part = z.strictObject({
  finish: finish.default('painted'),
  targetMassKg: from(0.001, 100_000).nullable().default(null),
  targetIncludes: z.enum(['shell', 'faired', 'painted']).default('shell'),
  serviceMaxC: temperatureC.default(50),
  structural: z.boolean().default(false),
  /** How cloth gets its resin; absent: wet under a bag. */
  process: process.optional(),
  /** Infused: from the feed line to the vacuum line, m; absent: as practice has it. */
  infusionWayM: from(0.05, 20).optional(),
  /** Sections that a skin is laid in one after the other, each with a bag and a cure of its own; 1: in one. */
  sections: z.strictObject({ skin: sectionCount, inner: sectionCount }).prefault({}),
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
