/** The sheets of a plan before they are laid on sides. */
import type { PlanOutcome } from '../../app/plan/outcome.ts';
import type { Sheet, SheetKind } from '../../app/shop/parts.ts';
import { paperwork } from '../../app/shop/sheets.ts';

/** All sheets, or those of one kind. */
export function buildSheets(
  outcome: PlanOutcome,
  kind: SheetKind | null = null,
): { readonly sheets: readonly Sheet[]; readonly stamp: string } {
  const { packs, stamp } = paperwork(outcome, { kind });
  return { sheets: packs.flatMap(({ sheets }) => sheets), stamp };
}
