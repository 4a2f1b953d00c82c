/** Figures in fields as they are written where the program runs: `1,4` or `1.4`. Stored ones stay plain. */

const format = new Intl.NumberFormat(
  typeof navigator === 'undefined' ? undefined : navigator.language,
  { useGrouping: false, maximumSignificantDigits: 15, numberingSystem: 'latn' },
);

/** Reads back to the same figure: the fields take point and comma. */
export const localNumber = (value: number): string => format.format(value);
