/** What smear and leftover cup say, in words. */
import type { BenchTrouble, MilestoneShift } from '../../app/cure/bench-question.ts';
import { decimals } from '../../app/units/formats.ts';

export const SHIFT_WORDS: Readonly<Record<MilestoneShift['milestone'], string>> = {
  open: 'Open until',
  gel: 'Gel',
  debag: 'Bag off from',
  demould: 'Demould from',
  sand: 'Sand from',
  full: 'Full cure',
};

export const BENCH_TROUBLE: Readonly<Record<BenchTrouble, string>> = {
  'before-mix': 'It gelled before it was mixed: check the two times.',
  'no-temperature': 'The plan knows no temperature for that time: type the flange’s own.',
  'too-cold':
    'Colder than its sheet allows: nothing is set by a smear out of that range. Warm it, and smear again.',
  unlikely: 'This resin cannot be so quick or so slow: check ratio, thermometer and clock.',
};
export const BENCH_FAR =
  'Further from the sheet than is usual: check ratio, thermometer and clock first.';

/** `1.15 ×` */
export const times = (factor: number): string => `${decimals(factor, 2)} ×`;
