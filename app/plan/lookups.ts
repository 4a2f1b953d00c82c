/** What offers of a change ask about a build: handed to judge/, which imports no planner. */
import type { FullBuild, Library } from '../document/schema.ts';
import { layupsOf } from './layups.ts';
import { openMinutes } from './openTime.ts';

export interface Lookups {
  /** Open time of a hardener's film at the day temperature of the room, minutes. @throws MissingRow */
  readonly openMinutes: (build: FullBuild, library: Library, hardener: string) => number;
  /** The layups of a build in the order of laying. @throws MissingRow */
  readonly layupsOf: (
    build: FullBuild,
    library: Library,
  ) => readonly { readonly id: string; readonly name: string }[];
}

export const LOOKUPS: Lookups = { openMinutes, layupsOf };
