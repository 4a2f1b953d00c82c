/** Figures in fields as they are written where the program runs: `1,4` or `1.4`. Stored ones stay plain. */

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

const form = formOf(typeof navigator === 'undefined' ? undefined : navigator.language);

/** Reads back to the same figure: the fields take point and comma. */
export const localNumber = (value: number): string => form.format(value);
