/** Who sees a gel, in words of what is really manned: the look, the hours of the shop, what runs alone. */
import { layupStageId } from '../document/ids.ts';
import type { Minute } from '../time/instant.ts';
import { minuteToIso } from '../time/zone.ts';
import { isStaffed, minuteOf, type CureSheetData, type SheetData } from './sheetData.ts';
import { clock, clockOn, dayClock, gelSpan } from './words.ts';

/** `looked at Mon 3 May 15:57 to 16:07 (Teo)`; null where the plan has nobody look. */
function lookWords(facts: SheetData, { layups }: CureSheetData, date: string): string | null {
  const ids = new Set(layups.map(({ id }) => layupStageId('gel-look', id)));
  const look = facts.placed.find(({ stage }) => ids.has(stage.id));
  if (!look) return null;
  const names = facts.shortNames(look.stage.people);
  return `looked at ${clockOn(date, look.startIso)} to ${clockOn(look.startIso, look.endIso)} (${names})`;
}

/** When the shop is next open after a minute in which nobody is there; null: not known. */
export function opensAfter({ detail }: SheetData, at: Minute): Minute | null {
  return detail.shopHours.find(({ start }) => start >= at)?.start ?? null;
}

/** What holds from the look to the latest gel. */
function untilLatest(facts: SheetData, { row }: CureSheetData, date: string): string | null {
  const latest = row?.gelLatest ?? null;
  if (latest === null) return 'latest gel not known in this cold: pump, logger and alarm on';
  const at = minuteOf(latest);
  if (isStaffed(facts, at))
    return `latest gel ${clockOn(date, latest)}, people in the shop till then`;
  const opens = opensAfter(facts, at);
  const read =
    opens === null ? '' : `, smear read ${clockOn(date, minuteToIso(opens, facts.zone))}`;
  return `latest gel ${clockOn(date, latest)} with nobody in the shop: pump, logger and alarm on${read}`;
}

/** For the line at which the gel is signed, on its own day; '' while the plan knows no gel. */
export function gelHoldWords(facts: SheetData, cure: CureSheetData): string {
  const gel = cure.row?.gel ?? null;
  if (gel === null) return '';
  const look = lookWords(facts, cure, gel) ?? 'nobody is planned to see it';
  const parts = [look, untilLatest(facts, cure, gel)];
  return parts.filter((part) => part !== null).join('; ');
}

/** For the sheet before the first mix; null while the plan knows no gel. */
export function gelGoWords(facts: SheetData, cure: CureSheetData): string | null {
  const { row } = cure;
  if (row === null || row.gel === null) return null;
  const look = lookWords(facts, cure, row.gel);
  const looks = look === null ? 'nobody is planned to see it: who comes in' : look;
  const latest = row.gelLatest ?? row.gel;
  const alone = row.gelLatest === null || !isStaffed(facts, minuteOf(latest));
  const rest = alone ? 'after hours the pump runs alone: alarm on, who answers it' : 'who stays';
  return `Gel ${gelSpan(row)}: ${looks}; ${rest}`;
}

/** The row of the log at the latest gel. */
export function latestGelWords(facts: SheetData, latest: Minute): string {
  if (isStaffed(facts, latest)) return 'Latest gel: stay until the smear strings no more';
  const opens = opensAfter(facts, latest);
  const at = opens === null ? 'when people are back' : dayOrClock(facts, latest, opens);
  return `Latest gel. Nobody in the shop: pump, logger and alarm stay on; smear read ${at}`;
}

function dayOrClock({ zone }: SheetData, from: Minute, at: Minute): string {
  const [a, b] = [minuteToIso(from, zone), minuteToIso(at, zone)];
  return a.slice(0, 10) === b.slice(0, 10) ? clock(b) : dayClock(b);
}
