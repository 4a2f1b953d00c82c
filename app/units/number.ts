/** The number at the head of a typed figure: decimal, fraction or mixed, as people write them. */
import { formats } from './formats.ts';

/** What the head of a text is worth, and what stands behind it. */
export interface Head {
  /** `two-ways`: a comma that may mark thousands or decimals. Null: no number. */
  readonly number: number | 'two-ways' | null;
  readonly typed: string;
  readonly rest: string;
  /** Written as a fraction, which the trade does in inches only. */
  readonly fraction: boolean;
}

const VULGAR: Readonly<Record<string, string>> = {
  '½': '1/2',
  '¼': '1/4',
  '¾': '3/4',
  '⅓': '1/3',
  '⅔': '2/3',
  '⅛': '1/8',
  '⅜': '3/8',
  '⅝': '5/8',
  '⅞': '7/8',
};

/** One way of writing for signs that look alike: minus, feet, inches, fractions of one sign. */
export const plainText = (text: string): string =>
  text
    .trim()
    .replace(/\u2212/g, '-')
    .replace(/[\u2032\u2019]/g, "'")
    .replace(/\u2033|\u201d|''/g, '"')
    .replace(/\u2044/g, '/')
    .replace(/(\d?)([½¼¾⅓⅔⅛⅜⅝⅞])/g, (_, digit: string, sign: string) =>
      digit === '' ? VULGAR[sign]! : `${digit} ${VULGAR[sign]!}`,
    );

const FRACTION = /^([+-]?)(?:(\d+)(?:\s+|\s*-\s*))?(\d+)\s*\/\s*(\d+)(?!\d)\s*(.*)$/;
const DECIMAL = /^([+-]?[\d.,\s\u00a0\u202f']*\d[.,]?)\s*(.*)$/;

/** Splits a text, plain as `plainText` makes it, into its number and what follows; null without one. */
export function headOf(text: string): Head | null {
  const fraction = FRACTION.exec(text);
  if (fraction) {
    const [, sign, whole = '0', top, bottom, rest] = fraction;
    const typed = text.slice(0, text.length - rest!.length).trim();
    const share = Number(top) / Number(bottom);
    // `1 5/4` is taken for a typing mistake, and a denominator of 0 is refused.
    const sound = Number(bottom) > 0 && (fraction[2] === undefined || share < 1);
    const size = Number(whole) + share;
    const number = sound ? (sign === '-' ? -size : size) : null;
    return { number, typed, rest: rest!, fraction: true };
  }
  const decimal = DECIMAL.exec(text);
  if (!decimal) return null;
  const typed = decimal[1]!.trim();
  return { number: decimalOf(typed), typed, rest: decimal[2]!, fraction: false };
}

/**
 * Decimal point or comma, spaces as group marks. A lone group of three after the sign that marks thousands
 * where the build is (`1,234`; `1.234` where the comma marks decimals) can be read two ways and is asked back.
 */
function decimalOf(text: string): number | 'two-ways' | null {
  const tight = text.replace(/(?<=\d)[\s\u00a0\u202f'](?=\d{3}(?!\d))/g, '');
  const { decimal } = formats();
  const doubtful = decimal === ',' ? /^[+-]?[1-9]\d{0,2}\.\d{3}$/ : /^[+-]?\d{1,3},\d{3}$/;
  if (doubtful.test(tight)) return 'two-ways';
  if (decimal === ',' && /^[+-]?\d{1,3}(\.\d{3})+,\d+$/.test(tight))
    return Number(tight.replace(/\./g, '').replace(',', '.'));
  if (/^[+-]?\d{1,3}(,\d{3})+\.\d+$/.test(tight)) return Number(tight.replace(/,/g, ''));
  if (/^[+-]?\d*[.,]?\d+$|^[+-]?\d+[.,]$/.test(tight)) return Number(tight.replace(',', '.'));
  return null;
}
