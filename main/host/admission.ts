/** The session's token, links that hand it over once, and the wait that a wrong guess costs. */
import { createHash, randomBytes, timingSafeEqual } from 'node:crypto';

/** Path of a link that works once; its query holds the secret. */
export const ONCE_PATH = '/open';
/** Each wrong guess of the last minutes doubles the wait of the next answer, up to this. */
const LONGEST_WAIT_MS = 2000;
const FIRST_WAIT_MS = 10;
/** A wrong guess is forgotten after so long. */
const FORGET_MS = 60_000;
/** So many wrong guesses may wait for their answer at once; more are cut off. */
export const MOST_WAITING = 20;

const secret = (): string => randomBytes(32).toString('base64url');
const digest = (text: string): Buffer => createHash('sha256').update(text).digest();

export interface Admission {
  readonly token: string;
  /** Path of a new link; the ones made before stay good until they are used. */
  linkPath(): string;
  /** True once for each link. */
  redeem(query: string | null): boolean;
  /** How long the answer to a wrong guess is held back, in ms; null: it gets none. */
  wrongGuess(): number | null;
  /** The answer went out. */
  answered(): void;
}

export function createAdmission(nowMs: () => number = () => performance.now()): Admission {
  const token = secret();
  const links = new Map<string, Buffer>();
  let guesses: number[] = [];
  let waiting = 0;
  return {
    token,
    linkPath: () => {
      const once = secret();
      links.set(once, digest(once));
      return `${ONCE_PATH}?once=${once}`;
    },
    redeem: (query) => {
      const given = digest(query ?? '');
      // Every link is compared, so that the time taken tells nothing.
      const found = [...links].filter(([, known]) => timingSafeEqual(known, given));
      for (const [once] of found) links.delete(once);
      return found.length > 0;
    },
    wrongGuess: () => {
      if (waiting >= MOST_WAITING) return null;
      waiting += 1;
      const now = nowMs();
      guesses = [...guesses.filter((at) => now - at < FORGET_MS).slice(-20), now];
      return Math.min(LONGEST_WAIT_MS, FIRST_WAIT_MS * 2 ** (guesses.length - 1));
    },
    answered: () => void (waiting -= 1),
  };
}
