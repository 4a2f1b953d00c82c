/** The drive to an outside party. */
import { practiceIf } from './library.ts';
import type { Library, OutsideParty } from './schema.ts';

/** Hours of the drive one way: as the build says, or the usual where it says nothing. */
export const driveHoursOf = (
  { driveHours }: Pick<OutsideParty, 'driveHours'>,
  library: Library,
): number => driveHours ?? practiceIf(library, 'drive-hours') ?? 0;
