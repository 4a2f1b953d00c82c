/** Slow work that hangs on what its input says, not on which object says it. */
import { untrack } from 'svelte';
import type { Library } from '../../app/document/schema.ts';
import type { CureModel } from '../../app/cure/types.ts';

/**
 * The input of slow work, read anew only when the key has changed: every answer of the planner brings
 * new objects that mostly say the same.
 */
export const memo = <T>(_key: string, read: () => T): T => untrack(read);

/** All of a fitted resin that heat and time are worked out from, and the practice beside it. */
export const modelKey = ({ kinetics, pot, doseHours }: CureModel, { practice }: Library): string =>
  JSON.stringify([kinetics, pot, doseHours, practice.map(({ value }) => value)]);
