/** Reads the busy times out of a calendar file (RFC 5545, iCalendar), one person's or one party's. */
import ICAL from 'ical.js';
import { isZone } from '../../app/document/schema.ts';
import type { Minute } from '../../app/time/instant.ts';
import { dayNumber, dayTimeToMinute, localToMinute, minuteToLocal } from '../../app/time/zone.ts';
import { StoreRefusal } from '../store/errors.ts';

/** A stretch of time on the build's wall clock, YYYY-MM-DDTHH:MM. */
export interface BusyTime {
  readonly what: string;
  readonly from: string;
  readonly until: string;
}

/** An entry, or a part of one, that was not taken, and why. */
export interface SkippedEntry {
  readonly what: string;
  readonly why: string;
}

export interface BusyFile {
  readonly blocks: readonly BusyTime[];
  readonly left: readonly SkippedEntry[];
}

export interface Span {
  /** IANA zone of the build: times without a zone are on its clock, whole days are its days. */
  readonly zone: string;
  /** Days YYYY-MM-DD, both included; what lies outside of them is passed over. */
  readonly from: string;
  readonly to: string;
}

/** As many as a document takes. */
const MOST_BLOCKS = 1000;
/** Repetitions counted from the first one of an entry, those before the span included. */
const MOST_REPETITIONS = 20_000;
const LONGEST_NAME = 200;
/** Series of long ago are read on; what names another year is a slip, and no clock is told for it. */
const YEARS = { first: 1900, last: 2199 };
/** Nobody's appointments; each would be thousands of entries. */
const TOO_FREQUENT: ReadonlySet<string> = new Set(['SECONDLY', 'MINUTELY']);

/** An entry that cannot be taken, in words for the person who chose the file. */
class UnusableEntry extends Error {}

/**
 * @throws StoreRefusal when the text is no calendar file at all
 */
export function readBusyFile(text: string, span: Span): BusyFile {
  const reading = new Reading(span);
  for (const calendar of calendarsOf(text)) reading.readCalendar(calendar);
  return reading.result();
}

function calendarsOf(text: string): ICAL.Component[] {
  let parsed: unknown[];
  try {
    parsed = ICAL.parse(text.replace(/^\uFEFF/, '')) as unknown[];
  } catch (error) {
    const why = (error instanceof Error ? error.message : '').replace(/\s+/g, ' ').slice(0, 120);
    const said = why === '' ? '' : ` (${why})`;
    throw new StoreRefusal('refused', `This is no calendar file that can be read${said}.`);
  }
  // Several calendars in one file come as a list of them.
  const list = typeof parsed[0] === 'string' ? [parsed] : (parsed as unknown[][]);
  const calendars = list.filter((one) => one[0] === 'vcalendar');
  if (calendars.length === 0) {
    throw new StoreRefusal('refused', 'This file holds no calendar: BEGIN:VCALENDAR is missing.');
  }
  return calendars.map((one) => new ICAL.Component(one as never));
}

class Reading {
  private readonly span: Span;
  private readonly first: Minute;
  /** The minute after the span. */
  private readonly last: Minute;
  private readonly blocks: BusyTime[] = [];
  private readonly left: SkippedEntry[] = [];

  constructor(span: Span) {
    this.span = span;
    this.first = dayTimeToMinute(dayNumber(span.from), 0, span.zone);
    this.last = dayTimeToMinute(dayNumber(span.to) + 1, 0, span.zone);
  }

  readCalendar(calendar: ICAL.Component): void {
    const events = calendar.getAllSubcomponents('vevent');
    const series = new Set(events.filter((one) => !isException(one)).map(uidOf));
    for (const component of events) {
      // A changed repetition is read with the series that it belongs to.
      if (isException(component) && series.has(uidOf(component))) continue;
      const what = nameOf(component);
      try {
        this.readEvent(component, what);
      } catch (error) {
        const why = error instanceof UnusableEntry ? error.message : 'it cannot be read';
        this.left.push({ what, why });
      }
    }
    for (const kind of ['vtodo', 'vfreebusy', 'vjournal']) {
      const count = calendar.getAllSubcomponents(kind).length;
      if (count > 0) this.left.push({ what: kind.toUpperCase(), why: `${count} not read` });
    }
  }

  private readEvent(component: ICAL.Component, what: string): void {
    const reason = reasonFree(component);
    if (reason !== null) throw new UnusableEntry(reason);
    const event = new ICAL.Event(component);
    if (!component.hasProperty('dtstart')) throw new UnusableEntry('it has no start');
    if (event.isRecurring()) this.readSeries(event, what);
    else this.add(what, ...this.minutesOf(component, event));
  }

