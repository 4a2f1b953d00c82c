/**
 * The calendar file against RFC 5545 (Internet Calendaring and Scheduling Core Object
 * Specification) and against an independent reader of it (ical.js).
 */
import fc from 'fast-check';
import ICAL from 'ical.js';
import { describe, expect, test } from 'vitest';
import { plan } from '../../app/answer/plan.ts';
import { FIRST_ANSWER } from '../../app/plan/outcome.ts';
import { calendarIcs, escapeText, fold } from '../../app/shop/calendar.ts';
import { isoToMinute } from '../../app/time/zone.ts';
import { handMadeOutcome } from '../unit/shop/outcome.ts';
import { library, smallBuild } from '../support/builds.ts';
import { forAll } from '../support/draws.ts';

const octets = (text: string): number => new TextEncoder().encode(text).length;
const outcome = handMadeOutcome();
const text = calendarIcs(outcome);
const events = new ICAL.Component(ICAL.parse(text))
  .getAllSubcomponents('vevent')
  .map((component) => new ICAL.Event(component));

describe('calendar file', () => {
  test('lines end in CRLF and hold at most 75 octets (section 3.1)', () => {
    expect(text.endsWith('\r\n')).toBe(true);
    expect(text.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/);
    for (const line of text.split('\r\n')) expect(octets(line)).toBeLessThanOrEqual(75);
  });

  test('an independent reader finds every placed stage at its instant', () => {
    const placed = outcome.result.stages;
    expect(events).toHaveLength(placed.length + 1);
    for (const stage of placed) {
      const event = events.find(({ uid }) => uid.startsWith(`${stage.id}@`))!;
      expect(event.startDate.toJSDate().getTime()).toBe(isoToMinute(stage.start!)! * 60_000);
      expect(event.endDate.toJSDate().getTime()).toBe(isoToMinute(stage.end!)! * 60_000);
      expect(event.summary).toBe(`${stage.name} (${outcome.result.build.name})`);
    }
  });

  test('the escaped description reads back with its line breaks, commas and semicolons', () => {
    const layup = events.find(({ uid }) => uid.startsWith('layup:skin@'))!;
    expect(layup.description).toContain('Who: Iva, Tomé\n');
    expect(layup.description).toContain('gloves, sleeves');
  });

  test('every event has one UID, UTC times and the DTSTAMP of the plan (section 3.6.1)', () => {
    expect(new Set(events.map(({ uid }) => uid)).size).toBe(events.length);
    expect(text.match(/^DTSTAMP:20270324T090000Z\r$/gm)).toHaveLength(events.length);
    expect(text.match(/^DT(START|END):(?!\d{8}T\d{6}Z\r)/gm)).toBeNull();
  });

  test('a later plan keeps the UIDs and moves only the stamp', () => {
    const later = calendarIcs(handMadeOutcome({ result: { now: '2027-03-25T09:00+00:00' } }));
    expect(later).not.toBe(text);
    expect(later.replaceAll('DTSTAMP:20270325', 'DTSTAMP:20270324')).toBe(text);
  });

  test('curing makes nobody busy, hands-on work does (section 3.8.2.7)', () => {
    const transparent = (id: string) =>
      events.find(({ uid }) => uid.startsWith(`${id}@`))!.component.getFirstPropertyValue('transp');
    expect(transparent('cure:skin')).toBe('TRANSPARENT');
    expect(transparent('layup:skin')).toBe('OPAQUE');
  });
});

