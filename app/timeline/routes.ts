/** Closing times of the routes as flags. */
import { leverId, readChainId } from '../document/ids.ts';
import type { JointState, RouteResult } from '../document/schema.ts';
import type { SheetData } from '../shop/sheetData.ts';
import { minuteOf } from '../shop/sheetData.ts';
import { dayClock } from '../shop/words.ts';
import type { TimelineItem } from './items.ts';

/** One flag for every closing time; routes that close in the same minute share it. */
export function routeItems(facts: SheetData): TimelineItem[] {
  const byTime = new Map<string, RouteResult[]>();
  for (const route of facts.result.routes) {
    if (!route.possible || route.closes === null) continue;
    byTime.set(route.closes, [...(byTime.get(route.closes) ?? []), route]);
  }
  return [...byTime.entries()]
    .map(([closes, routes]) => flag(facts, closes, routes))
    .sort((a, b) => a.start - b.start);
}

function flag(facts: SheetData, closes: string, routes: readonly RouteResult[]): TimelineItem {
  const at = minuteOf(closes);
  const first = routes[0]!;
  const chosen = routes.some((route) => route.id === facts.result.route.id);
  const more = routes.length === 1 ? '' : ` and ${routes.length - 1} more`;
  return {
    id: leverId({ lever: 'route', route: first.id }),
    type: 'route',
    kind: null,
    label: `${bags(first)}${more}${chosen ? ', chosen' : ''}`,
    short: `${first.cures.length}${chosen ? ', chosen' : ''}`,
    spoken: routes.map((route) => spokenRoute(facts, route, closes)).join(' '),
    start: at,
    end: at,
    stretches: [{ start: at, end: at }],
    latestStart: null,
    latestEnd: null,
    floatHours: null,
    critical: chosen,
    minor: false,
  };
}

const bags = (route: RouteResult): string =>
  route.cures.length === 1 ? 'one cure' : `${route.cures.length} cures`;

function spokenRoute(facts: SheetData, route: RouteResult, closes: string): string {
  const parts = [`Route of ${bags(route)}: ${routeWords(facts, route)}.`];
  const sure = route.closesProven ? '' : ' or later';
  parts.push(
    route.open ? `Closes ${dayClock(closes)}${sure}.` : `Closed since ${dayClock(closes)}.`,
  );
  if (route.closedBy !== null) {
    const stage = facts.result.stages.find((row) => row.id === route.closedBy!.stage);
    parts.push(`Closed by ${stage?.name ?? route.closedBy.stage}, ${route.closedBy.resource}.`);
  }
  return parts.join(' ');
}

/** `outer skin; core bond + inner skin`, with `~` for wet on tack said in words. */
export function routeWords(facts: SheetData, route: RouteResult): string {
  const names = new Map<string, string>(
    facts.detail.part.layups.map((layup) => [layup.id, layup.name.toLowerCase()]),
  );
  const name = (id: string) => names.get(id) ?? id;
  return route.cures
    .map((cure) => {
      const { layups, joints } = readChainId(cure);
      return layups.map((id, i) => (i === 0 ? '' : BETWEEN[joints[i - 1]!]) + name(id)).join('');
    })
    .join('; ');
}

const BETWEEN: Readonly<Record<JointState, string>> = {
  apart: '; ',
  tack: ', on tack ',
  'one-bag': ' + ',
};
