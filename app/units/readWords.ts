/** What is said of a typed figure that is not taken as it stands. */
import { formatBoth, unitOf, type Measure } from './convert.ts';

export interface Limits {
  readonly min?: number;
  readonly max?: number;
  /** The least value itself is refused: an area is more than nothing. */
  readonly above?: number;
  readonly whole?: boolean;
}

/** `10 °C to 35 °C (50 °F to 95 °F)` */
function limitWords(measure: Measure, { min, max, above, whole }: Limits): string {
  const kind = whole ? 'a whole number, ' : '';
  if (above !== undefined && max !== undefined) {
    return `${kind}more than ${formatBoth(above, measure)}, up to ${formatBoth(max, measure)}`;
  }
  if (above !== undefined) return `${kind}more than ${formatBoth(above, measure)}`;
  if (min !== undefined && max !== undefined) {
    return `${kind}${formatBoth(min, measure)} to ${formatBoth(max, measure)}`;
  }
  if (min !== undefined) return `${kind}${formatBoth(min, measure)} or more`;
  if (max !== undefined) return `${kind}${formatBoth(max, measure)} or less`;
  return `${kind}a number in ${unitOf(measure)}`;
}

export const READ_WORDS = {
  limits: limitWords,
  empty: (range: string): string => `Write ${range}.`,
  noNumber: (typed: string, range: string | null): string =>
    `"${typed}" is not a number.${range === null ? '' : ` Write ${range}.`}`,
  noUnit: (unit: string, known: readonly string[]): string =>
    known.length > 0
      ? `"${unit}" is not a unit for this. Use ${known.join(', ')}.`
      : `Write the number alone, without "${unit}".`,
  twoWays: (typed: string, ways: readonly string[]): string =>
    `"${typed}" can be read two ways: write ${ways.join(' or ').replace(/\.$/, '')}.`,
  tooManySmall: (typed: string, inOne: number, small: string): string =>
    `"${typed}": fewer than ${inOne} ${small} go behind the larger unit.`,
  meantFahrenheit: (why: string, fahrenheit: number, celsius: number): string =>
    `${why} Did you mean °F? ${fahrenheit} °F would be ${celsius} °C.`,
  outside: (typed: string, range: string): string =>
    `"${typed}" is outside what is allowed: ${range}.`,
  same: (written: string, own: string): string => `${written} = ${own}`,
} as const;
