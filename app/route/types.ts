/** How the layups are divided into cures. */
import type { JointState } from '../document/schema.ts';
import type { Layup, LayupId, LayupPlace } from '../part/types.ts';

/** The boundary of two neighbouring layups; its id is `${before}-${after}`, as in `skin-core`. */
export interface Boundary {
  readonly id: string;
  readonly before: LayupId;
  readonly after: LayupId;
  /** False for a boundary that can only be apart (a closeout over a trimmed edge, a section of a skin). */
  readonly free: boolean;
  /** One side of it is laid dry: there is no tack to lay the next one on. */
  readonly dry: boolean;
}

/** One bag: neighbouring layups cured together. */
export interface RouteCure {
  /** Layup ids joined by `+` (one bag) or `~` (wet on tack), as in `skin`, `core+inner`. */
  readonly id: string;
  readonly name: string;
  readonly layups: readonly Layup[];
  /** Joint between layup i and i + 1 of this cure: 'tack' or 'one-bag'. */
  readonly joints: readonly JointState[];
  readonly place: LayupPlace;
}

export interface Route {
  /** Ids of the cures in line joined by `/`, as in `skin/core+inner/closeout`: what is cured beside them is not a choice. */
  readonly id: string;
  readonly joints: Readonly<Record<string, JointState>>;
  /** How far it goes towards one bag: 1 for each joint on tack, 2 for each in one bag. */
  readonly merging: number;
  readonly cures: readonly RouteCure[];
}
