/**
 * The calendar file against RFC 5545 (Internet Calendaring and Scheduling Core Object
 * Specification) and against an independent reader of it (ical.js).
 */
import fc from 'fast-check';
import ICAL from 'ical.js';
import { describe, expect, test } from 'vitest';
import { calendarIcs, escapeText, fold } from '../../app/shop/calendar.ts';
import { isoToMinute } from '../../app/time/zone.ts';
import { handMadeOutcome } from '../unit/shop/outcome.ts';
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
