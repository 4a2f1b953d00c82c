/** Lots of resin and hardener as edits: which one is mixed from now, and which one a cure was mixed from. */
import { recordsInForce } from '../records.ts';
import { readStageId } from '../ids.ts';
import type { FullBuild } from '../schema.ts';
import { change, type Change } from './change.ts';
import type { Draft } from './path.ts';

/**
 * The document with the lot in use noted for every cure that has begun, so that naming another lot leaves
 * them with the one that they were mixed from.
 */
export function keepLotsOfBegun(document: Draft): Draft {
  const { resin } = document;
  if (!resin?.lot) return document;
  const { lot, lotFor = {} } = resin;
  const begun = [...recordsInForce({ records: (document.records ?? []) as FullBuild['records'] })];
  const mixed = begun.flatMap(([stage]) => {
    const ref = readStageId(stage);
    return ref?.what === 'layup' ? [ref.layup] : [];
  });
  const kept = Object.fromEntries(mixed.map((layup) => [layup, lot]));
  return { ...document, resin: { ...resin, lotFor: { ...kept, ...lotFor } } };
}

/** The lot that the layups of one cure were mixed from; null or nothing typed: the lot in use. */
export function setCureLot(
  document: Draft,
  layups: readonly string[],
  lot: string | null,
  name: string,
): Change {
  const others = Object.entries(document.resin?.lotFor ?? {}).filter(
    ([id]) => !layups.includes(id),
  );
  const own = lot ? layups.map((id) => [id, lot] as const) : [];
  const resin = { ...document.resin, lotFor: Object.fromEntries([...others, ...own]) };
  return change(`${name}: ${lot ?? 'lot in use'}`, {
    ...document,
    resin: resin as NonNullable<Draft['resin']>,
  });
}
