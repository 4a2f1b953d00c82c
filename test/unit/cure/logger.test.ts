import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { logReader, type LogResult } from '../../../app/cure/logger.ts';
import { isoToMinute, minuteToLocal } from '../../../app/time/zone.ts';
import { practice } from './practice-rows.ts';
import { forAll } from '../../support/draws.ts';

const ZONE = 'Europe/Lisbon';
const read = (text: string, zone: string | null = ZONE, chunk = 7): LogResult => {
  const reader = logReader({ zone, practice });
  for (let i = 0; i < text.length; i += chunk) reader.push(text.slice(i, i + chunk));
  return reader.end();
};
const issuesOf = (result: LogResult) =>
  Object.fromEntries(result.issues.map(({ kind, count }) => [kind, count]));
const at = (iso: string) => isoToMinute(iso)!;
/** Mean temperature over the whole profile, C. */
const meanC = ({ profile }: LogResult): number => {
  const minutes = profile!.reduce((sum, p) => sum + p.end - p.start, 0);
  return profile!.reduce((sum, p) => sum + p.temperatureC * (p.end - p.start), 0) / minutes;
};

const hourly = (temperatures: readonly (number | string)[], separator = ',') =>
  temperatures
    .map((t, i) => `2027-04-19T${String(i).padStart(2, '0')}:00:00Z${separator}${t}`)
    .join('\n');
/** One reading every ten minutes, so that nothing is a gap. */
const tenMinutes = (temperatures: readonly (number | string)[], separator = ',') =>
  temperatures
    .map(
      (t, i) =>
        `2027-04-19T0${Math.floor(i / 6)}:${String((i % 6) * 10).padStart(2, '0')}:00Z${separator}${t}`,
    )
    .join('\n');

describe('a plain log', () => {
  it('becomes a profile that joins up, from first to last reading', () => {
    const result = read(tenMinutes([20, 21, 22, 21]));
    expect(result.issues).toEqual([]);
    expect(result).toMatchObject({ readings: 4, lines: 4, coldestC: 20, hottestC: 22 });
    expect(result.profile).toEqual([
      { start: at('2027-04-19T00:00Z'), end: at('2027-04-19T00:10Z'), temperatureC: 20.5 },
      { start: at('2027-04-19T00:10Z'), end: at('2027-04-19T00:20Z'), temperatureC: 21.5 },
      { start: at('2027-04-19T00:20Z'), end: at('2027-04-19T00:30Z'), temperatureC: 21.5 },
    ]);
  });

  it.each([
    ['offset', '2027-04-19T08:00+01:00,20\n2027-04-19T08:10+01:00,20'],
    ['Unix seconds', '1808118000,20\n1808118600,20'],
    ['Unix milliseconds', '1808118000000,20\n1808118600000,20'],
    ['day first with dots', '19.04.2027 08:00;20\n19.04.2027 08:10;20'],
    ['date and time apart', '2027-04-19;08:00;20\n2027-04-19;08:10:00;20'],
    ['tabs and quotes', '"2027-04-19 08:00:00"\t"20"\n"2027-04-19 08:10:00"\t"20"'],
    [
      'lines numbered first',
      '#,time,air C\n1,2027-04-19T08:00+01:00,20\n2,2027-04-19T08:10+01:00,20',
    ],
    ['fractions of a second', '2027-04-19 08:00:00.250;20\n2027-04-19 08:10:00,000;20'],
  ])('with times as %s', (_name, text) => {
    const { profile } = read(text);
    expect(profile![0]!.start).toBe(at('2027-04-19T07:00Z'));
  });

  it('counts the coldest of several probes and leaves humidity alone', () => {
    const text = `time,top C,foot C,humidity %\n${tenMinutes(['21,18,5', '21,17,4'])}`;
    const result = read(text);
    expect(result.columns).toEqual(['top C', 'foot C']);
    expect(result).toMatchObject({ coldestC: 17, hottestC: 18 });
  });

  it('reads the same however its text is cut', () => {
    const text = `\uFEFFtime;temp\r\n${tenMinutes(['20,5', '21,0', '19,25'], ';')}\r\n`;
    forAll(
      fc.property(fc.integer({ min: 1, max: 60 }), (chunk) => {
        expect(read(text, ZONE, chunk)).toEqual(read(text, ZONE, 1000));
      }),
      { seed: 1 },
    );
  });
});

