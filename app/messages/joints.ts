/** Two neighbouring layups and how they are cured, in words. */
import type { JointState } from '../document/schema.ts';

/** Names of the two layups of a boundary and its state. */
export interface Join {
  readonly before: string;
  readonly after: string;
  readonly state: JointState;
  /** The other way of joining them, where it makes the date as well; null or absent: none does. */
  readonly alsoFits?: JointState | null;
}

/** 'core bond in one bag with the outer skin', 'inner skin on the tacky core bond'. */
export function joinWords({ before, after, state }: Join): string {
  const names = { before: before.toLowerCase(), after: after.toLowerCase() };
  return state === 'tack'
    ? `${names.after} on the tacky ${names.before}`
    : `${names.after} in one bag with the ${names.before}`;
}

/** 'core bond into one bag with the outer skin', 'inner skin onto the tacky core bond'. */
export const mergeWords = (join: Join): string => joinWords(join).replace(/ (in|on) /, ' $1to ');

/** 'On tack the inner skin makes the date as well.'; empty where no other way does. */
export function alsoFitsWords({ after, alsoFits }: Join): string {
  if (!alsoFits || alsoFits === 'apart') return '';
  return `${alsoFits === 'tack' ? 'On tack' : 'In one bag'} the ${after.toLowerCase()} makes the date as well.`;
}
