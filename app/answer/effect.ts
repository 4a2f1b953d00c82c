/** What an edit of the document would do to the plan: first answers before and after it, compared. */
import type { Draft } from '../document/edit/path.ts';
import type { Build, Library } from '../document/schema.ts';
import { massInState } from '../part/weight.ts';
import { FIRST_ANSWER } from '../plan/outcome.ts';
import type { Minute } from '../time/instant.ts';
import { plan } from './plan.ts';

/** What a change does to the plan: hours of work, kilograms of the finished part, minutes on the end. */
export interface Effect {
  readonly hours: number;
  readonly massKg: number;
  readonly endMinutes: number | null;
}

export function effectOf(document: Draft, changed: Draft, shipped: Library, now: Minute): Effect {
  const [before, after] = [document, changed].map((one) => {
    const { result, detail } = plan(one as Build, shipped, now, FIRST_ANSWER);
    const ends = result.stages.flatMap(({ end }) => (end === null ? [] : [Date.parse(end)]));
    const end = ends.length === 0 ? null : Math.max(...ends) / 60_000;
    const massKg = massInState(detail.weight, 'painted');
    return { labourHours: result.totals.labourHours, massKg, end };
  });
  return {
    hours: after!.labourHours - before!.labourHours,
    massKg: after!.massKg - before!.massKg,
    endMinutes: before!.end === null || after!.end === null ? null : after!.end - before!.end,
  };
}
