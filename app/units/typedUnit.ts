/** The unit that a person wrote a figure in, so that the field can go on in it. */
import { UNITS, unitOf, type Measure, type Unit } from './convert.ts';
import { headOf, plainText } from './number.ts';
import { unitNamed } from './read.ts';

/**
 * Symbol of the unit that stands behind the figure; empty: the figure stands alone; null: it is written
 * in another way, as `5'6"` or `2h30`.
 */
export function unitTyped(text: string, measure: Measure): string | null {
  const rest = headOf(plainText(text))?.rest.trim();
  if (rest === undefined || rest === '') return rest ?? null;
  return unitNamed(rest.replace(/\.$/, ''), measure)?.symbol ?? null;
}

/** A unit that figures are shown in besides the planner's own; null where it is none of the measure's. */
export function otherUnit(symbol: unknown, measure: Measure): Unit | null {
  if (symbol === unitOf(measure)) return null;
  return UNITS[measure].find((one) => one.symbol === symbol) ?? null;
}

/** The stored figure in that unit, without the tail that reading it back would leave. */
export const figureIn = (value: number, { factor, offset = 0 }: Unit): number =>
  Number(((value - offset) / factor).toPrecision(6));
