/** The plan result: the contract of the headless command. */
import { z } from 'zod';
import { currency, fraction, isoInstant, money, zone } from './scalars.ts';
import { finish, jointState, stageKind } from './words.ts';

const maybeInstant = isoInstant.nullable();

/** The three answers of a plan: does it fit and by how much, by which route, at what cost. */
const answers = z.strictObject({
  fits: z.boolean(),
  /** Minutes late at the worst moment that is due; negative: to spare; null: not placed. */
  lateMinutes: z.number().nullable(),
  /** Findings that still stop. */
  stops: z.number().int(),
  /** The cures of its route by name, in order. */
  route: z.array(z.string()).optional(),
  /** What is bought, and what a lever adds in wages, heat and hire. */
  cost: money.optional(),
});
export type Answers = z.infer<typeof answers>;

export const lever = z.strictObject({
  /** Of two levers together: both ids, as `pairOf` in the ids of levers joins them. */
  id: z.string(),
  label: z.string(),
  hoursGained: z.number(),
  cost: money,
  sideEffects: z.array(z.string()),
  /** Codes of the findings that it would clear. */
  clears: z.array(z.string()),
  /** What the plan says once it is pulled, planned again with everything else as it is. */
  after: answers.optional(),
  /** The same as it stands. */
  before: answers.optional(),
});
export type Lever = z.infer<typeof lever>;

const finding = z.strictObject({
  code: z.string().regex(/^[a-z0-9]+(-[a-z0-9]+)*$/),
  severity: z.enum(['stop', 'warn', 'note']),
  stage: z.string().nullable(),
  message: z.string(),
  numbers: z.record(z.string(), z.union([z.number(), z.string(), z.null()])),
  levers: z.array(lever),
  /**
   * How far it is known that nothing else helps: every other lever by itself, or any two that mend different
   * things together as well. Left out where not all of them were planned.
   */
  nothingBelow: z.enum(['singles', 'pairs']).optional(),
  /** Levers that a first look finds helpful as well, but less than those listed. */
  moreBelow: z.number().int().positive().optional(),
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
  /** Its cloth is laid dry and filled under the bag; left out where it is laid wet. */
  infused: z.literal(true).optional(),
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
