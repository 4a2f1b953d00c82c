/** Ticks of a time axis by the clock of the build. */
import { clock, shortDay } from '../../app/shop/words.ts';
import type { Minute } from '../../app/time/instant.ts';
import { dayTimeToMinute, localDayNumber, minuteToIso } from '../../app/time/zone.ts';
import type { Tick } from './lineChart.ts';

const HOURS = [1, 2, 3, 6, 12, 24];

/** Midnights by their day, and even hours between them where there is room. */
export function dayTicks(start: Minute, end: Minute, zone: string, most: number): Tick[] {
  const hours = (end - start) / 60;
  const every = HOURS.find((h) => hours / h <= most) ?? 24 * Math.ceil(hours / 24 / most);
  const ticks: Tick[] = [];
  for (let day = localDayNumber(start, zone); day <= localDayNumber(end, zone); day++) {
    const perDay = every >= 24 ? 1 : 24 / every;
    if (every > 24 && (day - localDayNumber(start, zone)) % (every / 24) !== 0) continue;
    for (let i = 0; i < perDay; i++) {
      const value = dayTimeToMinute(day, i * every * 60, zone);
      if (value < start || value > end) continue;
      const iso = minuteToIso(value, zone);
      ticks.push({ value, label: i === 0 ? shortDay(iso) : clock(iso) });
    }
  }
  return ticks;
}
