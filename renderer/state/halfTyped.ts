/**
 * The text of a field that was typed and not taken yet, for the page that is closed meanwhile: the field shows
 * it again, as it stood, until it is taken or put back.
 */
import type { PlannerState } from './planner.svelte.ts';

type Planner = Pick<PlannerState, 'buildId' | 'drafts' | 'view' | 'setView'>;

interface HalfTyped {
  readonly build: string;
  readonly field: string;
  readonly text: string;
}

/** Far longer than any field takes; the window's state is small. */
const LONGEST = 2000;

const placeOf = ({ buildId, drafts }: Planner): string | null => buildId ?? drafts.openId;

/** What was typed into the field of the open build when the page was closed; null: nothing. */
export function halfTyped(planner: Planner, field: string): string | null {
  const kept = planner.view['typed'] as HalfTyped | null | undefined;
  return kept?.field === field && kept.build === placeOf(planner) ? kept.text : null;
}

/** @param text null once it was taken or put back */
export function keepHalfTyped(planner: Planner, field: string, text: string | null): void {
  const build = placeOf(planner);
  if (build === null) return;
  if (text !== null) {
    planner.setView({ typed: { build, field, text: text.slice(0, LONGEST) } });
  } else if (halfTyped(planner, field) !== null) planner.setView({ typed: null });
}
