/** Label and side effects of every lever: a change of the build that buys time or clears a finding. */
import type { LeverKind } from '../document/ids.ts';
import type { Answers, Finding, Lever } from '../document/schema.ts';
import { CURE_LEVERS } from './cure.ts';
import { DATE_LEVERS } from './dates.ts';
import { meaningOf } from './findings.ts';
import { HEAT_LEVERS } from './heat.ts';
import { PART_HEAT_LEVERS } from './heatOnPart.ts';
import { MATERIAL_LEVERS } from './materials.ts';
import { PART_LEVERS } from './part.ts';
import { ROUTE_LEVERS } from './route.ts';
import type { LeverSpec, None } from './spec.ts';
import { elapsed, latenessWords, lowerFirst, roundMoney } from './words.ts';
import { WORK_LEVERS } from './work.ts';

export const LEVERS = {
  ...CURE_LEVERS,
  ...HEAT_LEVERS,
  ...PART_HEAT_LEVERS,
  ...WORK_LEVERS,
  ...MATERIAL_LEVERS,
  ...PART_LEVERS,
  ...ROUTE_LEVERS,
  ...DATE_LEVERS,
} as const satisfies Readonly<Record<LeverKind, unknown>>;

type Args = {
  readonly [K in LeverKind]: (typeof LEVERS)[K] extends LeverSpec<infer A>
    ? unknown extends A
      ? None
      : A
    : never;
};
export type LeverArgs<K extends LeverKind> = Args[K];

/** What is said of a lever before it is weighed. */
export interface LeverWords {
  readonly label: string;
  readonly sideEffects: readonly string[];
}

export function leverWords<K extends LeverKind>(kind: K, args: LeverArgs<K>): LeverWords {
  const { label, sideEffects } = LEVERS[kind] as LeverSpec<LeverArgs<K>>;
  return { label: label(args), sideEffects: sideEffects(args) };
}

/** 'Brings: the wet work takes longer than the resin stays open.' */
export const sideEffectWords = (code: string): string => `Brings: ${within(meaningOf(code))}`;

/** 'Less serious, but not gone: a cure never reaches what it must at this temperature.' */
export const leftOverWords = (code: string): string =>
  `Less serious, but not gone: ${within(meaningOf(code))}`;

const within = (sentence: string): string => sentence.charAt(0).toLowerCase() + sentence.slice(1);

/** 'Work Saturdays 08:00 to 13:00, and hold 19 °C through the night'. */
export const pairLabel = (first: string, second: string): string =>
  `${first}, and ${lowerFirst(second)}`;

/** 'Then it fits, 3 h to spare.', 'Then it is still 4 days late.', 'Then it does not fit yet: 2 stops are left.' */
export function afterWords({ fits, lateMinutes, stops }: Answers): string {
  if (lateMinutes === null) return 'Then it still has no plan.';
  // 0: what binds is a booked slot, which is met as booked.
  if (fits)
    return lateMinutes === 0 ? 'Then it fits.' : `Then it fits, ${latenessWords(lateMinutes)}.`;
  if (lateMinutes > 0) return `Then it is still ${latenessWords(lateMinutes)}.`;
  const left = stops === 1 ? 'one stop is left' : `${stops} stops are left`;
  return `Then it does not fit yet: ${left}.`;
}

/**
 * The three answers before and after: 'Now: 4 h late; outer skin, core bond; €735. Then: fits, 3 h to
 * spare; the same route; €742.'
 */
export function answersWords(before: Answers, after: Answers, currency: string): string {
  const isSame = before.route?.join() === after.route?.join();
  const now = [stateWords(before), routeWords(before), costWords(before, currency)];
  const then = [
    stateWords(after),
    isSame ? 'the same route' : routeWords(after),
    costWords(after, currency),
  ];
  return `Now: ${now.filter(Boolean).join('; ')}. Then: ${then.filter(Boolean).join('; ')}.`;
}

function stateWords({ fits, lateMinutes, stops }: Answers): string {
  if (lateMinutes === null) return 'no plan';
  const lateness = latenessWords(lateMinutes);
  if (fits) return lateMinutes === 0 ? 'fits' : `fits, ${lateness}`;
  const left = stops === 1 ? 'one stop' : `${stops} stops`;
  return stops > 0 ? `${lateness}, ${left}` : lateness;
}

const routeWords = ({ route = [] }: Answers): string => route.join(', then ');

const costWords = ({ cost }: Answers, currency: string): string =>
  cost === undefined ? '' : roundMoney(cost, currency);

/**
 * A way out in one line, for terminals: 'Work Saturdays 08:00 to 13:00: gains 5 h, costs €12. Overtime; …
 * Now: 4 h late; … Then: fits, 3 h to spare; …'
 */
export function wayOutWords(lever: Lever, currency: string): string {
  const { sideEffects, before, after } = lever;
  const answers = before && after ? answersWords(before, after, currency) : '';
  return [boughtWords(lever, currency), ...sideEffects, answers].filter(Boolean).join(' ');
}

/**
 * The same for a line of paper: without what it brings besides, the route only where it becomes another: 'Work
 * Saturdays 08:00 to 13:00: gains 5 h, costs €12. Now: 4 h late. Then: fits, 3 h to spare.'
 */
export function wayOutInShort(lever: Lever, currency: string): string {
  const { before, after } = lever;
  const bought = boughtWords(lever, currency);
  if (!before || !after) return bought;
  const isSame = before.route?.join() === after.route?.join();
  const route = isSame ? '' : `; ${routeWords(after)}`;
  return `${bought} Now: ${stateWords(before)}. Then: ${stateWords(after)}${route}.`;
}

/** 'Work Saturdays 08:00 to 13:00: gains 5 h, costs €12.' */
function boughtWords({ label, hoursGained, cost }: Lever, currency: string): string {
  const gain = hoursGained > 0 ? `gains ${elapsed(hoursGained * 60)}` : 'gains no time';
  const price = cost === 0 ? '' : `, costs ${roundMoney(cost, currency)}`;
  return `${label}: ${gain}${price}.`;
}

/** What is known of ways out beside those listed; empty where that was not looked at. */
export function belowWords({ levers, nothingBelow, moreBelow }: Finding): string {
  if (moreBelow !== undefined) {
    const more = moreBelow === 1 ? 'One more helps' : `${moreBelow} more help`;
    return `${more} less than these, by a rough count: “Search all ways out together” tries them.`;
  }
  if (nothingBelow === undefined) return '';
  const nor =
    nothingBelow === 'pairs' ? ', nor do any two together that mend different things' : '';
  return levers.length === 0
    ? `No way out that the planner knows helps by itself${nor}.`
    : `No other way out that the planner knows helps by itself${nor}.`;
}
