/** Moments that limit the plan: closing times of the ways to build, each with its sentence. */
import { leverId } from '../document/ids.ts';
import type { RouteResult } from '../document/schema.ts';
import { minuteOf, sheetDataOf, type SheetData } from '../shop/sheetData.ts';
import type { PlanOutcome } from '../plan/outcome.ts';
import type { Minute } from '../time/instant.ts';
import { clockAt, dayAt } from './clockWords.ts';

export interface Limit {
  readonly id: string;
  readonly at: Minute;
  /** In one sentence what is over from then on. */
  readonly words: string;
  /** The same and what is left, for the pointer and for a screen reader. */
  readonly spoken: string;
  /** The way that is taken closes. */
  readonly taken: boolean;
}

/** One line for every closing time that is still to come; ways that close in the same minute share it. */
export function limitsOf(outcome: PlanOutcome): Limit[] {
  const facts = sheetDataOf(outcome);
  const byTime = new Map<string, RouteResult[]>();
  for (const route of facts.result.routes) {
    if (!route.possible || !route.open || route.closes === null) continue;
    byTime.set(route.closes, [...(byTime.get(route.closes) ?? []), route]);
  }
  return [...byTime]
    .map(([closes, routes]) => limitOf(facts, closes, routes))
    .sort((a, b) => a.at - b.at);
}

function limitOf(facts: SheetData, closes: string, routes: readonly RouteResult[]): Limit {
  const taken = routes.find(({ id }) => id === facts.result.route.id);
  const shown = taken ?? routes[0]!;
  const at = minuteOf(closes);
  const when = `${dayAt(at, facts.zone)} ${clockAt(at, facts.zone)}`;
  const words = shown.closingWords;
  return {
    id: leverId({ lever: 'route', route: shown.id }),
    at,
    words: words ? afterwards(words.after, when) : `${shown.cures.length} cures close ${when}`,
    spoken: routes
      .map(({ closingWords, cures }) =>
        closingWords
          ? `${closingWords.closes} ${closingWords.after}`
          : `${cures.length} cures close ${when}.`,
      )
      .join(' '),
    taken: taken !== undefined,
  };
}

/** `After Fri 7 May 08:00 the core has to be bonded in the same cure as the outer skin.` */
const afterwards = (after: string, when: string): string =>
  after.replace(/^After that /, `After ${when} `);
