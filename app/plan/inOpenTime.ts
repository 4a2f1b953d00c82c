/** What would bring wet work into the open time of its resin: more hands for so long, or so many parts. */
import type { OpenTimeWay } from '../messages/openTime.ts';
import { bagDueOf } from '../cure/bag-due.ts';
import { layupStageId } from '../document/ids.ts';
import { stretchesOf } from '../route/routes.ts';
import type { Network } from '../schedule/network/network.ts';
import type { Schedule } from '../schedule/problem.ts';
import { crewMinutes } from '../part/labour.ts';
import type { Layup } from '../part/types.ts';
import { MINUTES_PER_HOUR, type Minute } from '../time/instant.ts';
import type { PlanContext } from './context.ts';
import type { SettledCure } from './cures.ts';

/** Most parts that a layup is divided into. */
const MOST_PARTS = 12;

/**
 * The fewest more hands that lay the stretch within so many minutes; where no number of hands that can be on it
 * does, the fewest parts.
 * @returns null where neither does
 */
export function wayIntoOpenTime(
  { build, library, practice }: PlanContext,
  { inHands }: SettledCure,
  layups: readonly Layup[],
  withinMinutes: number,
): OpenTimeWay | null {
  const crew = build.crew.length;
  const most = Math.max(...layups.map(({ peopleMax }) => peopleMax));
  const rate = practice('labour-minor-per-h') / MINUTES_PER_HOUR;
  const work = (people: number): number => {
    const { wetMinutes } = inHands(people);
    return layups.reduce((sum, { id }) => sum + wetMinutes[id]!, 0);
  };
  const clock = (personMinutes: number, people: number): number =>
    Math.ceil(crewMinutes(personMinutes, people, library));
  for (let people = crew + 1; people <= most; people++) {
    const minutes = clock(work(people), people);
    if (minutes > withinMinutes) continue;
    const more = people - crew;
    return { way: 'helpers', more, minutes, costMinor: Math.round(more * minutes * rate) };
  }
  const people = Math.max(1, Math.min(crew, most));
  const setup = layups.reduce((sum, { setupMinutes }) => sum + setupMinutes, 0);
  const spread = Math.max(0, work(people) - setup);
  for (let parts = 2; parts <= MOST_PARTS; parts++) {
    const minutes = clock(setup + spread / parts, people);
    if (minutes > withinMinutes) continue;
    const moreMinutes = (parts - 1) * setup;
    return { way: 'parts', parts, minutes, moreMinutes, costMinor: Math.round(moreMinutes * rate) };
  }
  return null;
}

/** Wet work that is dated as if it were worked through. */
export interface PastHours {
  readonly stage: string;
  readonly name: string;
  readonly start: Minute;
  readonly end: Minute;
  readonly longestMinutes: number;
  /** What would hold it; undefined where that is told of its open time already. */
  readonly way: OpenTimeWay | null | undefined;
}

export function pastHoursOf(
  context: PlanContext,
  cures: readonly SettledCure[],
  { problem, workedThrough, leftOff }: Network,
  { placed }: Schedule,
): PastHours[] {
  return cures.flatMap((settled) =>
    stretchesOf(settled.cure).flatMap((layups): PastHours[] => {
      const stage = layupStageId('layup', layups[0]!.id);
      const longestMinutes = workedThrough[stage];
      const spot = placed.find((one) => one.stage === stage);
      if (longestMinutes === undefined || !spot) return [];
      const { start, end } = spot;
      const { name = stage } = problem.stages.find(({ id }) => id === stage) ?? {};
      const due = bagDueOf(settled.early, context.practice).apply(start);
      const most = Math.min(
        longestMinutes - context.practice('watch-minutes'),
        due === null ? Infinity : due - start,
      );
      const isTold = leftOff.some((one) => one.stage === stage && one.rule === 'bag-down');
      const way = isTold ? undefined : wayIntoOpenTime(context, settled, layups, most);
      return [{ stage, name, start, end, longestMinutes, way }];
    }),
  );
}
