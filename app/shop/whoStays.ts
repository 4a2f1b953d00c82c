/** Who stays in the shop while heat is on. */
import { staffedHours } from '../plan/heatHours.ts';
import type { Calendar, Minute } from '../time/instant.ts';
import { minuteToIso } from '../time/zone.ts';
import type { SheetData } from './sheetData.ts';
import { clock } from './words.ts';

/** Until when somebody who is there at a moment is there, breaks filled; null: not there. */
function thereUntil(hours: Calendar, at: Minute): Minute | null {
  const isThere = hours.some(({ start, end }) => start <= at && at < end);
  return isThere ? (staffedHours(hours).find(({ end }) => at < end)?.end ?? null) : null;
}

/**
 * Names for a stretch in which somebody stays: of those there, whoever is there longest, and who takes over when.
 * Of those there as long, whoever stands first in the crew, so that every sheet names the same person.
 * @returns null where nobody of the crew is there for all of it
 */
export function whoStays(
  { build, detail, zone }: SheetData,
  { start, end }: { readonly start: Minute; readonly end: Minute },
): string | null {
  const turns: { readonly name: string; readonly until: Minute }[] = [];
  let at = start;
  while (at < end) {
    const there = build.crew
      .map(({ id, name }) => ({ name, until: thereUntil(detail.personHours[id] ?? [], at) ?? at }))
      .reduce((best, one) => (Math.min(one.until, end) > Math.min(best.until, end) ? one : best), {
        name: '',
        until: at,
      });
    if (there.until <= at) return null;
    turns.push(there);
    at = there.until;
  }
  return turns
    .map(({ name, until }, i) =>
      i === turns.length - 1 ? name : `${name} to ${clock(minuteToIso(until, zone))}`,
    )
    .join(', then ');
}
