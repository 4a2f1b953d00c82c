/**
 * How numbers and moments are written where the shop is: the order of day and month, a clock of 12 or
 * 24 hours, the decimal sign, the sign between thousands. Sentences stay English.
 *
 * Whoever words something for a build says so once, with `wordedAs`; the words below read it. What a
 * machine reads (figures in files for spreadsheets and calendars, JSON, ids, ticks) never asks for it; a name
 * that holds a number is a word.
 */

export interface Formats {
  /** `Apr 19` for `19 Apr`. */
  readonly monthFirst: boolean;
  readonly clock: 12 | 24;
  readonly decimal: '.' | ',';
  readonly group: ',' | ' ' | "'";
  /** The English whose signs of currencies are used: `$` for `US$`. */
  readonly english: string;
}

/** Of a build that names no country. */
export const PLAIN_FORMATS: Formats = {
  monthFirst: false,
  clock: 24,
  decimal: '.',
  group: ',',
  english: 'en-GB',
};

const COMMA: Partial<Formats> = { decimal: ',', group: ' ' };
const APOSTROPHE: Partial<Formats> = { group: "'" };
const MONTH_FIRST: Partial<Formats> = { monthFirst: true };

/**
 * By country (ISO 3166-1), what differs from `PLAIN_FORMATS`: from the Unicode locale data, but that thousands
 * stand apart by a space wherever the comma marks decimals (SI brochure, 9th edition, 5.4.4), since a point
 * there could be read as a decimal sign, and that the clock of 12 hours is kept for the countries whose shops
 * use it on the floor (common practice); the others have the setting.
 */
const BY_COUNTRY: Readonly<Record<string, Partial<Formats>>> = {
  AR: COMMA,
  AT: COMMA,
  AU: { english: 'en-AU' },
  BE: COMMA,
  BG: COMMA,
  BR: COMMA,
  CA: { monthFirst: true, clock: 12, english: 'en-CA' },
  CH: APOSTROPHE,
  CL: COMMA,
  CN: MONTH_FIRST,
  CY: COMMA,
  CZ: COMMA,
  DE: COMMA,
  DK: COMMA,
  EE: COMMA,
  ES: COMMA,
  FI: COMMA,
  FR: COMMA,
  GB: {},
  GR: COMMA,
  HR: COMMA,
  HU: { ...COMMA, ...MONTH_FIRST },
  ID: COMMA,
  IE: {},
  IN: { clock: 12 },
  IS: COMMA,
  IT: COMMA,
  JP: MONTH_FIRST,
  KR: MONTH_FIRST,
  LI: APOSTROPHE,
  LT: { ...COMMA, ...MONTH_FIRST },
  LU: COMMA,
  LV: COMMA,
  MT: {},
  MX: {},
  NL: COMMA,
  NO: COMMA,
  NZ: { english: 'en-NZ' },
  PH: { monthFirst: true, clock: 12 },
  PL: COMMA,
  PT: COMMA,
  RO: COMMA,
  RS: COMMA,
  SE: COMMA,
  SG: {},
  SI: COMMA,
  SK: COMMA,
  TH: {},
  TR: COMMA,
  TW: MONTH_FIRST,
  UA: COMMA,
  US: { monthFirst: true, clock: 12, english: 'en-US' },
  UY: COMMA,
  VN: COMMA,
  ZA: COMMA,
};

/** The countries whose way of writing is known, by code. */
export const COUNTRIES: readonly string[] = Object.keys(BY_COUNTRY);

/** What of a build decides how it is worded. */
export interface Place {
  readonly country?: string | undefined;
  /** Hours of the clock, where the shop has its own; left out: those of the country. */
  readonly clock?: '12' | '24' | undefined;
}

/** The same value for the same place, so that a screen can tell that nothing has changed. */
export function formatsOf({ country = '', clock }: Place): Formats {
  const key = `${country} ${clock ?? ''}`;
  const known = byPlace.get(key);
  if (known) return known;
  const hours =
    clock === undefined ? {} : { clock: clock === '12' ? (12 as const) : (24 as const) };
  const made: Formats = { ...PLAIN_FORMATS, ...BY_COUNTRY[country], ...hours };
  byPlace.set(key, made);
  return made;
}

const byPlace = new Map<string, Formats>();

let source: () => Formats = () => PLAIN_FORMATS;

/** The formats that words are made in just now. */
export const formats = (): Formats => source();

/** Words all that `make` words in these formats. It must not wait for anything. */
export function wordedAs<T>(own: Formats, make: () => T): T {
  const before = source;
  source = () => own;
  try {
    return make();
  } finally {
    source = before;
  }
}

/** The same for work in steps, which others may come between. */
export function* stepsWordedAs<Y, R>(
  own: Formats,
  steps: Generator<Y, R, void>,
): Generator<Y, R, void> {
  for (;;) {
    const step = wordedAs(own, () => steps.next());
    if (step.done) return step.value;
    yield step.value;
  }
}

/** For a screen that shows one build: what it words from now on is worded as this says when it is asked. */
export function wordAs(asked: () => Formats): void {
  source = asked;
}

/** A number written with a point, in the sign of the place. */
export const signed = (text: string): string =>
  formats().decimal === ',' ? text.replace('.', ',') : text;

/** `2.40` with so many decimals. */
export const decimals = (value: number, digits: number): string => signed(value.toFixed(digits));
