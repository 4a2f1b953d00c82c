/**
 * Calendar files read into busy times. `mina.ics` was written by an independent program (the npm
 * package ical-generator 11.1.2 with time zones by @touch4it/ical-timezones); the short ones below follow RFC 5545.
 */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { projectRoot } from '../../../main/root.ts';
import { readBusyFile } from '../../../main/calendars/busyFile.ts';
import { scratchSession, ask, tell } from './fixtures.ts';

const LISBON = { zone: 'Europe/Lisbon', from: '2027-03-20', to: '2027-05-31' };
const file = readFileSync(join(projectRoot(), 'test/data/calendars/mina.ics'), 'utf8');
const calendar = (...lines: string[]) =>
  ['BEGIN:VCALENDAR', 'VERSION:2.0', 'PRODID:-//x//y//EN', ...lines, 'END:VCALENDAR', ''].join(
    '\r\n',
  );
const event = (...lines: string[]) =>
  calendar('BEGIN:VEVENT', 'UID:one', 'SUMMARY:Job', ...lines, 'END:VEVENT');
const readOne = (...lines: string[]) => readBusyFile(event(...lines), LISBON);

describe('a file by an independent writer', () => {
  const { blocks, left } = readBusyFile(file, LISBON);
  const of = (what: string) =>
    blocks.filter((one) => one.what === what).map(({ from, until }) => [from, until]);

  it('gives every busy stretch of the span on the wall clock of the build', () => {
    expect(of('Dentist, left; long "check"')).toEqual([['2027-04-27T08:30', '2027-04-27T10:00']]);
    expect(of('Leave')).toEqual([['2027-05-03T00:00', '2027-05-06T00:00']]);
    expect(of('Course')).toEqual([
      ['2027-03-23T13:00', '2027-03-23T16:00'],
      ['2027-03-30T13:00', '2027-03-30T16:00'],
      ['2027-04-13T13:00', '2027-04-13T16:00'],
    ]);
    // Mondays from 22 March to 31 May.
    expect(of('Round')).toHaveLength(11);
    expect(blocks).toHaveLength(16);
  });

  it('says what it did not take, and why', () => {
    expect(left).toEqual([
      { what: 'Round', why: 'it repeats after 2027-05-31: taken up to that day only' },
      { what: 'Trade fair', why: 'it is marked as free' },
      { what: 'Visit', why: 'it was cancelled' },
    ]);
  });

  it('keeps instants apart from wall clocks where build and file are in other zones', () => {
    // Lisbon is at UTC until 28 March 2027 and an hour ahead after; Auckland 13 h until 4 April, then 12.
    const far = readBusyFile(file, { ...LISBON, zone: 'Pacific/Auckland' }).blocks;
    expect(far.filter(({ what }) => what === 'Course').map(({ from }) => from)).toEqual([
      '2027-03-24T02:00',
      '2027-03-31T01:00',
      '2027-04-14T00:00',
    ]);
    expect(far.find(({ what }) => what === 'Leave')).toMatchObject({ from: '2027-05-03T00:00' });
  });
});

