/** Reads what a person types: a number, perhaps with a unit, into the planner's own unit. */
import { UNITS, formatMetric, unitOf, type Measure, type Unit } from './convert.ts';
export type { Limits } from './readWords.ts';
import { READ_WORDS, type Limits } from './readWords.ts';
import { signed } from './formats.ts';
import { headOf, plainText, type Head } from './number.ts';

/** One way of reading what was typed: in words, and its value in the measure's own unit. */
export interface Choice {
  readonly label: string;
  readonly value: number;
}

/**
 * `value` in the measure's own unit, or the sentence to show beside the field. `choices`: what is typed
 * can be read in these ways, and the person says which; nothing is taken until then.
 */
export type Reading =
  | { readonly ok: true; readonly value: number }
  | { readonly ok: false; readonly why: string; readonly choices?: readonly Choice[] };

const no = (why: string): Reading => ({ ok: false, why });

const HOURS_AND_MINUTES = /^(\d+)\s*(?:h|:)\s*([0-5]?\d)\s*(?:min|m)?$/i;

/**
 * Reads one typed figure.
 * @param text as typed, as in `2 ft2`, `68 F`, `1 h 30`, `0,8`, `1 1/2 in`, `5'6"`
 * @returns the value in the measure's own unit; a refusal names the allowed range and never clamps.
 */
export function readQuantity(text: string, measure: Measure, limits: Limits = {}): Reading {
  const range = READ_WORDS.limits(measure, limits);
  const typed = plainText(text);
  if (typed === '') return no(READ_WORDS.empty(range));
  const clock = HOURS_AND_MINUTES.exec(typed);
  if (clock && (measure === 'minutes' || measure === 'hours')) {
    const minutes = Number(clock[1]) * 60 + Number(clock[2]);
    return within(measure === 'minutes' ? minutes : minutes / 60, typed, measure, limits);
  }
  const pair = readPair(typed, measure);
  if (pair !== null) {
    return typeof pair === 'string' ? no(pair) : within(pair, typed, measure, limits);
  }
  const head = headOf(typed);
  if (!head || head.number === null) return no(READ_WORDS.noNumber(typed, range));
  const asked = twoWays(head, typed, measure, limits);
  if (asked) return asked;
  const number = head.number as number;
  const value = inOwnUnit(number, head.rest, measure);
  if (value === null) {
    return no(READ_WORDS.noUnit(head.rest, UNITS[measure].map((u) => u.symbol).filter(Boolean)));
  }
  const reading = within(value, typed, measure, limits);
  const bare = measure === 'temperatureC' && head.rest === '';
  return !reading.ok && bare ? fahrenheitHint(number, reading.why, limits) : reading;
}

/** Chopped-strand mat, sold by the square foot, ends here; woven cloth lighter than this is veil. */
const HEAVIEST_MAT_OZ = 3;

/** Below this reading a gauge of absolute pressure is as likely as one that counts from the room. */
const LEAST_VACUUM_KPA = 50;

/** What a figure may mean, asked back; null when it means one thing. */
function twoWays(head: Head, typed: string, measure: Measure, limits: Limits): Reading | null {
  const { number, rest } = head;
  const unit = nameOf(rest);
  if (number === 'two-ways') {
    const [whole, tail] = head.typed.split(/[.,]/);
    const ways = [`${whole}${tail} ${unit}`, signed(`${whole}.${tail} ${unit}`)];
    return ask(typed, ways, measure, limits);
  }
  if (number === null) return null;
  const isLength = measure === 'lengthMm' || measure === 'lengthM';
  if (isLength && head.fraction && rest === '') {
    return ask(typed, [`${head.typed} in`, `${head.typed} ${unitOf(measure)}`], measure, limits);
  }
  if (measure === 'arealGM2' && /^oz$/i.test(unit)) {
    if (number > HEAVIEST_MAT_OZ) return null;
    return ask(typed, [`${head.typed} oz/yd²`, `${head.typed} oz/ft²`], measure, limits);
  }
  if (measure === 'vacuumKPa' && !saysFromWhat(unit)) {
    const value = inOwnUnit(number, unit, measure);
    if (value === null || value >= LEAST_VACUUM_KPA || value <= 0) return null;
    const named = unit === '' ? 'kPa' : unit;
    const ways = [`${head.typed} ${named} below atm.`, `${head.typed} ${named} abs.`];
    return ask(typed, ways, measure, limits);
  }
  return null;
}

