/** What a change does to a plan, in one sentence: the worst of it. */
import type { PlanResult } from '../document/schema.ts';
import { elapsed } from '../messages/words.ts';
import { spareWords } from '../shop/words.ts';
import { plural } from '../units/words.ts';

type Told = Pick<PlanResult, 'findings' | 'fits' | 'lateMinutes' | 'route' | 'spare' | 'stages'>;

/** The worst that `after` has over `before`; what only moves comes last. */
export function worstConsequence(before: Told, after: Told): string {
  const known = new Set(before.findings.map(({ code, stage }) => `${code} ${stage}`));
  const stop = after.findings.find(
    ({ severity, code, stage }) => severity === 'stop' && !known.has(`${code} ${stage}`),
  );
  const late = after.lateMinutes ?? 0;
  if (late > 0 && late > (before.lateMinutes ?? 0)) return `Late by ${elapsed(late)}.`;
  if (stop) return firstSentence(stop.message);
  const merged = before.route.cures.length - after.route.cures.length;
  if (merged > 0)
    return `Then ${plural(after.route.cures.length, 'cure')} are left: layups share a bag.`;
  const [was, is] = [leastOf(before), leastOf(after)];
  if (was && is && minutesOf(is) < minutesOf(was)) {
    return `Leaves ${spareWords(is)} to spare instead of ${spareWords(was)}.`;
  }
  const moved = movedIn(before, after);
  if (moved === 0) return 'Nothing else moves.';
  return `${plural(moved, 'other stage')} ${moved === 1 ? 'moves' : 'move'}; the date holds.`;
}

const firstSentence = (text: string): string => /^.*?[.:](?=\s|$)/.exec(text)?.[0] ?? text;

type Spare = NonNullable<Told['spare']>[number];
const minutesOf = ({ elapsedMinutes }: Spare): number => elapsedMinutes;

const leastOf = ({ spare = [] }: Told): Spare | undefined =>
  [...spare].sort((a, b) => minutesOf(a) - minutesOf(b))[0];

/** Stages that start at another moment, the one that was taken hold of left out. */
function movedIn(before: Told, after: Told): number {
  const starts = new Map(before.stages.map(({ id, start }) => [id, start]));
  const moved = after.stages.filter(({ id, start }) => starts.has(id) && starts.get(id) !== start);
  return Math.max(0, moved.length - 1);
}
