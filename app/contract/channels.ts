/**
 * The one table of channels between renderer and main: name -> what goes in, what comes out,
 * whether it writes. Preload, loopback host and handlers are all built from it.
 */
import { z } from 'zod';
import type { Fault } from '../document/faults.ts';
import { buildSchema, isCalendarDay, isZone, librarySchema } from '../document/schema.ts';

const id = z.string().min(1).max(80);
const revision = z.number().int().min(0);
/** A stored Build is checked by `readBuild`, not here: it may be sparse. */
const document = z.record(z.string(), z.unknown());

const fault = z.strictObject({
  path: z.string(),
  found: z.string(),
  expected: z.string(),
});

/** A row for the shop's own library, with the table that it goes into. */
const keptRow = <T extends string, R extends z.ZodType>(
  table: T,
  rows: { unwrap(): z.ZodArray<R> },
) => z.strictObject({ table: z.literal(table), row: rows.unwrap().element });

/** A build as the planner opens it. */
const openBuild = z.strictObject({
  id,
  revision,
  document,
  canUndo: z.boolean(),
  canRedo: z.boolean(),
  /** What undo would take back and redo bring again, in words. */
  undoLabel: z.string().nullable(),
  redoLabel: z.string().nullable(),
  /** What the person should know about it, as that its newest revision is damaged. */
  notice: z.string().optional(),
});
export type OpenBuild = z.infer<typeof openBuild>;

const buildSummary = z.strictObject({
  id,
  name: z.string(),
  unveiling: z.string(),
  changedAt: z.string(),
  sample: z.boolean(),
});
export type BuildSummary = z.infer<typeof buildSummary>;

/** A build that is not complete yet: its document may lack anything, and it has no history. */
const openDraft = z.strictObject({ id, revision, document });
export type OpenDraft = z.infer<typeof openDraft>;

const draftSummary = z.strictObject({
  id,
  /** Null until one is typed. */
  name: z.string().nullable(),
  changedAt: z.string(),
});
export type DraftSummary = z.infer<typeof draftSummary>;

/** One step of a build's history. */
const historyEntry = z.strictObject({
  revision,
  kind: z.enum(['edit', 'record', 'undo', 'redo']),
  label: z.string(),
  at: z.string(),
  /** The name that somebody gave to this state, or null. */
  name: z.string().nullable(),
});
export type HistoryEntry = z.infer<typeof historyEntry>;

/** A kept copy of the data file. */
const copySummary = z.strictObject({
  /** Name of the file in the data folder. */
  name: z.string(),
  kind: z.enum(['day', 'before-step', 'replaced', 'damaged']),
  at: z.string(),
  bytes: z.number(),
  builds: z.number(),
  /** Why it cannot be put back, or null. */
  fault: z.string().nullable(),
});
export type CopySummary = z.infer<typeof copySummary>;

/** What a finished build of the shop's own taught, with what it was made with. */
const finishedBuild = z.strictObject({
  id,
  name: z.string(),
  release: z.string(),
  resin: z.strictObject({ system: z.string(), hardener: z.string() }),
  lessons: buildSchema.shape.lessons,
});
export type FinishedBuild = z.output<typeof finishedBuild>;

const channel = <I extends z.ZodType, O extends z.ZodType>(
  writes: boolean,
  input: I,
  output: O,
) => ({ writes, input, output });

const none = z.strictObject({});
const day = z.string().refine(isCalendarDay, 'a day that exists, as YYYY-MM-DD');
const countryCode = z.string().regex(/^[A-Z]{2}$/, 'a country code of two letters');
const place = z.strictObject({ code: z.string(), name: z.string() });

