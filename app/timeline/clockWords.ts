/** Clock times as the picture writes them: to the minute, so that header, card, table and paper say the same. */
import { clock, shortDay, shortWeekday } from '../shop/words.ts';
import type { Minute } from '../time/instant.ts';
import { minuteToIso } from '../time/zone.ts';

/** `08:58` */
export const clockAt = (minute: Minute, zone: string): string => clock(minuteToIso(minute, zone));

/** `Tue 4 May` */
export const dayAt = (minute: Minute, zone: string): string => shortDay(minuteToIso(minute, zone));

/** `Tue 4 08:58`: the month is over the picture already. */
export function shortAt(minute: Minute, zone: string): string {
  const iso = minuteToIso(minute, zone);
  return `${shortWeekday(iso)} ${Number(iso.slice(8, 10))} ${clock(iso)}`;
}
