/** Why nothing fits: the smallest sets of facts that do not go together, as findings. */
import type { Finding } from '../document/schema.ts';
import type { Fact } from '../messages/facts.ts';
import { finding } from '../messages/findings.ts';

/** Facts that do not fit together; dropping any one lets the rest fit. */
export interface ConflictingFacts {
  readonly facts: readonly Fact[];
  readonly proven: boolean;
}

export const conflictFindings = (conflicts: readonly ConflictingFacts[], zone: string): Finding[] =>
  conflicts.map((conflict, i) => finding('facts-conflict', { ...conflict, zone, first: i === 0 }));
