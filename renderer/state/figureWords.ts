/** Moments in the words of the fields. */

/** The wall clock of an instant that carries the build's offset: `2027-05-14T18:00`. */
export const wallClock = (iso: string): string => iso.slice(0, 16);
