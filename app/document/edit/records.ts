/** What the floor writes down, as edits: records are added and never changed, so that none is undone. */
import type { Build } from '../schema.ts';
import { change, type Change } from './change.ts';
import type { Draft } from './path.ts';

/** A record as it is written: all that holds of its stage from now on. */
export type FloorEntry = NonNullable<Build['records']>[number];

/** One edit that writes down all of these; `label` says what happened. */
export const writeRecords = (
  document: Draft,
  entries: readonly FloorEntry[],
  label: string,
): Change =>
  change(label, {
    ...document,
    records: [...(document.records ?? []), ...entries] as FloorEntry[],
  });

/**
 * The record that takes the newest one of its stage back.
 * @param entry the one that holds now
 * @param before what held before it; null: the stage had not begun
 */
export const counterEntry = (entry: FloorEntry, before: FloorEntry | null): FloorEntry =>
  before ?? { stage: entry.stage, start: entry.start, takenBack: true };
