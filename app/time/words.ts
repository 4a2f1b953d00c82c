/** Lengths and moments of time in words. */
import { formats } from '../units/formats.ts';

/** `45 min`, `3 h 15 min`, `26 h`; never more than there is. */
export function length(minutes: number): string {
  const whole = Math.floor(minutes);
  const hours = Math.floor(whole / 60);
  const rest = whole % 60;
  if (hours === 0) return `${rest} min`;
  return rest === 0 || hours >= 10 ? `${hours} h` : `${hours} h ${rest} min`;
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

/** `14:20` or `2:20 pm`, of a wall clock's HH:MM. */
export function clockTime(time: string): string {
  if (formats().clock === 24) return time;
  const hour = Number(time.slice(0, 2));
  return `${hour % 12 || 12}${time.slice(2)} ${hour % 24 < 12 ? 'am' : 'pm'}`;
}

/** `14:00` or `2 pm`, of a full hour written HH:00. */
export const hourWords = (time: string): string => clockTime(time).replace(/:00 /, ' ');

/** `14` or `2 pm`, of the hour of a day, under an axis. */
export const hourOfDay = (hour: number): string =>
  formats().clock === 24 ? String(hour) : `${hour % 12 || 12} ${hour % 24 < 12 ? 'am' : 'pm'}`;

/** `20 April` or `April 20`, of the day's number and the month's name. */
export const dayOfMonth = (day: string, month: string): string =>
  formats().monthFirst ? `${month} ${Number(day)}` : `${Number(day)} ${month}`;
