/** Why nothing fits: the smallest sets of facts that do not go together, as findings. */
import type { Finding } from '../document/schema.ts';
import { finding } from '../messages/findings.ts';

/** Facts in the user's words that do not fit together; dropping any one lets the rest fit. */
export interface ConflictWords {
  readonly facts: readonly string[];
  readonly proven: boolean;
}

export const conflictFindings = (conflicts: readonly ConflictWords[]): Finding[] =>
  conflicts.map((conflict, i) => finding('facts-conflict', { ...conflict, first: i === 0 }));
