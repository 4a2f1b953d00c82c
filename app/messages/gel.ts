/** Sentences about a gel that nobody sees and a tack that nobody can use. */
import type { Minute } from '../time/instant.ts';
import { capital, dayAndTime, elapsed } from './words.ts';

/** What to do about a gel that nobody sees. */
type GelAdvice =
  | { readonly way: 'begun' }
  | { readonly way: 'tack' | 'watch' }
  /** A start whose gel somebody sees, and by how much later its bag comes off. */
  | { readonly way: 'start'; readonly start: Minute; readonly laterMinutes: number };

interface GelAlone {
  readonly cure: string;
  readonly mixed: Minute;
  readonly gel: Minute;
  /** Latest gel; null where the cold leaves it open. */
  readonly latest: Minute | null;
  readonly advice: GelAdvice;
  readonly zone: string;
}

export function gelWords({ cure, mixed: mixedAt, gel, latest, advice, zone }: GelAlone): string {
  const at = dayAndTime(mixedAt, zone);
  const until =
    latest === null || latest <= gel ? '' : ` (by ${dayAndTime(latest, zone)} at the latest)`;
  const falls = `gel falls ${dayAndTime(gel, zone)}${until} with nobody there.`;
  if (advice.way === 'begun') {
    return `${cure}: mixed ${at}, ${falls} Have somebody come in for it, or set an alarm.`;
  }
  // Where a start is known that somebody sees, the mix is put off; where none is, it hangs on who comes in.
  const mixed = advice.way === 'start' ? `do not mix ${at}:` : `mixed ${at},`;
  return `${cure}: ${mixed} ${falls} ${gelAdvice(advice, zone)}`;
}

const COMES_IN =
  'Do not mix before it is agreed who is there from the earliest gel to the latest, with an alarm set';

function gelAdvice(advice: Exclude<GelAdvice, { way: 'begun' }>, zone: string): string {
  switch (advice.way) {
    case 'tack':
      return `The tack of the layup below leaves no other start. ${COMES_IN}, or choose another joint.`;
    case 'start': {
      const when = dayAndTime(advice.start, zone);
      return advice.laterMinutes <= 0
        ? `Mix it ${when} instead: somebody sees the gel, and its bag comes off no later.`
        : `Mix it ${when} instead: somebody sees the gel, and its bag comes off ${elapsed(advice.laterMinutes)} later.`;
    }
    case 'watch':
      return `No start in the shop’s hours puts it when somebody is there. ${COMES_IN}.`;
  }
}

/** A layup that nobody can lay on the tacky one below it. */
interface TackMissed {
  readonly before: readonly string[];
  readonly next: readonly string[];
  /** True when the layup below is the first of its cure. */
  readonly isSecond: boolean;
  /** What a first mix in the first hours that hold the layup below would give. */
  readonly example: {
    readonly mixed: Minute;
    readonly gel: Minute;
    readonly tackFree: Minute;
  } | null;
  readonly zone: string;
}

export const together = (layups: readonly string[]): string =>
  layups.map((name) => name.toLowerCase()).join(' + ');

export function tackWords({ before, next, isSecond, example, zone }: TackMissed): string {
  const head = `${capital(together(next))} on the tacky ${together(before)}: `;
  const none =
    'no start in the shop’s hours lets somebody lay it between gel and tack-free, each bag down in time.';
  if (!isSecond) return `${head}after the layups before it, ${none}`;
  if (example === null) return head + none;
  const { mixed, gel, tackFree } = example;
  return (
    `${head}mixed ${dayAndTime(mixed, zone)} it gels ${dayAndTime(gel, zone)} and is tack-free ` +
    `${dayAndTime(tackFree, zone)}; ${none}`
  );
}
