/** The days of a week and the hours that are kept in it. */

export const WEEKDAYS = ['mon', 'tue', 'wed', 'thu', 'fri', 'sat', 'sun'] as const;
export type Weekday = (typeof WEEKDAYS)[number];

/** Spans of wall-clock time of each day, as ['07:30', '16:00']; a day without any is closed. */
export type WeekHours = Readonly<Partial<Record<Weekday, readonly (readonly [string, string])[]>>>;