describe('a stated repair', () => {
  it.each<[string, string, Record<string, number>]>([
    ['decimal commas', tenMinutes(['20,5', '21,5'], ';'), { 'decimal-comma': 1 }],
    ['a byte-order mark', `\uFEFF${tenMinutes([20, 21])}`, { 'byte-order-mark': 1 }],
    ['Fahrenheit', `time,air (°F)\n${tenMinutes([68, 68])}`, { fahrenheit: 1 }],
    ['lines without a number', tenMinutes([20, '---', 21]), { unreadable: 1 }],
    ['temperatures no shop has', tenMinutes([20, 2000, 21]), { impossible: 1 }],
    [
      'lines out of order',
      tenMinutes([20, 21, 22, 23]).split('\n').toSorted().toReversed().join('\n'),
      { 'out-of-order': 3 },
    ],
    ['a line given twice', `${tenMinutes([20, 21])}\n2027-04-19T00:10:00Z,21`, { repeated: 1 }],
    [
      'a time with two temperatures',
      `${tenMinutes([20, 21])}\n2027-04-19T00:10:00Z,25`,
      { 'repeated-differently': 1 },
    ],
    ['a gap', hourly([20, 21]), { gap: 1 }],
    ['times without a zone', '2027-04-19T08:00,20\n2027-04-19T08:10,20', { 'zone-taken': 1 }],
    [
      'a time that the spring change leaves out',
      '2027-03-28T00:50,20\n2027-03-28T01:10,20\n2027-03-28T02:00,20',
      { 'zone-taken': 1, 'no-such-time': 1 },
    ],
  ])('of %s', (_name, text, expected) => {
    const result = read(text);
    expect(issuesOf(result)).toEqual(expected);
    expect(result.issues.every((issue) => !issue.stops)).toBe(true);
    expect(result.profile).not.toBeNull();
  });

  it('keeps the colder of two temperatures at one time, and over a gap', () => {
    expect(read(`${tenMinutes([20, 21])}\n2027-04-19T00:10:00Z,15`).coldestC).toBe(15);
    const gap = read(hourly([20, 14, 22]));
    expect(gap.gaps).toHaveLength(2);
    expect(meanC(gap)).toBeCloseTo(14, 6);
  });

  it('reads decimal commas between commas by the names above them', () => {
    expect(meanC(read(`time,air C\n${tenMinutes(['20,5', '20,5'])}`))).toBe(20.5);
    expect(meanC(read(`time,air C,mould C\n${tenMinutes(['20,5', '20,5'])}`))).toBe(5);
  });

  it('turns Fahrenheit into Celsius', () => {
    expect(meanC(read(`time,air °F\n${tenMinutes([68, 68])}`))).toBeCloseTo(20, 2);
  });

  it('takes the repeated hour of autumn in the order of the lines', () => {
    const text = [
      '2027-10-31T00:50,20',
      '2027-10-31T01:20,20',
      '2027-10-31T01:50,20',
      '2027-10-31T01:20,20',
      '2027-10-31T01:50,20',
      '2027-10-31T02:10,20',
    ].join('\n');
    const result = read(text);
    expect(issuesOf(result)).toEqual({ 'zone-taken': 1 });
    const { profile } = result;
    expect(profile!.at(-1)!.end - profile![0]!.start).toBe(140);
  });
});

