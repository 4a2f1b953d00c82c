/** Where the figures by which routes are compared come from, beside hours, cost and weight. */
import type { RouteResult } from '../../document/schema.ts';
import { ODDS_REPLAYS } from '../../judge/odds.ts';
import { chanceWords } from '../../messages/odds.ts';
import type { PlanOutcome } from '../../plan/outcome.ts';
import { count } from '../../units/words.ts';
import { dayClock, dayClockOr, spareWords } from '../words.ts';
import { practiceOrigin, type Origin, type OriginRow } from './origin.ts';

/** When the route's plan is done and the part is shown. */
const ends = ({ result }: PlanOutcome, { ready }: RouteResult): OriginRow[] => [
  { name: 'Ready as planned', value: dayClockOr(ready ?? null, 'not placed') },
  { name: 'Unveiling', value: dayClock(result.deadline), from: 'typed' },
];

/** The least working time that a route's plan has to spare. */
export function spareOrigin(outcome: PlanOutcome, route: RouteResult): Origin {
  const { spare } = route;
  const named = outcome.result.stages.find(({ id }) => id === spare?.before)?.name;
  return {
    formula:
      'To spare = by how much the work before a fixed date could be later and still make it, ' +
      'counted in the hours in which somebody is there; the least of all fixed dates.',
    rows: [
      ...ends(outcome, route),
      { name: 'Fixed date that binds', value: named ?? 'the unveiling' },
      { name: 'To spare', value: spare ? `= ${spareWords(spare)}` : '–', from: 'result' },
    ],
    source: 'Latest start minus earliest start of the work before it, in this plan.',
  };
}

/** The chance that a route's plan makes the date. */
export function chanceOrigin(outcome: PlanOutcome, route: RouteResult): Origin {
  return {
    formula:
      'Chance = share of the replays of this plan that end by the unveiling. In each, hours of work ' +
      'and room temperature are drawn from their spreads, and what can go wrong by how often it does.',
    rows: [
      { name: 'Replays', value: count(ODDS_REPLAYS) },
      ...ends(outcome, route),
      ...(route.price ?? []).map(({ name, chance }) => ({ name, value: chanceWords(chance) })),
      practiceOrigin(outcome.detail.library, 'odds-own-builds'),
    ],
    source:
      'Spreads and odds: rows of the library, guessed until the shop has closed as many builds of its own.',
  };
}
