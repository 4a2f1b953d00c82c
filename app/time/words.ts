/** Lengths of time in words. */

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
