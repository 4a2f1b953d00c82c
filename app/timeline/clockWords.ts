/** Clock times as the picture writes them: to five minutes, on the side that keeps people out of trouble. */
import { shortDay } from '../shop/words.ts';
import type { Minute } from '../time/instant.ts';
import { minuteToIso } from '../time/zone.ts';

const STEP = 5;

/** `08:55` of 08:58: what must be over by then. */
export const clockBy = (minute: Minute, zone: string): string =>
  minuteToIso(Math.floor(minute / STEP) * STEP, zone).slice(11, 16);

/** `09:00` of 08:58: what may not begin before. */
export const clockFrom = (minute: Minute, zone: string): string =>
  minuteToIso(Math.ceil(minute / STEP) * STEP, zone).slice(11, 16);

/** `08:58`: to the minute, where a window is told as it is. */
export const clockAt = (minute: Minute, zone: string): string =>
  minuteToIso(minute, zone).slice(11, 16);

/** `Tue 4 May` */
export const dayAt = (minute: Minute, zone: string): string => shortDay(minuteToIso(minute, zone));

/** `Tue 4 May 09:00`, on the late side. */
export const dayFrom = (minute: Minute, zone: string): string =>
  `${dayAt(minute, zone)} ${clockFrom(minute, zone)}`;

/** `Wed 5`: the month is over the picture already. */
export const shortFrom = (minute: Minute, zone: string): string =>
  `${dayAt(minute, zone).replace(/ \w+$/, '')} ${clockFrom(minute, zone)}`;
