/** Numbers, counts and money in words. */

/** A number with at most `digits` decimals and no trailing zeros. */
export const plain = (value: number, digits = 1): string => String(Number(value.toFixed(digits)));

/** Three figures, without a tail of noughts; whole numbers from 1000 up. */
export const figure = (value: number): string =>
  value === 0 || Math.abs(value) >= 1000
    ? String(Math.round(value))
    : String(Number(value.toPrecision(3)));

/** `35 %` of a share from 0 to 1. */
export const percent = (share: number): string => `${Math.round(share * 100)} %`;

/** `1 day`, `3 days` */
export const plural = (count: number, one: string, many = `${one}s`): string =>
  `${count} ${count === 1 ? one : many}`;

/** `€1,240.50` of minor units of a currency. */
export function money(minor: number, currency: string): string {
  return formatOf(currency).format(minor / 10 ** minorDigits(currency));
}

/** Decimals of a currency's minor unit (ISO 4217, as the runtime knows it). */
export const minorDigits = (currency: string): number =>
  formatOf(currency).resolvedOptions().maximumFractionDigits ?? 2;

const formats = new Map<string, Intl.NumberFormat>();

/** The runtime takes long to lay out a format: one for each currency. */
function formatOf(currency: string): Intl.NumberFormat {
  const known = formats.get(currency);
  if (known) return known;
  const made = new Intl.NumberFormat('en-GB', { style: 'currency', currency });
  formats.set(currency, made);
  return made;
}
