/** What a failed save means for what waits behind it. */
import type { ErrorCode } from '../../app/contract/channels.ts';

export type SaveState = 'saved' | 'saving' | 'failed';

/** How long until a save is tried again that may succeed later. */
export const RETRY_MS = 4000;

export type Meaning =
  /** The program or the disk is not ready: the same request may succeed later. */
  | 'later'
  /** A fault of the program: tried again a few times, then counted as refused. */
  | 'doubtful'
  /** The request itself is turned down: it would be so every time. */
  | 'never'
  /** Another window has written since. */
  | 'behind'
  /** There is nothing to save to any more. */
  | 'gone';

/** Every code has a meaning, so that no failure is retried or dropped by oversight. */
export const MEANING: Readonly<Record<ErrorCode, Meaning>> = {
  unreachable: 'later',
  disk: 'later',
  unexpected: 'doubtful',
  refused: 'never',
  'bad-message': 'never',
  stale: 'behind',
  'not-found': 'gone',
  'not-here': 'gone',
};
