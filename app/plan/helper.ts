/** A helper by the hour, who mixes and hands over beside those who lay and is no second laminator. */
import type { FullBuild } from '../document/schema.ts';
import { layupStageId } from '../document/ids.ts';
import { isInfused, type Layup } from '../part/types.ts';
import { stretchesOf } from '../route/routes.ts';
import { MINUTES_PER_HOUR, type Minute } from '../time/instant.ts';
import type { PlanContext } from './context.ts';
import type { SettledCure } from './cures.ts';
import type { RoutePlan } from './routePlan.ts';
import { slowCup } from './slowCups.ts';
import { wetMinutesOf, wetWorkOf } from './wetWork.ts';

/** Helpers are paid by the hour that has begun. */
const hoursOf = (minutes: number): number => Math.ceil(minutes / MINUTES_PER_HOUR);

/** A stretch of wet work with a helper at it. */
export interface HelpedStretch {
  readonly layups: readonly string[];
  readonly hours: number;
}

/**
 * Wet work that lasts longer than its resin or the crew's hours, outlasts its cups or lacks hands, and the hours
 * for which a helper would be there. Nothing for an infusion, whose front needs no hands.
 */
export function lackingHelp(context: PlanContext, plan: RoutePlan): HelpedStretch[] {
  return plan.cures.flatMap((settled) => {
    if (isInfused(settled.cure.layups)) return [];
    const stretches = stretchesOf(settled.cure).filter(
      (layups) =>
        layups.some(({ id }) => !context.build.helperFor.includes(id)) &&
        lacks(context, plan, settled, layups),
    );
    if (stretches.length === 0) return [];
    const ids = stretches.flat().map(({ id }) => id);
    const build: FullBuild = {
      ...context.build,
      helperFor: [...context.build.helperFor, ...ids],
    };
    const inHands = wetWorkOf({ ...context, build }, settled.cure);
    return stretches.map((layups) => {
      const people = Math.max(...layups.map(({ id }) => settled.hands[id]!));
      const minutes = wetMinutesOf(context, layups, inHands(people));
      return { layups: layups.map(({ id }) => id), hours: hoursOf(minutes) };
    });
  });
}

function lacks(
  context: PlanContext,
  { network }: RoutePlan,
  settled: SettledCure,
  layups: readonly Layup[],
): boolean {
  const stage = layupStageId('layup', layups[0]!.id);
  if (network.workedThrough[stage] !== undefined) return true;
  if (network.leftOff.some((one) => one.stage === stage && one.rule === 'bag-down')) return true;
  return layups.some(
    (layup) =>
      layup.peopleMin > context.build.crew.length || slowCup(context, layup, settled) !== null,
  );
}

/** When a helper is to be there by the plan, and what those hours cost. */
export interface HelperCall {
  readonly name: string;
  readonly stage: string;
  readonly start: Minute;
  readonly end: Minute;
  readonly costMinor: number;
}

/** One for each stretch of wet work that the build has a helper for, and that has not begun. */
export function helperCalls(
  { build, now, practice }: PlanContext,
  cures: readonly SettledCure[],
  placed: RoutePlan['placed'],
): HelperCall[] {
  return cures.flatMap(({ cure }) =>
    stretchesOf(cure).flatMap((layups): HelperCall[] => {
      const stage = layupStageId('layup', layups[0]!.id);
      const spot = placed.get(stage);
      if (!spot || spot.start < now) return [];
      if (!layups.some(({ id }) => build.helperFor.includes(id))) return [];
      const { start, end } = spot;
      const costMinor = Math.round(hoursOf(end - start) * practice('labour-minor-per-h'));
      const name = layups.map((layup) => layup.name).join(', ');
      return [{ name, stage, start, end, costMinor }];
    }),
  );
}
