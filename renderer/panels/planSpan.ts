/** The days that the plan of a build can lie in. */
import type { Draft } from '../../app/document/edit/path.ts';
import type { PlanOutcome } from '../../app/plan/outcome.ts';
import type { Minute } from '../../app/time/instant.ts';
import { minuteToLocal } from '../../app/time/zone.ts';

/** From today, or from the day that work may begin, to the unveiling or the end of a late plan. */
export function planSpan(
  document: Draft,
  outcome: PlanOutcome | null,
  now: Minute,
): { readonly from: string; readonly to: string } {
  const today = minuteToLocal(now, document.zone ?? 'UTC').date;
  const from = document.earliestStart?.slice(0, 10) ?? today;
  const ends = (outcome?.result.stages ?? []).flatMap(({ end }) => end?.slice(0, 10) ?? []);
  const days = [from, document.unveiling?.slice(0, 10) ?? today, ...ends];
  return { from, to: days.reduce((last, day) => (day > last ? day : last)) };
}
