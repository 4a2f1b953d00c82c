/** How long the resin of an infused part runs before its way is full, against its gel. */
import { practiceIf } from '../document/library.ts';
import { askInfusion, usualInfusion } from '../cure/infusion-question.ts';
import { memoByAll } from '../document/memo.ts';
import type { CureModel } from '../cure/types.ts';
import { layupStageId } from '../document/ids.ts';
import type { PlanContext } from './context.ts';
import type { SettledCure } from './cures.ts';

/** Minutes from first contact, in a resin at the temperature of the room. */
export interface InfusionFill {
  readonly lengthM: number;
  readonly temperatureC: number;
  /** null: it gels first. */
  readonly fillMinutes: number | null;
  readonly gelMinutes: number;
  /** Filled before gel, and before the resin is too thick to run. */
  readonly isSound: boolean;
}

const known = memoByAll<InfusionFill | null>();

/**
 * @param model of the hardener that the resin is mixed with
 * @returns null where the resin has no curve
 * @throws MissingRow when the library lacks a practice row
 */
export function infusionFill(
  { build, library, resin }: Pick<PlanContext, 'build' | 'library' | 'resin'>,
  model: CureModel,
): InfusionFill | null {
  const { day } = build.room.temperatureC;
  const question = usualInfusion(library, day, build.part.infusionWayM);
  const { lengthM } = question;
  return known([model, library, resin], `${day} ${lengthM}`, () => {
    const answer = askInfusion(model, resin.chemistry, question, library);
    if (!answer) return null;
    const { fillMinutes, gelMinutes } = answer.fill;
    return { lengthM, temperatureC: day, fillMinutes, gelMinutes, isSound: answer.sound };
  });
}

/**
 * Minutes with the feed open and after: until the way is full, or the resin gels in it, then the feed clamped
 * and the vacuum eased. Stirring, degassing and carrying come before.
 */
export function infusionMinutes(context: PlanContext, model: CureModel): number {
  const { library, practice } = context;
  const fill = infusionFill(context, model);
  const wait = practice('infusion-wait-minutes');
  const clamp = practiceIf(library, 'infusion-clamp-minutes') ?? 0;
  if (!fill) return wait + clamp;
  // From first contact; the wait is part of it.
  return Math.ceil(Math.max(wait, fill.fillMinutes ?? fill.gelMinutes)) + clamp;
}

/** One bag that is filled with resin, by its stage of wet work. */
export interface Infusion extends InfusionFill {
  readonly cure: string;
  readonly stage: string;
}

/** What is known of each infusion of a route, in order. */
export const infusionsOf = (context: PlanContext, cures: readonly SettledCure[]): Infusion[] =>
  cures.flatMap(({ cure, model, dry }) => {
    const fill = dry ? infusionFill(context, model) : null;
    if (!fill) return [];
    return [{ cure: cure.name, stage: layupStageId('layup', cure.layups[0]!.id), ...fill }];
  });
