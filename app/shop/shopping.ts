/** The kit against the shelf and the plan: what to order, and by when. */
import { hardenersOf } from '../document/hardener.ts';
import type { StageKind, StageResult } from '../document/schema.ts';
import type { PlanOutcome } from '../plan/outcome.ts';
import { orderLines, type OrderLine } from '../part/order.ts';
import type { KitLine } from '../part/types.ts';

/**
 * Every line of the kit for the chosen route's bags and batches, with the day on which the plan first
 * needs it.
 */
export function shoppingList({ result, detail }: PlanOutcome): OrderLine[] {
  const bags = result.route.cures.length;
  const batches = Object.values(detail.batches).reduce((sum, list) => sum + list.length, 0);
  const uses = new Map(detail.library.consumables.map((row) => [row.id, row.use]));
  const neededOn = (line: KitLine): string | null => {
    const use = uses.get(line.id);
    const kinds = use === undefined ? BY_GROUP[line.group] : BY_USE[use];
    return firstDay(result.stages, kinds);
  };
  const today = result.now.slice(0, 10);
  const hardeners = hardenersOf(detail.build, result.route.cures);
  const kit = detail.part.kitFor(bags, batches, hardeners);
  return orderLines(kit, detail.build.stock, neededOn, today);
}

/** Kinds of stage that first put a hand on it. */
const BY_GROUP: Readonly<Record<KitLine['group'], readonly StageKind[]>> = {
  cloth: ['cutting', 'layup'],
  core: ['core-fit', 'layup'],
  resin: ['resin-warm', 'layup'],
  consumable: ['layup'],
  release: ['release', 'layup'],
  mould: ['mould', 'outside', 'seal', 'release'],
};

const BY_USE = {
  'peel-ply': ['cutting', 'layup'],
  'release-film': ['cutting', 'layup'],
  'flow-mesh': ['cutting', 'layup'],
  breather: ['bag-test', 'cutting', 'layup'],
  'bag-film': ['bag-test', 'cutting', 'layup'],
  'sealant-tape': ['bag-test', 'layup'],
  filler: ['fair', 'closeout'],
  primer: ['prime'],
  abrasive: ['mould', 'seal', 'prepare', 'trim', 'fair'],
  gloves: ['seal', 'release', 'layup'],
  cups: ['seal', 'layup'],
  sticks: ['seal', 'layup'],
  brushes: ['seal', 'layup'],
  solvent: ['seal', 'release', 'layup'],
} as const satisfies Readonly<Record<string, readonly StageKind[]>>;

/** Day of the first of the kinds that has a place in time; the build's wall clock. */
function firstDay(stages: readonly StageResult[], kinds: readonly StageKind[]): string | null {
  const starts = stages.flatMap((stage) =>
    stage.start !== null && kinds.includes(stage.kind) ? [stage.start.slice(0, 10)] : [],
  );
  return starts.length > 0 ? starts.reduce((first, day) => (day < first ? day : first)) : null;
}

/** Lines by group, in the order of the kit; groups without a line are left out. */
export function byGroup(
  orders: readonly OrderLine[],
): { readonly group: KitLine['group']; readonly name: string; readonly orders: OrderLine[] }[] {
  const groups = Object.keys(GROUP_NAMES) as KitLine['group'][];
  return groups.flatMap((group) => {
    const own = orders.filter(({ line }) => line.group === group);
    return own.length > 0 ? [{ group, name: GROUP_NAMES[group], orders: own }] : [];
  });
}

const GROUP_NAMES: Readonly<Record<KitLine['group'], string>> = {
  cloth: 'Cloth',
  core: 'Core',
  resin: 'Resin',
  release: 'Release',
  consumable: 'Bag and bench',
  mould: 'Mould',
};
