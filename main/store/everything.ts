/**
 * Everything that a shop has typed, as one text and back: builds with their whole history, removed ones
 * too, drafts, and library rows of the shop's own. Revisions go out as they are stored, checksums and all.
 */
import { z } from 'zod';
import { StoreRefusal } from './errors.ts';
import { connection, write, type ReadHandle, type WriteHandle } from './handles.ts';
import { takeHistory } from './takeHistory.ts';

const FORMAT = 'shop';
const whole = z.number().int();
const time = z.number().int().min(0);
const id = z.string().min(1).max(80);

const buildRow = z.strictObject({
  id,
  name: z.string(),
  unveiling: z.string(),
  sample: z.string().nullable(),
  created_at_ms: time,
  changed_at_ms: time,
  removed_at_ms: time.nullable(),
});
const revisionRow = z.strictObject({
  build: id,
  number: whole.min(1),
  kind: z.enum(['edit', 'record', 'undo', 'redo']),
  label: z.string().max(200),
  position: whole.min(1),
  parent: whole.min(1).nullable(),
  created_at_ms: time,
  base: whole.min(1).nullable(),
  document: z.base64(),
  checksum: z.base64(),
});
export type BuildOut = z.infer<typeof buildRow>;
export type RevisionOut = z.infer<typeof revisionRow>;

const draftRow = z.strictObject({
  id,
  revision: whole.min(1),
  document: z.string().max(12_000_000),
  created_at_ms: time,
  changed_at_ms: time,
  removed_at_ms: time.nullable(),
});
const libraryRow = z.strictObject({
  table_name: z.string().max(80),
  id,
  revision: whole.min(1),
  provenance_kind: z.string(),
  provenance_source: z.string(),
  demo: z.union([z.literal(0), z.literal(1)]),
  body: z.string().max(1_000_000),
  created_at_ms: time,
});
const versionRow = z.strictObject({
  build: z.string(),
  number: whole.min(1),
  name: z.string().min(1).max(80),
  created_at_ms: time,
});
const shop = z.strictObject({
  backcure: z.literal(FORMAT),
  version: z.literal(1),
  builds: z.array(buildRow).max(100_000),
  revisions: z.array(revisionRow).max(2_000_000),
  drafts: z.array(draftRow).max(100_000),
  library: z.array(libraryRow).max(100_000),
  /** Left out by earlier programs. */
  versions: z.array(versionRow).max(100_000).default([]),
});

/** True for a text that says of itself that it is a whole shop. */
export const isShopText = (text: string): boolean =>
  text.slice(0, 60).replace(/\s/g, '').startsWith(`{"backcure":"${FORMAT}"`);

export function exportShop(handle: ReadHandle): string {
  const database = connection(handle);
  const rows = (sql: string): Record<string, unknown>[] =>
    database.prepare<[], Record<string, unknown>>(sql).all();
  const revisions = rows(
    `SELECT build_id AS build, number, kind, label, position, parent, created_at_ms, base, document,
       checksum FROM revisions ORDER BY build_id, number`,
  ).map((row) => ({
    ...row,
    document: (row['document'] as Buffer).toString('base64'),
    checksum: (row['checksum'] as Buffer).toString('base64'),
  }));
  return JSON.stringify({
    backcure: FORMAT,
    version: 1,
    builds: rows(
      'SELECT id, name, unveiling, sample, created_at_ms, changed_at_ms, removed_at_ms FROM builds ORDER BY id',
    ),
    revisions,
    drafts: rows(
      'SELECT id, revision, document, created_at_ms, changed_at_ms, removed_at_ms FROM drafts ORDER BY id',
    ),
    library: rows(
      `SELECT table_name, id, revision, provenance_kind, provenance_source, demo, body, created_at_ms
       FROM library_rows WHERE origin = 'shop' ORDER BY table_name, id, revision`,
    ),
    versions: rows(
      'SELECT build_id AS build, number, name, created_at_ms FROM versions ORDER BY build_id, number',
    ),
  });
}

/**
 * Takes in what is not here yet. A build that is here with the start of the same history gets the rest of
 * it; one that went another way here comes in beside it under an id of its own. Nothing here is changed.
 * @returns ids of builds that are new or longer than before
 * @throws StoreRefusal for a text that is no shop; nothing was taken then
 */
export function importShop(handle: WriteHandle, text: string, newId: () => string): string[] {
  const { builds, revisions, drafts, library, versions } = parsed(text);
  return write(handle, () => {
    const database = connection(handle);
    const taken: string[] = [];
    const named = database.prepare(
      `INSERT INTO versions (build_id, number, name, created_at_ms)
       SELECT build_id, number, @name, @created_at_ms FROM revisions
       WHERE build_id = @build AND number = @number ON CONFLICT DO NOTHING`,
    );
    const versionsOf = Map.groupBy(versions, (row) => row.build);
    const byBuild = Map.groupBy(revisions, (row) => row.build);
    for (const build of builds) {
      const now = takeHistory(handle, build, byBuild.get(build.id) ?? [], newId);
      if (now !== null) taken.push(now);
      for (const version of versionsOf.get(build.id) ?? []) {
        named.run({ ...version, build: now ?? build.id });
      }
    }
    const draft = database.prepare(
      `INSERT INTO drafts (id, revision, document, created_at_ms, changed_at_ms, removed_at_ms)
       VALUES (@id, @revision, @document, @created_at_ms, @changed_at_ms, @removed_at_ms)
       ON CONFLICT DO NOTHING`,
    );
    for (const row of drafts) draft.run(row);
    const own = database.prepare(
      `INSERT INTO library_rows (table_name, id, origin, revision, provenance_kind,
         provenance_source, demo, body, created_at_ms)
       VALUES (@table_name, @id, 'shop', @revision, @provenance_kind, @provenance_source, @demo,
         @body, @created_at_ms) ON CONFLICT DO NOTHING`,
    );
    for (const row of library) own.run(row);
    return taken;
  });
}

function parsed(text: string): z.infer<typeof shop> {
  let raw: unknown;
  try {
    raw = JSON.parse(text);
  } catch {
    throw new StoreRefusal('refused', 'The file is no JSON: it may have been cut short.');
  }
  const read = shop.safeParse(raw);
  if (read.success) return read.data;
  const [issue] = read.error.issues;
  throw new StoreRefusal(
    'refused',
    `The file is no whole shop: ${issue?.path.join('.')}: ${issue?.message}`,
  );
}
