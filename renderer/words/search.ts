/** How good the plan on screen is known to be, in one line. */
import type { PlanResult } from '../../app/document/schema.ts';
import { plural } from '../../app/units/words.ts';
import { hours } from '../../app/time/words.ts';

export type SearchPhase = 'thinking' | 'done' | 'stopped';

/** Empty while there is no plan. */
export function searchWords(
  { search, moved }: Pick<PlanResult, 'search' | 'moved'>,
  thinking: SearchPhase,
): string {
  if (!search) return '';
  if (thinking === 'thinking') return 'Still improving: better plans are shown as they are found.';
  const found = thinking === 'stopped' ? 'Stopped: the best plan so far' : 'Best plan found';
  if (moved) {
    return moved.length === 0
      ? 'As printed: every stage keeps its moment.'
      : `Kept as printed but for ${plural(moved.length, 'stage')} that had to move.`;
  }
  if (search.provenBest) return 'Best plan of this route: proven.';
  if (search.gapHours === null) return `${found}.`;
  if (search.gapHours === 0) return `${found}: none can end sooner.`;
  return `${found}, not proven: none can end more than ${hours(search.gapHours)} sooner.`;
}
