/** Numbers, counts and money in words. */
import { formats, signed } from './formats.ts';

/** A number with at most `digits` decimals and no trailing zeros. */
export const plain = (value: number, digits = 1): string =>
  signed(String(Number(value.toFixed(digits))));

/** A number as it is, with every decimal it has. */
export const exact = (value: number): string => signed(String(value));

/** Three figures, without a tail of noughts; whole numbers from 1000 up. */
export const figure = (value: number): string =>
  value === 0 || Math.abs(value) >= 1000
    ? String(Math.round(value))
    : signed(String(Number(value.toPrecision(3))));

/** `35 %` of a share from 0 to 1. */
export const percent = (share: number): string => `${Math.round(share * 100)} %`;

/** `1 day`, `3 days` */
export const plural = (count: number, one: string, many = `${one}s`): string =>
  `${count} ${count === 1 ? one : many}`;

/** `€1,240.50` of minor units of a currency. */
export const money = (minor: number, currency: string): string =>
  sum(minor / 10 ** minorDigits(currency), currency);

/** Money without the minor digits, for a figure read at a glance: `€1,240`. */
export const roundMoney = (minor: number, currency: string): string =>
  sum(minor / 10 ** minorDigits(currency), currency, 0);

/** A sum with the sign of its currency, which stands in front in English. */
const sum = (units: number, currency: string, digits?: number): string =>
  inSigns(formatOf(currency, digits).formatToParts(units));

/** `10,000`: a whole number, its thousands apart. */
export const count = (value: number): string => inSigns(WHOLE.formatToParts(value));

const WHOLE = new Intl.NumberFormat('en-GB', { maximumFractionDigits: 0 });

const inSigns = (parts: readonly Intl.NumberFormatPart[]): string => {
  const { decimal, group } = formats();
  return parts
    .map(({ type, value }) => (type === 'decimal' ? decimal : type === 'group' ? group : value))
    .join('');
};

/** Decimals of a currency's minor unit (ISO 4217, as the runtime knows it). */
export const minorDigits = (currency: string): number =>
  formatOf(currency).resolvedOptions().maximumFractionDigits ?? 2;

const made = new Map<string, Intl.NumberFormat>();

/** The runtime takes long to lay out a format: each once. */
function formatOf(currency: string, digits?: number): Intl.NumberFormat {
  const { english } = formats();
  const key = `${english} ${currency} ${digits ?? ''}`;
  const known = made.get(key);
  if (known) return known;
  const most = digits === undefined ? {} : { maximumFractionDigits: digits };
  const fresh = new Intl.NumberFormat(english, { style: 'currency', currency, ...most });
  made.set(key, fresh);
  return fresh;
}