  private readSeries(event: ICAL.Event, what: string): void {
    for (const rule of event.component.getAllProperties('rrule')) {
      const { freq } = rule.getFirstValue() as ICAL.Recur;
      if (TOO_FREQUENT.has(freq)) throw new UnusableEntry(`it repeats ${freq.toLowerCase()}`);
    }
    const iterator = event.iterator();
    for (let count = 0; ; count++) {
      const next = iterator.next() as ICAL.Time | null | undefined;
      if (!next) return;
      if (count >= MOST_REPETITIONS) {
        throw new UnusableEntry(
          `it repeats more than ${MOST_REPETITIONS} times before ${this.span.to}`,
        );
      }
      if (this.minuteOf(next, zoneOf(event.component, 'dtstart')) >= this.last) {
        const why = `it repeats after ${this.span.to}: taken up to that day only`;
        this.left.push({ what, why });
        return;
      }
      const occurrence = event.getOccurrenceDetails(next);
      const { component } = occurrence.item;
      if (reasonFree(component) !== null) continue;
      const [start, end] = this.minutesOf(component, occurrence);
      // One repetition that was changed to nothing does not take the others with it.
      if (end <= start && component !== event.component) continue;
      this.add(nameOf(component), start, end);
    }
  }

  private minutesOf(
    component: ICAL.Component,
    { startDate, endDate }: { startDate: ICAL.Time; endDate: ICAL.Time },
  ): [number, number] {
    const begins = zoneOf(component, 'dtstart');
    const ends = zoneOf(component, 'dtend') ?? begins;
    return [this.minuteOf(startDate, begins), this.minuteOf(endDate, ends)];
  }

  private add(what: string, start: Minute, end: Minute): void {
    const [from, until] = [Math.floor(start), Math.ceil(end)];
    if (until <= from) throw new UnusableEntry('it takes no time');
    if (until <= this.first || from >= this.last) return;
    if (this.blocks.length >= MOST_BLOCKS)
      throw new UnusableEntry(`more than ${MOST_BLOCKS} entries`);
    this.blocks.push({ what, ...this.wallClock(from, until) });
  }

  /** In the hour that the clocks repeat a block is widened to times that are told once. */
  private wallClock(start: Minute, end: Minute): Pick<BusyTime, 'from' | 'until'> {
    let [from, until] = [start, end];
    while (!this.isToldOnce(from)) from -= 1;
    while (!this.isToldOnce(until)) until += 1;
    return { from: this.local(from), until: this.local(until) };
  }

  private local(minute: Minute): string {
    const { date, time } = minuteToLocal(minute, this.span.zone);
    return `${date}T${time}`;
  }

  private isToldOnce(minute: Minute): boolean {
    return localToMinute(this.local(minute), this.span.zone)?.minute === minute;
  }

  /**
   * An instant of the file in minutes of Unix UTC, seconds as a part of one.
   * @param stated the time zone that its property names; null: none, and it is on the build's clock
   */
  private minuteOf(time: ICAL.Time, stated: string | null): number {
    const { zone } = this.span;
    if (!(time.year >= YEARS.first && time.year <= YEARS.last)) {
      throw new UnusableEntry(`it is not in the years ${YEARS.first} to ${YEARS.last}`);
    }
    const day = dayNumber(`${pad(time.year, 4)}-${pad(time.month, 2)}-${pad(time.day, 2)}`);
    if (time.isDate) return dayTimeToMinute(day, 0, zone);
    const ofDay = time.hour * 60 + time.minute;
    const seconds = time.second / 60;
    const known = time.zone?.tzid ?? FLOATING;
    if (known === 'UTC') return day * 1440 + ofDay + seconds;
    const named = stated ?? zone;
    if (isZone(named)) return dayTimeToMinute(day, ofDay, named) + seconds;
    if (known !== FLOATING) return time.toUnixTime() / 60;
    throw new UnusableEntry(`its time zone ${named} is neither known nor described in the file`);
  }

  result(): BusyFile {
    const key = ({ from, until, what }: BusyTime) => `${from} ${until} ${what}`;
    this.blocks.sort((a, b) => (key(a) < key(b) ? -1 : 1));
    return { blocks: this.blocks, left: this.left };
  }
}

/** What the reader calls the zone of a time that has none, or one that it does not know. */
const FLOATING = 'floating';

/** The time zone that a property names. */
function zoneOf(component: ICAL.Component, property: string): string | null {
  const named = component.getFirstProperty(property)?.getParameter('tzid');
  return typeof named === 'string' ? named : null;
}

const pad = (value: number, digits: number): string => String(value).padStart(digits, '0');

const isException = (component: ICAL.Component): boolean => component.hasProperty('recurrence-id');

const textOf = (component: ICAL.Component, property: string): string => {
  const value = component.getFirstPropertyValue(property);
  return typeof value === 'string' ? value.replace(/\s+/g, ' ').trim() : '';
};

const uidOf = (component: ICAL.Component): string => textOf(component, 'uid');

const nameOf = (component: ICAL.Component): string =>
  textOf(component, 'summary').slice(0, LONGEST_NAME).trim() || 'Busy';

/** Why an entry takes nobody's time; null when it does. */
function reasonFree(component: ICAL.Component): string | null {
  if (textOf(component, 'status').toUpperCase() === 'CANCELLED') return 'it was cancelled';
  if (textOf(component, 'transp').toUpperCase() === 'TRANSPARENT') return 'it is marked as free';
  return null;
}
