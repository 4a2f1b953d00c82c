/** The unit that each field was last typed in: it shows its figure in it, and reads a figure alone in it. */
import type { Measure, Unit } from '../../app/units/convert.ts';
import { otherUnit, unitTyped } from '../../app/units/typedUnit.ts';
import type { PlannerState } from './planner.svelte.ts';

type Planner = Pick<PlannerState, 'view' | 'setView'>;
type Units = Readonly<Record<string, string>>;

const unitsOf = ({ view }: Planner): Units => (view['units'] ?? {}) as Units;

/** The same field of every zone, layup or party goes by one unit. */
const fieldOf = (path: string): string => path.replace(/\[\d+\]/g, '[]');

/** Null where the planner's own unit goes. */
export const unitOfField = (planner: Planner, path: string, measure: Measure): Unit | null =>
  otherUnit(unitsOf(planner)[fieldOf(path)], measure);

/** What was typed, with the field's unit behind a figure that stands alone. */
export function inFieldsUnit(text: string, measure: Measure, unit: Unit | null): string {
  return unit !== null && unitTyped(text, measure) === '' ? `${text} ${unit.symbol}` : text;
}

/** Notes the unit of a text that was taken; the planner's own unit is what stands without a note. */
export function noteUnit(planner: Planner, path: string, measure: Measure, text: string): void {
  const symbol = unitTyped(text, measure);
  if (symbol === null || symbol === '') return;
  const { [fieldOf(path)]: before, ...others } = unitsOf(planner);
  const unit = otherUnit(symbol, measure);
  if (before === unit?.symbol) return;
  planner.setView({ units: unit === null ? others : { ...others, [fieldOf(path)]: unit.symbol } });
}
