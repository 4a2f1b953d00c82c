/** What a placed stage takes: what its mode names, and those who were chosen for the hands that it asks for. */
import type { Mode, Placed } from './problem.ts';

/** Ids of resources; people in the order of the mode. */
export const resourcesTaken = (
  mode: Mode | undefined,
  placed: Pick<Placed, 'people'> | null | undefined,
): string[] =>
  mode ? [...(placed?.people ?? []), ...mode.uses.map(({ resource }) => resource)] : [];
