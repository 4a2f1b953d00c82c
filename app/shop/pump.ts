/** The pump, day by day: which bags it serves, until when, and who watches it. */
import type { Interval } from '../time/instant.ts';
import { intersect } from '../time/calendar.ts';
import { minuteOf, type CureSheetData, type LocalDay, type SheetData } from './sheetData.ts';
import { h, type SheetNode } from './tree.ts';
import { clock, dayClock } from './words.ts';

/** From the sealed bag to bag-off; null while one of them has no place in time. */
export function pumped(facts: SheetData, cure: CureSheetData): Interval | null {
  const cureEnd = facts.placed.find(
    ({ stage }) => stage.cure === cure.id && stage.kind === 'cure',
  )?.endIso;
  const off = cure.bagOffAt ?? cureEnd ?? null;
  if (cure.sealed === null || off === null || cure.withheld.length > 0) return null;
  return { start: minuteOf(cure.sealed), end: minuteOf(off) };
}

/** Cures whose bag is under vacuum at some time of the day. */
export const curesUnderVacuum = (facts: SheetData, day: LocalDay): CureSheetData[] =>
  facts.cures.filter((cure) => {
    const span = pumped(facts, cure);
    return span !== null && span.start < day.end && span.end > day.start;
  });

/** `Outer skin, until Mon 3 May 07:30` */
export function pumpWords(cure: CureSheetData, day: LocalDay): string {
  const off = cure.bagOffAt;
  if (off === null) return `${cure.name}: until somebody takes the bag off`;
  const today = minuteOf(off) < day.end;
  return `${cure.name}: until the bag is taken off ${today ? `${clock(off)} today` : dayClock(off)}`;
}

/** Who of the crew is there on that day; nobody is said. */
export function pumpWatchers(facts: SheetData, day: LocalDay): string {
  const atWork = facts.placed.filter(({ hands }) => intersect([day], hands).length > 0);
  const planned = new Set(atWork.flatMap(({ stage }) => stage.people));
  const there = facts.build.crew.filter(
    ({ id }) => planned.has(id) || intersect([day], facts.detail.personHours[id] ?? []).length > 0,
  );
  return there.length === 0
    ? 'Nobody is in the shop today: alarm and logger on, a spare pump valved in, somebody on call who can come.'
    : `${facts.shortNames(there.map(({ id }) => id))} ${there.length === 1 ? 'looks' : 'look'} at pump, gauge and bag.`;
}

/** On the sheet of every day on which a pump runs: a line to write the look down on. */
export function pumpRows(facts: SheetData, day: LocalDay): SheetNode[] {
  const cures = curesUnderVacuum(facts, day);
  if (cures.length === 0) return [];
  const box = (label: string): SheetNode => h('td', { class: 'write' }, h('small', {}, label));
  return [
    h(
      'tr',
      { class: 'pump' },
      h('th', { scope: 'row' }, 'Pump'),
      h(
        'td',
        { colspan: 3 },
        `The pump runs. ${cures.map((cure) => pumpWords(cure, day)).join('; ')}. ${pumpWatchers(facts, day)}`,
      ),
      box('at'),
      box('mbar'),
      box('by'),
    ),
  ];
}
