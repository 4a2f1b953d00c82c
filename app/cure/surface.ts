/** A surface between two layups: what it is, how long it keeps, and what it then needs. */
import type { Minute } from '../time/instant.ts';
import type { CureClock } from './types.ts';
import type { PracticeLookup } from './practice.ts';

/** What lies on the cured face. */
export type SurfaceCover = 'peel-ply-on' | 'peel-ply-stripped' | 'bare';

/** What must be done before anything is bonded to it. */
export type SurfaceNeed =
  /** Nothing: it still bonds as one resin. */
  | 'none'
  /** Strip the peel ply; scuff when structural. */
  | 'strip'
  | 'strip-and-scuff'
  /** Scuff lightly: structural and within its time. */
  | 'scuff'
  /** Wash with water, dry, abrade P80 to P120, vacuum, wipe. */
  | 'wash-and-abrade';

export interface SurfaceCase {
  readonly cover: SurfaceCover;
  /** A peel ply with release on it leaves it behind: always abraded. */
  readonly releaseCoated: boolean;
  readonly structural: boolean;
  /** First mix of the layup whose face this is. */
  readonly curedFrom: Minute;
  /** When the peel ply was or will be stripped; null while it is on, or when there was none. */
  readonly strippedAt: Minute | null;
  /** When the next layup goes on. */
  readonly bondAt: Minute;
}

export interface SurfaceState {
  readonly need: SurfaceNeed;
  /** Until when `need` is no more than this; null when it does not lapse within the profile. */
  readonly keepsUntil: Minute | null;
  /** True when what kept the surface good has run out by `bondAt`. */
  readonly lapsed: boolean;
}

/**
 * State of a face at the moment of bonding. Peel ply left on keeps for weeks; stripped, for an hour
 * or two; a bare face bonds as one resin until the end of the bond window and is abraded after.
 * @param surface what lies on the face, and its moments in minutes of Unix UTC
 * @param clock of the layup whose face it is
 * @throws MissingRow when the library lacks a practice row
 */
export function surfaceState(
  surface: SurfaceCase,
  clock: CureClock,
  practice: PracticeLookup,
): SurfaceState {
  const { cover, structural, bondAt } = surface;
  if (cover === 'bare') return bareState(surface, clock);
  if (surface.releaseCoated) return { need: 'wash-and-abrade', keepsUntil: null, lapsed: false };
  if (cover === 'peel-ply-on') {
    const keepsUntil = surface.curedFrom + practice('peel-ply-keeps-days') * 1440;
    const lapsed = bondAt > keepsUntil;
    const need = lapsed || structural ? 'strip-and-scuff' : 'strip';
    return { need, keepsUntil, lapsed };
  }
  const stripped = surface.strippedAt ?? surface.curedFrom;
  const keepsUntil = stripped + Math.floor(practice('strip-to-bond-hours') * 60);
  const lapsed = bondAt > keepsUntil;
  return { need: lapsed ? 'wash-and-abrade' : structural ? 'scuff' : 'none', keepsUntil, lapsed };
}

function bareState({ curedFrom, bondAt }: SurfaceCase, clock: CureClock): SurfaceState {
  const keepsUntil = clock.reached(curedFrom, 'bondUntil');
  const lapsed = keepsUntil !== null && bondAt > keepsUntil;
  return { need: lapsed ? 'wash-and-abrade' : 'none', keepsUntil, lapsed };
}