export const channels = {
  /** What the planner needs at start: who serves it, the clock, the library, the last open build. */
  'session-start': channel(
    false,
    none,
    z.strictObject({
      runtime: z.enum(['electron', 'browser']),
      now: z.string(),
      /** True when --now fixed the clock. */
      nowFixed: z.boolean(),
      library: librarySchema,
      builds: z.array(buildSummary),
      open: openBuild.nullable(),
      drafts: z.array(draftSummary),
      /** The draft that was open last; it is shown rather than `open`. */
      draft: openDraft.nullable(),
      /** What lay open when the program died: it is opened by hand alone, lest it ends the program again. */
      notOpened: z.strictObject({ id, name: z.string().nullable(), draft: z.boolean() }).optional(),
      view: z.record(z.string(), z.unknown()),
      /** What the person should know about opening the data file, as that a damaged one was kept. */
      notice: z.string().optional(),
    }),
  ),
  'build-list': channel(false, none, z.array(buildSummary)),
  /** With `draft`: that draft has become the build, and is no draft any more. */
  'build-create': channel(
    true,
    z.strictObject({
      document,
      draft: z.strictObject({ id, expects: revision }).optional(),
    }),
    openBuild,
  ),
  'build-open': channel(true, z.strictObject({ id }), openBuild),
  /** One gesture, one revision. Refused with `stale` when `expects` is not the newest. */
  'build-save': channel(
    true,
    z.strictObject({ id, expects: revision, label: z.string().min(1).max(120), document }),
    openBuild,
  ),
  'build-undo': channel(true, z.strictObject({ id, expects: revision }), openBuild),
  'build-redo': channel(true, z.strictObject({ id, expects: revision }), openBuild),
  /** The newest steps of a build and every named one, the newest first. */
  'history-list': channel(false, z.strictObject({ id }), z.array(historyEntry)),
  /** Names a state of a build, or takes its name away (null); answers with the history. */
  'version-name': channel(
    true,
    z.strictObject({ id, revision, name: z.string().trim().min(1).max(80).nullable() }),
    z.array(historyEntry),
  ),
  /** A build as it was at one revision. */
  'version-read': channel(false, z.strictObject({ id, revision }), z.strictObject({ document })),
  /** Appends an earlier state as one edit; what the floor recorded since stays. */
  'version-return': channel(true, z.strictObject({ id, expects: revision, revision }), openBuild),
  /** Puts a sample back as it was shipped: one edit like any other. Refused for the shop's own. */
  'sample-reset': channel(true, z.strictObject({ id, expects: revision }), openBuild),
  'build-remove': channel(true, z.strictObject({ id }), z.array(buildSummary)),
  /** Builds that were removed, the last one first. */
  'removed-list': channel(false, none, z.array(buildSummary)),
  /** Puts a removed build back on the list. */
  'build-bring-back': channel(true, z.strictObject({ id }), openBuild),
  /** Kept copies of the data file, the newest first. */
  'copy-list': channel(false, none, z.array(copySummary)),
  /** Puts a copy in the place of the data, which is kept as a copy itself. The page starts again after. */
  'copy-restore': channel(true, z.strictObject({ name: z.string().max(120) }), none),
  /** Every build with its history, removed ones too, drafts and rows of the shop's own, as one text. */
  'shop-export': channel(false, none, z.strictObject({ text: z.string() })),
  /** Text of a file that the person picked: of one build or of a whole shop. Answers with faults or a build. */
  'build-import': channel(
    true,
    z.strictObject({ fileName: z.string().max(300), text: z.string().max(12_000_000) }),
    z.union([z.strictObject({ opened: openBuild }), z.strictObject({ faults: z.array(fault) })]),
  ),
  'draft-list': channel(false, none, z.array(draftSummary)),
  'draft-create': channel(true, z.strictObject({ document }), openDraft),
  'draft-open': channel(true, z.strictObject({ id }), openDraft),
  /** Refused with `stale` when `expects` is not the newest. */
  'draft-save': channel(true, z.strictObject({ id, expects: revision, document }), openDraft),
  /** With `expects` only while it is still at that revision: refused with `stale` when it is not. */
  'draft-remove': channel(
    true,
    z.strictObject({ id, expects: revision.optional() }),
    z.array(draftSummary),
  ),
  /** Every finished build that is no sample, the last changed first. */
  'lessons-read': channel(false, none, z.array(finishedBuild)),
  /** Countries that public holidays are known of, the regions of one, and whom the days are from. */
  'holiday-places': channel(
    false,
    z.strictObject({ country: countryCode.nullable() }),
    z.strictObject({ source: z.string(), countries: z.array(place), regions: z.array(place) }),
  ),
  /** Public holidays from one day to another, both included. */
  'holiday-list': channel(
    false,
    z.strictObject({
      country: countryCode,
      region: z.string().max(40).nullable(),
      from: day,
      to: day,
    }),
    z.array(z.strictObject({ date: z.string(), name: z.string() })),
  ),
  /** Busy times in the text of a calendar file, on the wall clock of a zone, and what was not taken. */
  'calendar-read': channel(
    false,
    z.strictObject({
      text: z.string().max(8_000_000),
      zone: z.string().max(80).refine(isZone, 'an IANA time zone'),
      from: day,
      to: day,
    }),
    z.strictObject({
      blocks: z.array(z.strictObject({ what: z.string(), from: z.string(), until: z.string() })),
      left: z.array(z.strictObject({ what: z.string(), why: z.string() })),
    }),
  ),
  /** Puts a row that the floor taught into the shop's own library, for builds that are begun from now on. */
  'row-keep': channel(
    true,
    z.discriminatedUnion('table', [
      keptRow('labour', librarySchema.shape.labour),
      keptRow('consequences', librarySchema.shape.consequences),
      keptRow('releases', librarySchema.shape.releases),
    ]),
    z.strictObject({ library: librarySchema }),
  ),
  /** Window-level state that is not in the undo list: open panel, zoom, selection. */
  /** What has changed since it was last told, by key; what other windows keep beside it stays. */
  'view-save': channel(true, z.strictObject({ view: z.record(z.string(), z.unknown()) }), none),
  /** Prints the given HTML through the system's dialog, or saves it as PDF. Electron only. */
  'print-sheets': channel(
    false,
    z.strictObject({
      html: z.string().max(12_000_000),
      to: z.enum(['dialog', 'pdf']),
      name: z.string().max(120),
    }),
    z.strictObject({ done: z.boolean() }),
  ),
  /** Keeps a text that the page made as a file, through the system's dialog. Electron only. */
  'text-save': channel(
    false,
    z.strictObject({ name: z.string().max(120), text: z.string().max(12_000_000) }),
    z.strictObject({ done: z.boolean() }),
  ),
  /** An open page calls once a minute, so that the loopback host does not end under it. */
  'page-here': channel(false, none, none),
  /** Keeps the computer from sleeping while a cure's clock runs, or lets it sleep again. Electron only. */
  'keep-awake': channel(
    false,
    z.strictObject({ on: z.boolean() }),
    z.strictObject({ on: z.boolean() }),
  ),
  /**
   * The alarms that stand: each is shown by the system when it is due, and again and again until another
   * list without it comes. They go off with the window hidden too. Electron only.
   */
  'alarms-set': channel(
    false,
    z.strictObject({
      alarms: z
        .array(
          z.strictObject({
            id: z.string().max(200),
            at: z.iso.datetime(),
            title: z.string().max(120),
            body: z.string().max(400),
          }),
        )
        .max(200),
    }),
    z.strictObject({ set: z.number().int() }),
  ),
} as const;

export type Channels = typeof channels;
export type ChannelName = keyof Channels;
export type ChannelInput<N extends ChannelName> = z.input<Channels[N]['input']>;
export type ChannelOutput<N extends ChannelName> = z.output<Channels[N]['output']>;

export const ERROR_CODES = [
  'bad-message',
  'not-found',
  'stale',
  'refused',
  'disk',
  'not-here',
  /** The page's own: the program behind it does not answer. */
  'unreachable',
  'unexpected',
] as const;
export type ErrorCode = (typeof ERROR_CODES)[number];

/** Failures are values on every channel. */
export type Answer<T> = { readonly ok: true; readonly value: T } | Failure;

export interface Failure {
  readonly ok: false;
  readonly code: ErrorCode;
  readonly detail: string;
  /** Field by field what was wrong with a document that was refused. */
  readonly faults?: readonly Fault[];
}
