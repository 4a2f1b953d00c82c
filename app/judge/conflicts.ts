/** Why nothing fits: the smallest sets of facts that do not go together, as findings. */
import type { Finding } from '../build/schema.ts';
import { finding } from './finding.ts';

/** Facts in the user's words that do not fit together; dropping any one lets the rest fit. */
export interface ConflictWords {
  readonly facts: readonly string[];
  readonly proven: boolean;
}

/** Facts that one sentence can hold; the numbers of the finding hold them all. */
const MOST_TOLD = 6;

export const conflictFindings = (conflicts: readonly ConflictWords[]): Finding[] =>
  conflicts.map(({ facts, proven }) => {
    const told = facts.slice(0, MOST_TOLD);
    const left = facts.length - told.length;
    const all = left > 0 ? [...told, `${left} more (listed under the numbers)`] : told;
    const sure = proven
      ? 'Drop any one of them and the rest fits.'
      : 'No plan was found that keeps them all; it is not proven that there is none.';
    const message = `These do not go together: ${all.join('; ')}. ${sure}`;
    const numbers = Object.fromEntries(facts.map((fact, i) => [`fact ${i + 1}`, fact]));
    return finding('facts-conflict', 'note', message, { numbers });
  });
