/**
 * Figures in fields: as they are written in the country of the build, or where the program runs while it
 * names none: `1,4` or `1.4`. Stored ones stay plain.
 */
import { formats, PLAIN_FORMATS, signed } from '../../app/units/formats.ts';

const FORM = {
  useGrouping: false,
  maximumSignificantDigits: 15,
  numberingSystem: 'latn',
} as const;

/** The form of a language; that of the program itself where a system names none that is known: `en-US@posix`. */
export function formOf(language: string | undefined): Intl.NumberFormat {
  try {
    return new Intl.NumberFormat(language, FORM);
  } catch {
    return new Intl.NumberFormat('en', FORM);
  }
}

const plainForm = formOf('en');
const form = formOf(typeof navigator === 'undefined' ? undefined : navigator.language);

/** Reads back to the same figure: the fields take point and comma. */
export const localNumber = (value: number): string =>
  formats() === PLAIN_FORMATS ? form.format(value) : signed(plainForm.format(value));