describe('a clear error', () => {
  it.each<[string, string, string | null, string]>([
    ['nothing', '', ZONE, 'empty'],
    ['noise', 'x'.repeat(50_000), ZONE, 'not-a-log'],
    ['a letter', 'Dear shop,\nthe mould is ready.\n', ZONE, 'not-a-log'],
    ['no zone', '2027-04-19T08:00,20\n', null, 'no-zone'],
    ['day and month either way round', '04/05/2027 08:00,20\n', ZONE, 'date-order'],
    ['a comma that may be either', '2027-04-19T08:00Z,20,5\n', ZONE, 'comma-unclear'],
    ['no temperature', 'time,humidity %\n2027-04-19T08:00Z,55\n', ZONE, 'no-temperature'],
  ])('for %s', (_name, text, zone, kind) => {
    const result = read(text, zone, 4096);
    expect(result.profile).toBeNull();
    expect(result.issues.filter((issue) => issue.stops).map((issue) => issue.kind)).toEqual([kind]);
  });
});

describe('the sample logs', () => {
  const sample = (name: string) =>
    readFileSync(join(import.meta.dirname, '../../../samples/logs', name), 'utf8');

  it('the week of a shop with night setback reads clean', () => {
    const result = read(sample('shop-week.csv'), null, 4096);
    expect(result.issues).toEqual([]);
    expect(result.readings).toBe(1008);
    expect(result.coldestC!).toBeGreaterThan(14);
    expect(result.hottestC!).toBeLessThan(22);
  });

  it('the mould with two probes reads with every repair said', () => {
    const result = read(sample('mould-two-probes.csv'), ZONE, 4096);
    expect(Object.keys(issuesOf(result)).sort()).toEqual([
      'byte-order-mark',
      'decimal-comma',
      'gap',
      'out-of-order',
      'repeated',
      'unreadable',
      'zone-taken',
    ]);
    expect(result.columns).toEqual(['mould top °C', 'mould foot °C']);
  });
});

it('holds the dose of what was logged, whatever the fold', () => {
  forAll(
    fc.property(
      fc.array(fc.integer({ min: 5, max: 40 }), { minLength: 4, maxLength: 50 }),
      (temperatures) => {
        const result = read(tenMinutes(temperatures.slice(0, 50)));
        const trapezoid =
          temperatures.slice(1).reduce((sum, t, i) => sum + (t + temperatures[i]!) / 2, 0) /
          (temperatures.length - 1);
        expect(meanC(result)).toBeCloseTo(trapezoid, 1);
      },
    ),
    { seed: 2 },
  );
});

describe('a log without offsets over a change of the clocks', () => {
  const pad = (n: number): string => String(n).padStart(2, '0');
  it.each([
    // Half an hour forward and back, an hour back, and a change at a minute past midnight.
    ['Australia/Lord_Howe', '2027-10-02T12:00Z'],
    ['Australia/Lord_Howe', '2027-04-03T12:00Z'],
    ['Europe/Lisbon', '2027-10-30T21:00Z'],
    ['America/St_Johns', '2010-11-06T23:00Z'],
  ])('of %s keeps every reading at its moment (%s)', (zone, from) => {
    const start = at(from);
    const moments = Array.from({ length: 8 * 12 }, (_, i) => start + 5 * i);
    const text = moments
      .map((minute, i) => {
        const { date, time } = minuteToLocal(minute, zone);
        return `${date} ${time}:00;${pad(10 + (i % 20))}.0`;
      })
      .join('\n');
    const result = read(text, zone);
    expect(issuesOf(result)).toEqual({ 'zone-taken': 1 });
    expect(result.readings).toBe(moments.length);
    expect(result.profile![0]!.start).toBe(start);
    expect(result.profile!.at(-1)!.end).toBe(moments.at(-1));
  });
});

it('a file with two rows two centuries apart is refused, not filled with a profile of them', () => {
  const result = read('2027-04-19T08:00:00Z,21\n1827-04-19T08:00:00Z,22\n');
  expect(issuesOf(result)['too-long']).toBe(1);
  expect(result.profile).toBeNull();
  const year = read('2027-04-19T08:00:00Z,21\n2028-04-19T08:00:00Z,22\n');
  expect(year.profile).not.toBeNull();
});
