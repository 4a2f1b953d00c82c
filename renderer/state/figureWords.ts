/** Figures and moments in the words of the screen. */

/** Money without the minor digits, for a figure read at a glance. */
export function roundMoney(minor: number, currency: string): string {
  const format = new Intl.NumberFormat('en-GB', { style: 'currency', currency });
  const digits = format.resolvedOptions().maximumFractionDigits ?? 2;
  return new Intl.NumberFormat('en-GB', {
    style: 'currency',
    currency,
    maximumFractionDigits: 0,
  }).format(minor / 10 ** digits);
}

/** The wall clock of an instant that carries the build's offset: `2027-05-14T18:00`. */
export const wallClock = (iso: string): string => iso.slice(0, 16);
