/** Reads what a person types: a number, perhaps with a unit, into the planner's own unit. */
import { UNITS, sayBoth, unitOf, type Measure } from './convert.ts';

export interface Limits {
  readonly min?: number;
  readonly max?: number;
  /** The least value itself is refused: an area is more than nothing. */
  readonly above?: number;
  readonly whole?: boolean;
}

/**
 * `value` in the measure's own unit, or the sentence to show beside the field; `meant`: the value that
 * would be taken if a bare temperature was one in Fahrenheit.
 */
export type Reading =
  | { readonly ok: true; readonly value: number }
  | { readonly ok: false; readonly why: string; readonly meant?: number };

const no = (why: string): Reading => ({ ok: false, why });

/** The range in words: `10 °C to 35 °C (50 °F to 95 °F)`. */
function sayLimits(measure: Measure, limits: Limits): string {
  const { min, max, above } = limits;
  const whole = limits.whole ? 'a whole number, ' : '';
  if (above !== undefined && max !== undefined) {
    return `${whole}more than ${sayBoth(above, measure)}, up to ${sayBoth(max, measure)}`;
  }
  if (above !== undefined) return `${whole}more than ${sayBoth(above, measure)}`;
  if (min !== undefined && max !== undefined) {
    return `${whole}${sayBoth(min, measure)} to ${sayBoth(max, measure)}`;
  }
  if (min !== undefined) return `${whole}${sayBoth(min, measure)} or more`;
  if (max !== undefined) return `${whole}${sayBoth(max, measure)} or less`;
  return `${whole}a number in ${unitOf(measure)}`;
}

/**
 * The number at the head of a text: decimal point or comma, spaces as group marks. A lone group of
 * three after a comma or point with a comma (`1,234`) can be read two ways and is asked back.
 */
function readNumber(text: string): number | 'two-ways' | null {
  const tight = text.replace(/(?<=\d)[\s\u00a0\u202f'](?=\d{3}(?!\d))/g, '');
  if (/^[+-]?\d{1,3},\d{3}$/.test(tight)) return 'two-ways';
  if (/^[+-]?\d{1,3}(,\d{3})+\.\d+$/.test(tight)) return Number(tight.replace(/,/g, ''));
  if (/^[+-]?\d*[.,]?\d+$|^[+-]?\d+[.,]$/.test(tight)) return Number(tight.replace(',', '.'));
  return null;
}

const HOURS_AND_MINUTES = /^(\d+)\s*(?:h|:)\s*([0-5]?\d)\s*(?:min|m)?$/i;

/**
 * Reads one typed figure.
 * @param text as typed, as in `2 ft2`, `68 F`, `1 h 30`, `0,8`
 * @returns the value in the measure's own unit; a refusal names the allowed range and never clamps.
 */
export function readQuantity(text: string, measure: Measure, limits: Limits = {}): Reading {
  const range = sayLimits(measure, limits);
  const typed = text.trim().replace(/\u2212/g, '-');
  if (typed === '') return no(`Write ${range}.`);
  const clock = HOURS_AND_MINUTES.exec(typed);
  if (clock && (measure === 'minutes' || measure === 'hours')) {
    const minutes = Number(clock[1]) * 60 + Number(clock[2]);
    return within(measure === 'minutes' ? minutes : minutes / 60, typed, measure, limits);
  }
  const parts = /^([+-]?[\d.,\s\u00a0\u202f']*\d[.,]?)\s*(.*)$/.exec(typed);
  if (!parts) return no(`"${typed}" is not a number. Write ${range}.`);
  const number = readNumber(parts[1]!.trim());
  if (number === 'two-ways') {
    const [head, tail] = parts[1]!.split(',');
    return no(`"${typed}" can be read two ways: write ${head}${tail} or ${head}.${tail}.`);
  }
  if (number === null) return no(`"${typed}" is not a number. Write ${range}.`);
  const value = inOwnUnit(number, parts[2]!, measure);
  if (value === null) {
    const known = UNITS[measure].map((u) => u.symbol).filter(Boolean);
    return no(
      known.length > 0
        ? `"${parts[2]}" is not a unit for this. Use ${known.join(', ')}.`
        : `Write the number alone, without "${parts[2]}".`,
    );
  }
  const reading = within(value, typed, measure, limits);
  const bare = measure === 'temperatureC' && parts[2] === '';
  return !reading.ok && bare ? perhapsFahrenheit(number, reading.why, limits) : reading;
}

function perhapsFahrenheit(number: number, why: string, limits: Limits): Reading {
  const meant = Math.round(((number - 32) / 1.8) * 10) / 10;
  if (!within(meant, '', 'temperatureC', limits).ok) return no(why);
  const asked = `Did you mean °F? ${number} °F would be ${meant} °C.`;
  return { ok: false, why: `${why} ${asked}`, meant };
}

function inOwnUnit(number: number, written: string, measure: Measure): number | null {
  const name = written.trim().replace(/\.$/, '');
  if (name === '') return number;
  const exact = UNITS[measure].find((u) => u.spellings.includes(name));
  const found =
    exact ??
    UNITS[measure].find((u) => u.spellings.some((s) => s.toLowerCase() === name.toLowerCase()));
  if (!found) return null;
  // Twelve figures: 5 lb is 2.26796185 kg, not 2.2679618500000002.
  return Number((number * found.factor + (found.offset ?? 0)).toPrecision(12));
}

function within(value: number, typed: string, measure: Measure, limits: Limits): Reading {
  const wrong =
    !Number.isFinite(value) ||
    (limits.min !== undefined && value < limits.min) ||
    (limits.max !== undefined && value > limits.max) ||
    (limits.above !== undefined && value <= limits.above) ||
    (limits.whole === true && !Number.isInteger(value));
  return wrong
    ? no(`"${typed}" is outside what is allowed: ${sayLimits(measure, limits)}.`)
    : { ok: true, value };
}
