/** Hours in which people and outside parties work: the week less days off, holidays, other jobs. */
import type { BusyBlock, FullBuild, Holiday, OutsideParty, Person } from './schema.ts';
import { expandHours, subtract, unite } from '../time/calendar.ts';
import type { Calendar, Minute } from '../time/instant.ts';
import type { WeekHours } from '../time/week.ts';
import { localToMinute } from '../time/zone.ts';

type Build = Pick<FullBuild, 'zone' | 'crew' | 'outside' | 'busy' | 'holidays'>;

/** Days that a holiday closes for suppliers: those of all outside parties. */
export const supplierHolidays = ({ holidays }: Pick<FullBuild, 'holidays'>): string[] =>
  holidays.filter((day) => day.for === 'outside').map((day) => day.date);

const keptByParty = (day: Holiday, party: string): boolean =>
  day.for === 'outside' || (typeof day.for !== 'string' && day.for.party === party);

/**
 * A busy block as minutes of Unix UTC, [start, end).
 * @throws RangeError when the zone's clock skips one of its ends; `readBuild` refuses such a document
 */
export function blockInterval({ from, until }: BusyBlock, zone: string) {
  const [start, end] = [from, until].map((local) => {
    const instant = localToMinute(local, zone);
    if (!instant) throw new RangeError(`${local} does not exist in ${zone}`);
    return instant.minute;
  });
  return { start: start!, end: end! };
}

/** Stretches in which other jobs have a person or a party. */
function takenFrom({ busy, zone }: Build, kind: 'person' | 'outside', id: string): Calendar {
  return busy
    .filter(({ who }) => who.kind === kind && who.id === id)
    .map((block): Calendar => [blockInterval(block, zone)])
    .reduce<Calendar>((all, one) => unite(all, one), []);
}

/**
 * Hours of one person by a week of hours: usual ones or those that may be stayed.
 * @param week the week on the build's wall clock
 */
export function personCalendar(
  build: Build,
  person: Pick<Person, 'id' | 'off'>,
  week: WeekHours,
  from: Minute,
  to: Minute,
): Calendar {
  const shut = build.holidays.filter((day) => day.for === 'shop').map((day) => day.date);
  const open = expandHours(week, [...person.off, ...shut], build.zone, from, to);
  return subtract(open, takenFrom(build, 'person', person.id));
}

/** Hours of one outside party, on its own clock. */
export function partyCalendar(
  build: Build,
  party: Pick<OutsideParty, 'id' | 'off' | 'hours' | 'zone'>,
  from: Minute,
  to: Minute,
): Calendar {
  const shut = build.holidays.filter((day) => keptByParty(day, party.id)).map((day) => day.date);
  const zone = party.zone ?? build.zone;
  const open = expandHours(party.hours, [...party.off, ...shut], zone, from, to);
  return subtract(open, takenFrom(build, 'outside', party.id));
}
