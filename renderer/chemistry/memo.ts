/** Slow work that is repeated only when the content of its input changes, not when the object does. */
import { untrack } from 'svelte';
import type { Library } from '../../app/document/schema.ts';
import type { CureModel } from '../../app/cure/types.ts';

/**
 * The input of slow work, read again only when the key has changed: every answer of the planner brings
 * new objects with mostly the same content.
 * @param _key text that holds all the content that the work depends on
 */
export const memo = <T>(_key: string, read: () => T): T => untrack(read);

/** All of a fitted resin that heat and time are worked out from, and the practice beside it. */
export const modelKey = ({ kinetics, pot, doseHours }: CureModel, { practice }: Library): string =>
  JSON.stringify([kinetics, pot, doseHours, practice.map(({ value }) => value)]);
