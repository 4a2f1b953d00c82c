/** Ids of builds: UUID version 7 (RFC 9562, section 5.7), by the clock of the session. */
import { v7 } from 'uuid';

/**
 * A source of ids that rise in the order they are made, also while the clock stands still or steps
 * back: what is made within one millisecond is counted.
 * @param nowMs Unix milliseconds
 */
export function createIds(nowMs: () => number): () => string {
  let msecs = -1;
  let seq = 0;
  return () => {
    const now = nowMs();
    if (now > msecs) {
      msecs = now;
      seq = 0;
    } else {
      seq += 1;
    }
    return v7({ msecs, seq });
  };
}
