/** Figures and moments in the words of the screen. */
import { length } from '../../app/shop/words.ts';

/** `€ 1,240.50`-like text of minor units in the build's currency. */
export function money(minor: number, currency: string): string {
  const format = new Intl.NumberFormat('en-GB', { style: 'currency', currency });
  const digits = format.resolvedOptions().maximumFractionDigits ?? 2;
  return format.format(minor / 10 ** digits);
}

/** The same without the minor digits, for a figure read at a glance. */
export function roundMoney(minor: number, currency: string): string {
  const format = new Intl.NumberFormat('en-GB', { style: 'currency', currency });
  const digits = format.resolvedOptions().maximumFractionDigits ?? 2;
  return new Intl.NumberFormat('en-GB', {
    style: 'currency',
    currency,
    maximumFractionDigits: 0,
  }).format(minor / 10 ** digits);
}

/** Hours and minutes of a count of hours, rounded down to the minute: `3 h 15 min`. */
export const hours = (count: number): string => length(Math.abs(count) * 60);

/** `2 days 3 h`: elapsed time where a count of hours says little. */
export function span(count: number): string {
  const whole = Math.floor(Math.abs(count));
  if (whole < 48) return hours(count);
  const days = Math.floor(whole / 24);
  const rest = whole % 24;
  return rest === 0 ? `${days} days` : `${days} days ${rest} h`;
}

/** The wall clock of an instant that carries the build's offset: `2027-05-14T18:00`. */
export const wallClock = (iso: string): string => iso.slice(0, 16);

export const plural = (count: number, one: string, many = `${one}s`): string =>
  `${count} ${count === 1 ? one : many}`;

/** Said beside the sign of each severity, so that colour never stands alone. */
export const SEVERITY_WORDS = { stop: 'Stop', warn: 'Warning', note: 'Note' } as const;
