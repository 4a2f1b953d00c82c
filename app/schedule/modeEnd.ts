/** When a stage that begins at a minute is over, in one of its modes. */
import { addWork } from '../time/calendar.ts';
import type { Minute } from '../time/instant.ts';
import type { Mode } from './problem.ts';

/** @returns null where the work or the cure never ends */
export function modeEnd({ length, calendar }: Mode, start: Minute): Minute | null {
  if (length.kind === 'function') return length.endOf(start);
  if (length.kind === 'elapsed' || length.unbroken || calendar === null) {
    return start + length.minutes;
  }
  return addWork(calendar, start, length.minutes);
}
