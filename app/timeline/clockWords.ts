/** Clock times as the picture writes them: to the minute, so that header, card, table and paper say the same. */
import { shortDay } from '../shop/words.ts';
import type { Minute } from '../time/instant.ts';
import { minuteToIso } from '../time/zone.ts';

/** `08:58` */
export const clockAt = (minute: Minute, zone: string): string =>
  minuteToIso(minute, zone).slice(11, 16);

/** `Tue 4 May` */
export const dayAt = (minute: Minute, zone: string): string => shortDay(minuteToIso(minute, zone));

/** `Tue 4 08:58`: the month is over the picture already. */
export const shortAt = (minute: Minute, zone: string): string =>
  `${dayAt(minute, zone).replace(/ \w+$/, '')} ${clockAt(minute, zone)}`;
