/** The kit against the shelf and the plan: what to order, and by when. */
import { supplierHolidays } from '../document/calendars.ts';
import { kitLineId, stageId } from '../document/ids.ts';
import { hardenerIdOf } from '../document/hardener.ts';
import { practiceOf } from '../document/library.ts';
import type { PlanResult, StageKind, StageResult } from '../document/schema.ts';
import type { PlanOutcome } from '../plan/outcome.ts';
import { deliveriesOf } from '../part/deliveries.ts';
import { orderLines, type OrderLine } from '../part/order.ts';
import type { KitLine } from '../part/types.ts';
import { kindsUsing } from '../part/uses.ts';
import { money } from '../units/words.ts';
import { cardTotals } from './mixes.ts';
import { decimals } from '../units/formats.ts';

/**
 * Every line of the kit for the chosen route's bags and batches, with the day on which the plan first
 * needs it.
 */
export function shoppingList(outcome: PlanOutcome): OrderLine[] {
  const { result, detail } = outcome;
  const neededOn = (line: KitLine): string | null =>
    firstDay(result.stages, kindsUsing(line, detail.library));
  const closed = new Set(supplierHolidays(detail.build));
  const now = result.now.slice(0, 16);
  const orderHour = hourOfOrder(outcome);
  return orderLines(detail.kit, detail.build.stock, neededOn, now, closed, orderHour);
}

/** The last working hour at which a line's supplier can be ordered from; null where it is not in the plan. */
function hourOfOrder({ result, detail }: PlanOutcome): (line: KitLine) => string | null {
  const latest = new Map(result.stages.map(({ id, latestStart }) => [id, latestStart]));
  const hours = new Map(
    deliveriesOf(detail.build, detail.kit).flatMap(({ supplier, lines }) =>
      lines.map((line): [string, string | null] => [
        line.id,
        latest.get(stageId({ what: 'order', supplier }))?.slice(0, 16) ?? null,
      ]),
    ),
  );
  return ({ id }) => hours.get(id) ?? null;
}

/**
 * What the mix cards weigh out of a line of the kit, kg; null for a line that is not mixed. The rest of
 * the line is what rounding up to what can be bought leaves over.
 */
export function onMixCardsKg({ result, detail }: PlanOutcome, line: KitLine): number | null {
  if (line.group !== 'resin') return null;
  const { system } = detail.build.resin;
  const tolerance = practiceOf(detail.library)('mix-tolerance-share');
  const grams = result.route.cures.flatMap(({ id, layups }) => {
    const hardener = hardenerIdOf(detail.build, layups);
    const isHardener = line.id === kitLineId({ kind: 'hardener', resin: system, hardener });
    if (!isHardener && line.id !== system) return [];
    const own = result.mixes.filter(({ cure }) => cure === id);
    const { hardenerG, resinG } = cardTotals(own, tolerance);
    return isHardener ? hardenerG : resinG;
  });
  return grams.reduce((sum, mass) => sum + mass, 0) / 1000;
}

/** `2.96 kg on the mix cards, 0.04 kg over`; null for a line that is not mixed. */
export function onCardsWords(outcome: PlanOutcome, line: KitLine): string | null {
  const cardsKg = onMixCardsKg(outcome, line);
  if (cardsKg === null) return null;
  const shownKg = Math.round(cardsKg * 1000) / 1000;
  const overKg = line.quantity - shownKg;
  const cards = `${decimals(shownKg, 3)} kg on the mix cards`;
  if (Math.abs(overKg) < 0.0005) return cards;
  return `${cards}, ${decimals(Math.abs(overKg), 3)} kg ${overKg > 0 ? 'over' : 'short'}`;
}

/** `2 lines without a price, 1 line without a lead time`; null where all is known. */
export function unknownWords(
  totals: Pick<PlanResult['totals'], 'unpricedLines' | 'linesWithoutLeadTime'>,
): string | null {
  const lines = (count = 0, what: string): string[] =>
    count === 0 ? [] : [`${count} ${count === 1 ? 'line' : 'lines'} without a ${what}`];
  const all = [
    ...lines(totals.unpricedLines, 'price'),
    ...lines(totals.linesWithoutLeadTime, 'lead time'),
  ];
  return all.length === 0 ? null : all.join(', ');
}

/** Whether the machining of the mould is in the cost; one sentence without a full stop. */
export function machiningWords({ totals, build }: PlanResult): string {
  const { by, cost } = totals.machining ?? { by: 'none', cost: null };
  const priced = cost === null ? null : money(cost, build.currency);
  switch (by) {
    case 'outside':
      return priced === null
        ? 'Machining of the mould is not in it: no price is known'
        : `Machining of the mould by an outside party is in it: ${priced}`;
    case 'house':
      return priced === null
        ? 'The mould is machined in the house: its hours count, its machine time has no price and is not in it'
        : `Machining of the mould in the house is in it: ${priced}, and its hours count`;
    case 'hand':
      return 'The mould is shaped by hand: there is no machining in it';
    case 'none':
      return 'The mould stands already: neither blank nor machining is in it';
  }
}

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
