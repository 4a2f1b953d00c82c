/** Does the resin of an infused part fill its way before it gels? Told beside the plan, which has no stages for it. */
import { askInfusion, usualInfusion } from '../cure/infusion-question.ts';
import { processOf } from '../part/process.ts';
import type { PlanContext } from './context.ts';

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

/** @returns null where nothing is infused, or the resin has no curve */
export function infusionFill(context: PlanContext): InfusionFill | null {
  if (processOf(context.build) !== 'infused') return null;
  const { library, model, resin, build } = context;
  const question = usualInfusion(library, build.room.temperatureC.day);
  const answer = askInfusion(model, resin.chemistry, question, library);
  if (!answer) return null;
  const { lengthM, temperatureC } = question;
  const { fillMinutes, gelMinutes } = answer.fill;
  return { lengthM, temperatureC, fillMinutes, gelMinutes, isSound: answer.sound };
}