describe('alarms over both changes of the clocks (section 3.6.6)', () => {
  /** Read by the independent reader: the moment of every alarm in Unix ms, and what it says. */
  function readAlarms(ics: string) {
    return new ICAL.Component(ICAL.parse(ics)).getAllSubcomponents('vevent').flatMap((vevent) => {
      const event = new ICAL.Event(vevent);
      return vevent.getAllSubcomponents('valarm').map((alarm) => {
        const trigger = alarm.getFirstPropertyValue('trigger') as ICAL.Duration;
        expect(alarm.getFirstPropertyValue('action')).toBe('DISPLAY');
        const at = event.startDate.toJSDate().getTime() + trigger.toSeconds() * 1000;
        return {
          stage: event.uid.split('@')[0]!,
          at,
          text: String(alarm.getFirstPropertyValue('description')),
        };
      });
    });
  }

  test.each([
    ['to summer time', '2027-03-22T08:00', '2027-04-16T16:00', '2027-03-28', 60],
    ['to winter time', '2027-10-25T08:00', '2027-11-19T16:00', '2027-10-31', -60],
  ])('%s', (_what, earliestStart, unveiling, change, minutes) => {
    const small = smallBuild();
    const build = {
      ...small,
      earliestStart,
      unveiling,
      part: { ...small.part, finish: 'painted' as const },
      outside: [{ name: 'Saltmarsh Paint', workingDays: 3 }],
    };
    const now = isoToMinute(`${earliestStart.slice(0, 10)}T06:00:00Z`)!;
    const made = plan(build, library(), now, FIRST_ANSWER);
    const { result } = made;
    const alarms = readAlarms(calendarIcs(made));
    const inZone = (iso: string) => Number(iso.slice(-6, -3)) * 60;
    const [first, last] = [result.stages[0]!, result.stages.at(-1)!];
    expect(first.start! < change && last.end! > change).toBe(true);
    expect(inZone(last.end!) - inZone(first.start!)).toBe(minutes);
    const ms = (iso: string) => isoToMinute(iso)! * 60_000;
    const calls = (at: number) =>
      alarms
        .filter((alarm) => alarm.at === at)
        .map(({ text }) => text)
        .join('; ');
    for (const cure of result.cures) {
      expect(calls(ms(cure.firstMix!) - 15 * 60_000)).toContain(
        `First mix ${cure.firstMix!.slice(11, 16)}`,
      );
      expect(calls(ms(cure.bagBy!) - 30 * 60_000)).toContain(
        `Bag down by ${cure.bagBy!.slice(11, 16)}`,
      );
      expect(calls(ms(cure.gel!))).toContain('Look at the smear');
      expect(calls(ms(cure.debagFrom!))).toContain('The bag may come off');
    }
    const kinds = result.stages.map(({ kind }) => kind);
    expect(kinds).toEqual(expect.arrayContaining(['prepare', 'outside']));
    for (const { kind, start, name } of result.stages) {
      if (kind === 'prepare') expect(calls(ms(start!) - 15 * 60_000)).toContain(name);
      if (kind !== 'outside') continue;
      expect(calls(ms(start!) - 60 * 60_000)).toContain(name);
      expect(calls(ms(start!) - 24 * 60 * 60_000)).toContain(name);
    }
  });
});

describe('content lines', () => {
  test('folding any text leaves it whole once unfolded, and never cuts a character', () => {
    forAll(
      fc.property(fc.string({ unit: 'binary', maxLength: 400 }), (line) => {
        fc.pre(!/[\r\n]/.test(line));
        const folded = fold(line);
        expect(folded.replaceAll('\r\n ', '')).toBe(line);
        for (const piece of folded.split('\r\n')) expect(octets(piece)).toBeLessThanOrEqual(75);
      }),
      { seed: 1 },
    );
  });

  test('any text without control characters reads back through the independent reader', () => {
    forAll(
      fc.property(fc.string({ unit: 'grapheme', maxLength: 200 }), (value) => {
        const line = fold(`SUMMARY:${escapeText(value)}`);
        const file = `BEGIN:VCALENDAR\r\nBEGIN:VEVENT\r\n${line}\r\nEND:VEVENT\r\nEND:VCALENDAR\r\n`;
        const event = new ICAL.Component(ICAL.parse(file)).getFirstSubcomponent('vevent')!;
        expect(event.getFirstPropertyValue('summary')).toBe(value);
      }),
      { seed: 2 },
    );
  });
});