describe('single entries', () => {
  it('a repetition that was moved stands where it was moved to', () => {
    const text = calendar(
      'BEGIN:VEVENT',
      'UID:one',
      'SUMMARY:Job',
      'DTSTART:20270405T080000',
      'DURATION:PT1H',
      'RRULE:FREQ=DAILY;COUNT=3',
      'END:VEVENT',
      'BEGIN:VEVENT',
      'UID:one',
      'SUMMARY:Job, later',
      'RECURRENCE-ID:20270406T080000',
      'DTSTART:20270406T140000',
      'DTEND:20270406T150000',
      'END:VEVENT',
    );
    expect(readBusyFile(text, LISBON).blocks.map(({ what, from }) => [what, from])).toEqual([
      ['Job', '2027-04-05T08:00'],
      ['Job, later', '2027-04-06T14:00'],
      ['Job', '2027-04-07T08:00'],
    ]);
  });

  it('a zone of the file’s own is read by its description, an unknown one is left out', () => {
    const zone = [
      'BEGIN:VTIMEZONE',
      'TZID:Shop time',
      'BEGIN:STANDARD',
      'DTSTART:19700101T000000',
      'TZOFFSETFROM:+0500',
      'TZOFFSETTO:+0500',
      'END:STANDARD',
      'END:VTIMEZONE',
    ];
    const entry = [
      'BEGIN:VEVENT',
      'UID:one',
      'SUMMARY:Job',
      'DTSTART;TZID=Shop time:20270405T130000',
      'DTEND;TZID=Shop time:20270405T140000',
      'END:VEVENT',
    ];
    // 13:00 at five hours ahead is 08:00 UTC, 09:00 in Lisbon in April.
    expect(readBusyFile(calendar(...zone, ...entry), LISBON).blocks).toEqual([
      { what: 'Job', from: '2027-04-05T09:00', until: '2027-04-05T10:00' },
    ]);
    expect(readBusyFile(calendar(...entry), LISBON)).toEqual({
      blocks: [],
      left: [
        { what: 'Job', why: 'its time zone Shop time is neither known nor described in the file' },
      ],
    });
  });

  it('a zone of the world needs no description', () => {
    const { blocks } = readOne('DTSTART;TZID=Europe/Berlin:20270405T100000', 'DURATION:PT2H');
    expect(blocks).toEqual([{ what: 'Job', from: '2027-04-05T09:00', until: '2027-04-05T11:00' }]);
  });

  it('an hour that the clocks tell twice is not lost', () => {
    // 31 October 2027 in Lisbon: 02:00 becomes 01:00; 01:15Z is the second 01:15.
    const span = { ...LISBON, from: '2027-10-30', to: '2027-11-02' };
    const { blocks } = readBusyFile(
      event('DTSTART:20271031T011500Z', 'DTEND:20271031T014500Z'),
      span,
    );
    expect(blocks).toEqual([{ what: 'Job', from: '2027-10-31T01:59', until: '2027-10-31T02:00' }]);
  });

  it.each([
    [['DTEND:20270405T100000Z'], 'it has no start'],
    [['DTSTART:20270405T100000Z'], 'it takes no time'],
    [['DTSTART:20270405T100000Z', 'DTEND:20270405T090000Z'], 'it takes no time'],
    [['DTSTART:20270405T100000Z', 'DURATION:PT1H', 'RRULE:FREQ=SECONDLY'], 'it repeats secondly'],
    [
      ['DTSTART:20200405T100000Z', 'DURATION:PT1M', 'RRULE:FREQ=HOURLY'],
      'it repeats more than 20000 times before 2027-05-31',
    ],
    [
      ['DTSTART:20270405T100000Z', 'DTEND;TZID=Europe/Lisbon:0000-01-01T120000'],
      'it is not in the years 1900 to 2199',
    ],
    [
      ['DTSTART:10130405T100000Z', 'DURATION:PT1H', 'RRULE:FREQ=DAILY'],
      'it is not in the years 1900 to 2199',
    ],
    [['DTSTART:20270405T100000Z', 'DTEND:99990405T090000Z'], 'it is not in the years 1900 to 2199'],
  ])('%j: left out, for a reason', (lines, why) => {
    expect(readOne(...lines)).toEqual({ blocks: [], left: [{ what: 'Job', why }] });
  });

  it('tasks are no busy times', () => {
    const text = calendar('BEGIN:VTODO', 'UID:t', 'SUMMARY:Wax', 'END:VTODO');
    expect(readBusyFile(text, LISBON)).toEqual({
      blocks: [],
      left: [{ what: 'VTODO', why: '1 not read' }],
    });
  });
});

describe('through the channel', () => {
  it('a file is answered with its blocks', async () => {
    const read = await tell(scratchSession(), 'calendar-read', { text: file, ...LISBON });
    expect(read.blocks).toHaveLength(16);
  });

  it.each(['', 'no calendar', 'BEGIN:VCARD\r\nVERSION:4.0\r\nEND:VCARD\r\n'])(
    'what is no calendar is refused in words: %j',
    async (text) => {
      expect(await ask(scratchSession(), 'calendar-read', { text, ...LISBON })).toMatchObject({
        ok: false,
        code: 'refused',
        detail: expect.stringMatching(/^This (is|file holds) no calendar/) as string,
      });
    },
  );
});
