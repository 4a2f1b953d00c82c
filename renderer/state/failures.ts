/** What is done after a failed save, by the kind of failure. */
import type { ErrorCode } from '../../app/contract/channels.ts';

export type SaveState = 'saved' | 'saving' | 'failed';

/** How long until a save is tried again that may succeed later. */
export const RETRY_MS = 4000;

export type FailureKind =
  /** The program or the disk is not ready: the same request may succeed later. */
  | 'retry'
  /** A fault of the program: tried again a few times, then counted as refused. */
  | 'retry-few-times'
  /** The request itself is turned down: it would be so every time. */
  | 'rejected'
  /** Another window has written since. */
  | 'stale'
  /** There is nothing to save to any more. */
  | 'gone';

/** Every code has a kind, so that no failure is retried or dropped by oversight. */
export const FAILURE_KIND: Readonly<Record<ErrorCode, FailureKind>> = {
  unreachable: 'retry',
  disk: 'retry',
  unexpected: 'retry-few-times',
  refused: 'rejected',
  'bad-message': 'rejected',
  stale: 'stale',
  'not-found': 'gone',
  'not-here': 'gone',
};
