/** What the published totals are made up of, rounded so that each list adds up to its total. */
import type { PlanResult } from '../document/schema.ts';
import { machiningOf } from '../part/machining.ts';
import type { KitLine } from '../part/types.ts';
import { isOnPart, roundedWeightRows, type WeightState } from '../part/weight.ts';
import type { RoutePlan } from '../plan/routePlan.ts';
import { roundedToSum } from '../units/summed.ts';

type Breakdown = NonNullable<PlanResult['breakdown']>;

/** @param counted the state in which the part's weight is counted */
export function breakdownOf({ labour, kit, weight }: RoutePlan, counted: WeightState): Breakdown {
  const hours = roundedToSum(
    labour.map(({ personMinutes }) => personMinutes / 60),
    10,
  );
  return {
    labourHours: labour.map(({ id, name }, i) => ({ id, name, value: hours[i]! })),
    materialCost: kit.map(({ id, name, costMinor }) => ({ id, name, value: costMinor })),
    massKg: roundedWeightRows(weight)
      .filter((row) => row.massKg !== 0 && isOnPart(row, counted))
      .map(({ id, name, massKg }) => ({ id, name, value: massKg })),
  };
}

/** Who machines the mould, and its price; null: not known, and so not in the cost. */
export function machiningTotal(
  build: Parameters<typeof machiningOf>[0],
  kit: readonly KitLine[],
): NonNullable<PlanResult['totals']['machining']> {
  const { by, costMinor } = machiningOf(build, kit);
  return { by, cost: costMinor };
}
