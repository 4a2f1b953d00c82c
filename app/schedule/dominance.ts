/** Modes that another one makes useless: no plan is the worse for never taking them. */
import type { WorkTable } from '../time/calendar.ts';
import type { PlanMode } from './compile.ts';
import { FAR } from './length.ts';

/** Steps of a length that depends on its start looked at before nothing is said. */
const MOST_STEPS = 2000;

/**
 * True when mode `a` can stand wherever mode `b` does, ends no later, takes no more and costs no more.
 * Of two that are alike the first one stays.
 * @param named modes on which a relation hangs; none of them is made useless, nor makes others so
 */
export function dominates(
  a: PlanMode,
  b: PlanMode,
  span: { readonly from: number; readonly to: number },
  named: ReadonlySet<string> | undefined,
): boolean {
  if (a === b || named?.has(a.spec.id) || named?.has(b.spec.id)) return false;
  if (a.repair !== b.repair || a.warnings > b.warnings) return false;
  if (a.overtimeMinutes > b.overtimeMinutes) return false;
  if (a.air >= 0 && a.air !== b.air) return false;
  if (!takesNoMore(a, b) || isLonger(a, b)) return false;
  if (!hoursCover(a, b) || !endsNoLater(a, b, span)) return false;
  if (a.index < b.index || isLess(a, b)) return true;
  return !(takesNoMore(b, a) && hoursCover(b, a) && endsNoLater(b, a, span) && !costsMore(b, a));
}

const isLess = (a: PlanMode, b: PlanMode): boolean =>
  a.overtimeMinutes < b.overtimeMinutes || a.warnings < b.warnings;

const costsMore = (b: PlanMode, a: PlanMode): boolean =>
  b.overtimeMinutes > a.overtimeMinutes ||
  b.warnings > a.warnings ||
  (b.air >= 0 && b.air !== a.air);

/** Seen at once, before hours are compared day by day. */
const isLonger = (a: PlanMode, b: PlanMode): boolean => a.kind !== b.kind || a.minutes > b.minutes;

const takesNoMore = (a: PlanMode, b: PlanMode): boolean =>
  a.uses.every((use) =>
    b.uses.some((other) => other.resource === use.resource && other.amount >= use.amount),
  );

/** Hours and starts of `a` hold those of `b`, as far as seen at once. */
const hoursCover = (a: PlanMode, b: PlanMode): boolean =>
  covers(a.table, b.table) && covers(a.starts, b.starts);

function covers(a: WorkTable | null, b: WorkTable | null): boolean {
  if (a === null || a === b) return true;
  if (b === null || a.count !== b.count) return false;
  for (let k = 0; k < a.count; k++) {
    if (a.start[k]! > b.start[k]! || a.end[k]! < b.end[k]!) return false;
  }
  return true;
}

function endsNoLater(
  a: PlanMode,
  b: PlanMode,
  { from, to }: { readonly from: number; readonly to: number },
): boolean {
  if (a.kind !== 'function') return true;
  if (a.endOf === b.endOf) return true;
  // Along each step of the one the other, which never falls, is compared where it is least.
  let start = from;
  for (let steps = 0; steps < MOST_STEPS; steps++) {
    if (start > to) return true;
    const end = a.endOf!(start);
    const other = b.endOf!(start) ?? FAR;
    if (end === null || end > other) return end === null && other === FAR;
    const last = a.latestStart!(end);
    if (last === null || last < start) return false;
    start = last + 1;
  }
  return false;
}
