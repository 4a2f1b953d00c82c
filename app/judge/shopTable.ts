/** What the shop's own finished builds teach about the consequence table, as edits to be taken. */
import { rowOf, putConsequence } from '../document/edit/consequences.ts';
import { change, type Change } from '../document/edit/change.ts';
import type { Draft } from '../document/edit/path.ts';
import type { ConsequenceRow, Library, ReleaseRow } from '../document/schema.ts';
import { plain } from '../units/words.ts';
import {
  learnedConsequences,
  learnedReleases,
  lessonsOf,
  type FinishedBuildLessons,
} from './learn.ts';

/** A row of the build that the shop's own finished builds would change. */
export interface Learned {
  readonly id: string;
  readonly name: string;
  /** What would change: 'fairing 42 → 55 min/m²'. */
  readonly words: string;
  readonly source: string;
  readonly change: Change;
  /** The row and its table, for the shop's own library. */
  readonly kept:
    | { readonly table: 'consequences'; readonly row: ConsequenceRow }
    | { readonly table: 'releases'; readonly row: ReleaseRow };
}

export function learnedOf(
  document: Draft,
  rows: Library,
  shipped: Library,
  finished: readonly FinishedBuildLessons[],
): Learned[] {
  const { events, demoulds } = lessonsOf(finished);
  const table = { ...rows, consequences: shipped.consequences, releases: shipped.releases };
  const consequences = learnedConsequences(table, events).flatMap((row): Learned[] => {
    const before = rowOf(rows, row.id);
    const words = [
      told('fairing', before.fairMinutesPerM2, row.fairMinutesPerM2, 'min/m²'),
      told('filler', before.fillerKgM2 * 1000, row.fillerKgM2 * 1000, 'g/m²'),
      told('hours', before.extraHours, row.extraHours, 'h'),
    ].filter((one) => one !== '');
    if (words.length === 0) return [];
    const taken = putConsequence(document, rows, row, 'as learned from the shop’s own builds');
    const kept = { table: 'consequences', row } as const;
    return [{ ...shown(row, words), change: taken, kept }];
  });
  const releases = learnedReleases(table, demoulds).flatMap((row): Learned[] => {
    const before = rows.releases.find((one) => one.id === row.id) ?? row;
    const share = (one: ReleaseRow) => one.hardDemouldChance * 100;
    const words = told('hard demoulds', share(before), share(row), '%');
    if (words === '') return [];
    const own = document.library?.releases ?? [];
    const releases = [...own.filter((one) => one.id !== row.id), row];
    const label = `${row.name}: as learned from the shop’s own demoulds`;
    const library = { ...document.library, releases };
    const kept = { table: 'releases', row } as const;
    return [{ ...shown(row, [words]), change: change(label, { ...document, library }), kept }];
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
