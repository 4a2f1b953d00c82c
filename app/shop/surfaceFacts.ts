/** What lies on the part when it goes to the painter, and what heat it has been through, from the plan. */
import { zonesFinished } from '../document/finish.ts';
import type { FinishingRow, OutsideParty } from '../document/schema.ts';
import { fillWayOf } from '../part/filling.ts';
import { finishingRounds } from '../part/labour.ts';
import { row } from './parts.ts';
import { minuteOf, type CureSheetData, type SheetData } from './sheetData.ts';
import type { SheetNode } from './tree.ts';
import { fixed } from './words.ts';

/** Rounds of the shop on what this painter paints: all of them are done before anything leaves. */
function roundsOf({ build, detail }: SheetData): FinishingRow[] {
  const rounds = finishingRounds(build, detail.library).map((round) => round.row);
  const painted = rounds.filter((one) => one.finishes.includes('painted'));
  return painted.length > 0 ? painted : rounds;
}

/** Name of the last paper on the surface, `P320`; null where no round says its grit. */
export function lastGrit(facts: SheetData): string | null {
  const grits = roundsOf(facts).flatMap((one) => one.lastGrit ?? []);
  const last = grits.at(-1);
  return last === undefined ? null : `P${last}`;
}

/** Materials of a use, then the rounds that they go on in. */
function onPart(facts: SheetData, use: 'filler' | 'primer', stage: FinishingRow['stage']): string {
  const laid = roundsOf(facts).filter((one) => one.stage === stage && one.massKgM2 > 0);
  if (laid.length === 0) return 'none';
  const { library } = facts.detail;
  const planned = fillWayOf(facts.build, library)?.row.id;
  const products = library.consumables.filter(
    (one) =>
      one.use === use &&
      (one.filling === null || one.id === planned) &&
      zonesFinished(facts.build, one.finishes).length > 0,
  );
  const rounds = laid.map(({ name }) => name.toLowerCase()).join(', ');
  const names = products.map(({ name }) => name).join(', ');
  return names === '' ? rounds : `${names}: ${rounds}`;
}

/**
 * Hottest that everything cured on the part is planned to see, in its cure or a post-cure after it,
 * whole C rounded down; null while a cure has no temperature.
 */
export function provenC(facts: SheetData): number | null {
  const seen = facts.cures.map((cure) => seenC(facts, cure));
  if (seen.length === 0 || seen.includes(null)) return null;
  return Math.floor(Math.min(...seen.filter((one) => one !== null)) + 1e-9);
}

function seenC(facts: SheetData, cure: CureSheetData): number | null {
  const own = cure.row?.temperatureC?.max ?? null;
  if (own === null) return null;
  const heat = cure.made?.heat?.hottestC ?? own;
  return Math.max(own, heat, postCureC(facts, cure) ?? own);
}

/** The hold of a post-cure that stands after this cure; null without one. */
function postCureC(facts: SheetData, cure: CureSheetData): number | null {
  const plan = cure.made?.glass?.postCure;
  const cured = cure.bagOffAt;
  if (!plan?.possible || cured === null) return null;
  const after = facts.placed.some(
    ({ stage, start }) => stage.kind === 'post-cure' && start >= minuteOf(cured),
  );
  return after ? plan.holdC : null;
}

/** Rows of the handover table. */
export function surfaceRows(facts: SheetData, party: Pick<OutsideParty, 'bakeC'>): SheetNode[] {
  const proven = provenC(facts);
  const hotter = proven !== null && party.bakeC !== null && party.bakeC > proven;
  const greatest =
    proven === null
      ? 'not known: ask before any bake'
      : `${fixed(proven, 0)} °C, in cure or post-cure` +
        (hotter ? `; the bake asked for is hotter than anything it has seen` : '');
  return [
    row('', 'Fillers', onPart(facts, 'filler', 'fair')),
    row('', 'Primers', onPart(facts, 'primer', 'prime')),
    row('', 'Last grit', lastGrit(facts) ?? 'not known'),
    row('', 'Highest proven temperature', greatest),
  ];
}