/** Whether a vacuum says from what it is counted. */
const saysFromWhat = (unit: string): boolean =>
  /below/i.test(unit) || (unitNamed(unit, 'vacuumKPa')?.factor ?? 0) < 0;

/** The readings within the allowed range, each in its own words and in the planner's unit. */
function ask(typed: string, ways: readonly string[], measure: Measure, limits: Limits): Reading {
  const choices = ways.flatMap((way): Choice[] => {
    const head = headOf(way);
    const value =
      head && typeof head.number === 'number' ? inOwnUnit(head.number, head.rest, measure) : null;
    if (value === null || !within(value, way, measure, limits).ok) return [];
    const own = formatMetric(value, measure);
    return [{ label: way.trim() === own ? own : READ_WORDS.same(way.trim(), own), value }];
  });
  const why = READ_WORDS.twoWays(
    typed,
    ways.map((way) => way.trim()),
  );
  return { ok: false, why, choices };
}

/** Two units in one figure, the second a part of the first: feet and inches, pounds and ounces. */
const PAIRS: readonly {
  readonly measures: readonly Measure[];
  readonly pattern: RegExp;
  readonly small: string;
  readonly inOne: number;
}[] = [
  {
    measures: ['lengthM', 'lengthMm'],
    pattern: /^([+-]?)(\d+)\s*(?:'|ft\.?|foot|feet)\s*(\d.*?)\s*(?:"|in\.?|inch|inches)?$/i,
    small: 'in',
    inOne: 12,
  },
  {
    measures: ['massKg', 'massG'],
    pattern: /^([+-]?)(\d+)\s*(?:lbs?\.?)\s*(\d.*?)\s*(?:oz\.?)$/i,
    small: 'oz',
    inOne: 16,
  },
];

/** Value of a figure in two units; a sentence where the second is too large; null when it is none. */
function readPair(typed: string, measure: Measure): number | string | null {
  const pair = PAIRS.find(({ measures }) => measures.includes(measure));
  const found = pair?.pattern.exec(typed);
  if (!pair || !found) return null;
  const head = headOf(found[3]!);
  if (!head || typeof head.number !== 'number' || head.rest !== '') {
    return READ_WORDS.noNumber(typed, null);
  }
  if (head.number >= pair.inOne) {
    return READ_WORDS.tooManySmall(typed, pair.inOne, pair.small);
  }
  const small = Number(found[2]) * pair.inOne + head.number;
  return inOwnUnit(found[1] === '-' ? -small : small, pair.small, measure);
}

function fahrenheitHint(number: number, why: string, limits: Limits): Reading {
  const meant = Math.round(((number - 32) / 1.8) * 10) / 10;
  if (!within(meant, '', 'temperatureC', limits).ok) return no(why);
  return {
    ok: false,
    why: READ_WORDS.meantFahrenheit(why, number, meant),
    choices: [{ label: READ_WORDS.same(`${number} °F`, `${meant} °C`), value: meant }],
  };
}

function inOwnUnit(number: number, written: string, measure: Measure): number | null {
  const name = nameOf(written);
  if (name === '') return number;
  // Cloth is weighed by the square yard; where that may be mat, `twoWays` has asked.
  if (measure === 'arealGM2' && /^oz$/i.test(name)) return inOwnUnit(number, 'oz/yd²', measure);
  const found = unitNamed(name, measure);
  if (!found) return null;
  // Twelve figures: 5 lb is 2.26796185 kg, not 2.2679618500000002.
  return Number((number * found.factor + (found.offset ?? 0)).toPrecision(12));
}

const nameOf = (written: string): string => written.trim().replace(/\.$/, '');

/** Units are compared with their capitals first, since mPa·s and MPa differ by them. */
export const unitNamed = (name: string, measure: Measure): Unit | undefined =>
  UNITS[measure].find((u) => u.spellings.includes(name)) ??
  UNITS[measure].find((u) => u.spellings.some((s) => s.toLowerCase() === name.toLowerCase()));

function within(value: number, typed: string, measure: Measure, limits: Limits): Reading {
  const wrong =
    !Number.isFinite(value) ||
    (limits.min !== undefined && value < limits.min) ||
    (limits.max !== undefined && value > limits.max) ||
    (limits.above !== undefined && value <= limits.above) ||
    (limits.whole === true && !Number.isInteger(value));
  return wrong
    ? no(READ_WORDS.outside(typed, READ_WORDS.limits(measure, limits)))
    : { ok: true, value };
}
