/** Why nothing fits: the smallest sets of facts that do not go together, as findings. */
import type { Finding } from '../document/schema.ts';
import { finding } from './finding.ts';

/** Facts in the user's words that do not fit together; dropping any one lets the rest fit. */
export interface ConflictWords {
  readonly facts: readonly string[];
  readonly proven: boolean;
}

/** Facts that one sentence can hold; the numbers of the finding hold them all. */
const MOST_TOLD = 6;

export const conflictFindings = (conflicts: readonly ConflictWords[]): Finding[] =>
  conflicts.map(({ facts, proven }, i) => {
    const told = facts.slice(0, MOST_TOLD);
    const left = facts.length - told.length;
    const all = left > 0 ? [...told, `${left} more (listed under the numbers)`] : told;
    const which =
      i === 0 ? 'These do not go together' : 'Nor do these, whatever is done about those';
    const sure = proven
      ? 'Drop any one of them and the rest fits. That they do not fit together is proven.'
      : 'Drop any one of them and the rest fits. No plan was found that keeps them all; that there is none is not proven.';
    const message = `${which}: ${all.join('; ')}. ${sure}`;
    const numbers = Object.fromEntries(facts.map((fact, k) => [`fact ${k + 1}`, fact]));
    return finding('facts-conflict', 'note', message, { numbers });
  });
