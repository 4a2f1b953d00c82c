/** Ids of boundaries, cures and routes. */
import type { JointState } from '../schema.ts';

/** The sign of a boundary in the id of a route: `skin/core+inner`. */
const SIGN_OF: Readonly<Record<JointState, string>> = { apart: '/', tack: '~', 'one-bag': '+' };

/** A boundary between two layups, as `skin-core`. */
export const boundaryId = (before: string, after: string): string => `${before}-${after}`;

/** The id of a cure or of a whole route: its layups with the state of each boundary between them. */
export const chainId = (layups: readonly string[], joints: readonly JointState[]): string =>
  layups.map((layup, i) => (i === 0 ? '' : SIGN_OF[joints[i - 1]!]) + layup).join('');

/** The id of a route: its cures in order, each apart from the one before. */
export const routeId = (cures: readonly string[]): string => cures.join(SIGN_OF.apart);

/** Layups in order and the state of each boundary between them; `joints` is one shorter. */
export interface Chain {
  readonly layups: readonly string[];
  readonly joints: readonly JointState[];
}

/** What the id of a cure or of a route says. */
export function readChainId(text: string): Chain {
  const parts = text.split(/([/~+])/);
  return {
    layups: parts.filter((_part, i) => i % 2 === 0),
    joints: parts.filter((_part, i) => i % 2 === 1).map(stateOf),
  };
}

const stateOf = (sign: string): JointState =>
  sign === SIGN_OF.apart ? 'apart' : sign === SIGN_OF.tack ? 'tack' : 'one-bag';
