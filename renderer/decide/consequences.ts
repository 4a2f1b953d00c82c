/** The consequence table as the shop sets it: frozen rows of the build, never the shipped library. */
import type {
  Build,
  ConsequenceRow,
  Library,
  Provenance,
  ReleaseRow,
} from '../../app/document/schema.ts';
import type { FinishedBuild } from '../../app/contract/channels.ts';
import { learnedConsequences, learnedReleases, taughtBy } from '../../app/judge/learn.ts';
import { plain } from '../../app/messages/words.ts';
import { FIRST_ANSWER } from '../../app/plan/outcome.ts';
import { plan } from '../../app/answer/plan.ts';
import type { Minute } from '../../app/time/instant.ts';
import type { Change } from '../edit/change.ts';
import type { Draft } from '../edit/path.ts';

export type Figure =
  'fairMinutesPerM2' | 'fairMinutesPerEdgeM' | 'fillerKgM2' | 'extraHours' | 'waitHoursAt20C';

export const BY_THE_SHOP = 'set by the shop in this build';
export type Ground = 'measured' | 'assumed';

const groundOf = ({ kind }: Provenance): Ground => (kind === 'measured' ? 'measured' : 'assumed');

/** The document with one row of the table replaced; the whole table is frozen with it. */
export function putConsequence(
  document: Draft,
  rows: Library,
  row: ConsequenceRow,
  said: string,
): Change {
  const consequences = rows.consequences.map((one) => (one.id === row.id ? row : one));
  return {
    label: `${row.name}: ${said}`.slice(0, 120),
    document: { ...document, library: { ...document.library, consequences } },
  };
}

/** A figure or a word of a row, changed by hand: assumed until the shop says that it was measured. */
export function setConsequence(
  document: Draft,
  rows: Library,
  id: string,
  change: Partial<Pick<ConsequenceRow, Figure | 'bestFinish' | 'touches'>>,
  said: string,
): Change {
  const row = rowOf(rows, id);
  const provenance: Provenance = { kind: groundOf(row.provenance), source: BY_THE_SHOP };
  const next = { ...row, ...change, revision: row.revision + 1, provenance };
  return putConsequence(document, rows, next, said);
}

export function setGround(document: Draft, rows: Library, id: string, kind: Ground): Change {
  const row = rowOf(rows, id);
  const next = { ...row, revision: row.revision + 1, provenance: { kind, source: BY_THE_SHOP } };
  return putConsequence(document, rows, next, kind);
}

function rowOf(rows: Library, id: string): ConsequenceRow {
  const row = rows.consequences.find((one) => one.id === id);
  if (!row) throw new Error(`no consequence ${id}`);
  return row;
}

/** True while the build's row says otherwise than the library as shipped. */
export const differs = (row: ConsequenceRow, shipped: ConsequenceRow | undefined): boolean =>
  shipped !== undefined &&
  (row.revision !== shipped.revision || row.provenance.source !== shipped.provenance.source);

/** What the shop's own builds say, where it is not what stands in the build. */
export interface Learned {
  readonly id: string;
  readonly name: string;
  /** What would change: 'fairing 42 → 55 min/m²'. */
  readonly words: string;
  readonly source: string;
  readonly change: Change;
}

export function learnedOf(
  document: Draft,
  rows: Library,
  shipped: Library,
  finished: readonly FinishedBuild[],
): Learned[] {
  const { events, demoulds } = taughtBy(finished);
  const table = { ...rows, consequences: shipped.consequences, releases: shipped.releases };
  const consequences = learnedConsequences(table, events).flatMap((row): Learned[] => {
    const before = rowOf(rows, row.id);
    const words = [
      told('fairing', before.fairMinutesPerM2, row.fairMinutesPerM2, 'min/m²'),
      told('filler', before.fillerKgM2 * 1000, row.fillerKgM2 * 1000, 'g/m²'),
      told('hours', before.extraHours, row.extraHours, 'h'),
    ].filter((one) => one !== '');
    if (words.length === 0) return [];
    const change = putConsequence(document, rows, row, 'as learned from the shop’s own builds');
    return [{ ...shown(row, words), change }];
  });
  const releases = learnedReleases(table, demoulds).flatMap((row): Learned[] => {
    const before = rows.releases.find((one) => one.id === row.id) ?? row;
    const share = (one: ReleaseRow) => one.hardDemouldChance * 100;
    const words = told('hard demoulds', share(before), share(row), '%');
    if (words === '') return [];
    const own = document.library?.releases ?? [];
    const releases = [...own.filter((one) => one.id !== row.id), row];
    const label = `${row.name}: as learned from the shop’s own demoulds`.slice(0, 120);
    const library = { ...document.library, releases };
    return [{ ...shown(row, [words]), change: { label, document: { ...document, library } } }];
  });
  return [...consequences, ...releases];
}

const shown = (row: ConsequenceRow | ReleaseRow, words: readonly string[]) => ({
  id: row.id,
  name: row.name,
  words: words.join(', '),
  source: row.provenance.source,
});

const told = (what: string, before: number, after: number, unit: string): string =>
  plain(before) === plain(after) ? '' : `${what} ${plain(before)} → ${plain(after)} ${unit}`;

/** What a change does to the plan: hours of work, kilograms, and minutes on the end. */
export interface Effect {
  readonly hours: number;
  readonly massKg: number;
  readonly endMinutes: number | null;
}

export function effectOf(document: Draft, changed: Draft, shipped: Library, now: Minute): Effect {
  const [before, after] = [document, changed].map((one) => {
    const { result } = plan(one as Build, shipped, now, FIRST_ANSWER);
    const ends = result.stages.flatMap(({ end }) => (end === null ? [] : [Date.parse(end)]));
    const end = ends.length === 0 ? null : Math.max(...ends) / 60_000;
    return { ...result.totals, end };
  });
  return {
    hours: after!.labourHours - before!.labourHours,
    massKg: after!.massKg - before!.massKg,
    endMinutes: before!.end === null || after!.end === null ? null : after!.end - before!.end,
  };
}
