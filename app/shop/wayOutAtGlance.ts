/** The one way out that the header names: it is of those that are listed, and says no more than they do. */
import type { Finding, Lever } from '../document/schema.ts';
import { codesWhere } from '../messages/findings.ts';
import { hours } from '../time/words.ts';
import type { Answer } from './glance.ts';

const LATE: ReadonlySet<string> = codesWhere((spec) => spec.dependsOn === 'lateness');

/**
 * The cheapest way out after which the build fits; without one the cheapest that makes the date, or clears the
 * first stop where nothing is late; without one what gains most.
 */
export function wayOutAtGlance(findings: readonly Finding[]): Answer {
  const stops = findings.filter(({ severity }) => severity === 'stop');
  const late = stops.filter(({ code }) => LATE.has(code) && code !== 'facts-conflict');
  const clears = ({ clears: codes }: Lever, some: readonly Finding[]): boolean =>
    some.length > 0 && some.every(({ code }) => codes.includes(code));
  const ways = waysOf(findings);
  const cheapest = (good: (lever: Lever) => boolean): Lever | undefined =>
    ways.filter(good).sort((a, b) => a.cost - b.cost || b.hoursGained - a.hoursGained)[0];
  const fitting = cheapest((lever) => lever.after?.fits ?? clears(lever, stops));
  const parts = late.length > 0 ? late : stops.slice(0, 1);
  const partly = cheapest((lever) => clears(lever, parts));
  const way = fitting ?? partly;
  if (way) {
    const does =
      late.length > 0 ? `Makes the date: gains ${hours(way.hoursGained)}` : 'Clears the stop';
    const left = way === fitting ? '.' : ', and another stop stays.';
    return stop(way.label, `${does}${left} See Findings.`);
  }
  const most = ways
    .filter(({ hoursGained }) => late.length > 0 && hoursGained > 0)
    .sort((a, b) => b.hoursGained - a.hoursGained || a.cost - b.cost)[0];
  if (most) {
    const gain = hours(most.hoursGained);
    return stop('No one way out is enough', `The most is gained by “${most.label}”: ${gain}.`);
  }
  if (late.length === 0 || ways.length > 0) {
    return stop('A stop stands', 'Its ways out: see Findings.');
  }
  return stop('Nothing known helps', 'No way out helps: move the date, or make less.');
}

/** Each once. Those of a forced merge belong to another route. */
function waysOf(findings: readonly Finding[]): Lever[] {
  const own = findings.filter(({ code }) => code !== 'merge-forced');
  const byId = new Map<string, Lever>();
  for (const lever of own.flatMap(({ levers }) => levers)) {
    const same = byId.get(lever.id);
    const clears = [...new Set([...(same?.clears ?? []), ...lever.clears])];
    byId.set(lever.id, { ...lever, clears });
  }
  return [...byId.values()];
}

const stop = (headline: string, detail: string): Answer => ({
  tone: 'stop',
  headline,
  detail,
  stage: null,
});
