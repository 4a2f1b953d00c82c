import { execFileSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import {
  dayTimeToMinute,
  dayNumber,
  isoToMinute,
  localToMinute,
  minuteToIso,
  minuteToLocal,
} from '../../../app/time/zone.ts';
import { addDays } from '../../support/builds.ts';
import { intlLocal } from '../../support/intl.ts';

const ZONES = [
  'Europe/Lisbon',
  'America/New_York',
  'Australia/Lord_Howe',
  'Pacific/Apia',
  'America/Sao_Paulo',
  'Asia/Kathmandu',
  'Africa/Casablanca',
  'America/St_Johns',
  'UTC',
];

const utc = (iso: string) => Date.parse(`${iso}Z`) / 60_000;

/** Hours around both clock changes, a leap day, a year's end and the day that Apia left out. */
const AWKWARD = [
  '2027-03-28T00:00',
  '2027-10-31T00:00',
  '2027-03-14T05:00',
  '2027-11-07T05:00',
  '2027-04-03T14:00',
  '2027-10-02T14:00',
  '2028-02-28T22:00',
  '2027-12-31T20:00',
  '2011-12-30T08:00',
  '2018-11-04T02:00',
  '2018-02-18T01:00',
  '2026-02-15T01:00',
];

describe('wall clocks of awkward zones', () => {
  for (const zone of ZONES) {
    it(`shows what Intl shows in ${zone}`, () => {
      const format = AWKWARD.flatMap((iso) =>
        Array.from({ length: 60 }, (_, i) => utc(iso) - 300 + i * 17),
      );
      for (const minute of format) {
        expect(minuteToLocal(minute, zone)).toEqual(intlLocal(minute, zone));
        expect(isoToMinute(minuteToIso(minute, zone))).toBe(minute);
      }
    });

    it(`finds back every instant in ${zone}`, () => {
      for (const iso of AWKWARD) {
        for (let i = 0; i < 90; i++) {
          const minute = utc(iso) - 600 + i * 13;
          const { date, time } = minuteToLocal(minute, zone);
          const found = localToMinute(`${date}T${time}`, zone)!;
          if (found.occurs === 'once') expect(found.minute).toBe(minute);
          else {
            expect(found.minute).toBeLessThanOrEqual(minute);
            expect(intlLocal(found.minute, zone).time).toBe(time);
          }
        }
      }
    });
  }
});

describe('local times that the clock skips or repeats', () => {
  it.each([
    ['2027-03-28T01:30', 'Europe/Lisbon'],
    ['2027-03-14T02:00', 'America/New_York'],
    ['2027-10-03T02:15', 'Australia/Lord_Howe'],
    ['2011-12-30T12:00', 'Pacific/Apia'],
    ['2018-11-04T00:00', 'America/Sao_Paulo'],
  ])('%s does not exist in %s', (local, zone) => {
    expect(localToMinute(local, zone)).toBeNull();
  });

  it.each([
    ['2027-10-31T01:30', 'Europe/Lisbon', '2027-10-31T00:30'],
    ['2027-11-07T01:00', 'America/New_York', '2027-11-07T05:00'],
    ['2027-04-04T01:45', 'Australia/Lord_Howe', '2027-04-03T14:45'],
    ['2018-02-17T23:30', 'America/Sao_Paulo', '2018-02-18T01:30'],
  ])('%s occurs twice in %s; the earlier counts', (local, zone, expected) => {
    expect(localToMinute(local, zone)).toEqual({ minute: utc(expected), occurs: 'twice' });
  });

  it('moves a skipped opening time to the moment of the change', () => {
    expect(dayTimeToMinute(dayNumber('2027-03-28'), 90, 'Europe/Lisbon')).toBe(
      utc('2027-03-28T01:00'),
    );
    expect(dayTimeToMinute(dayNumber('2018-11-04'), 0, 'America/Sao_Paulo')).toBe(
      utc('2018-11-04T03:00'),
    );
  });
});

describe('days and ISO instants', () => {
  it('steps over a leap day and a year end', () => {
    expect(addDays('2028-02-28', 1)).toBe('2028-02-29');
    expect(addDays('2027-02-28', 1)).toBe('2027-03-01');
    expect(addDays('2027-12-31', 1)).toBe('2028-01-01');
    expect(addDays('2028-03-01', -1)).toBe('2028-02-29');
  });

  it('writes the offset of the zone at that instant', () => {
    expect(minuteToIso(utc('2027-05-14T17:00'), 'Europe/Lisbon')).toBe('2027-05-14T18:00+01:00');
    expect(minuteToIso(utc('2027-01-14T18:00'), 'America/St_Johns')).toBe('2027-01-14T14:30-03:30');
    expect(minuteToIso(utc('2027-01-14T18:00'), 'Asia/Kathmandu')).toBe('2027-01-14T23:45+05:45');
  });

  it('reads instants and refuses what is none', () => {
    expect(isoToMinute('2027-05-14T18:00+01:00')).toBe(utc('2027-05-14T17:00'));
    expect(isoToMinute('2027-05-14T18:00:59.5Z')).toBe(utc('2027-05-14T18:00'));
    expect(isoToMinute('2027-05-14T18:00-03:30')).toBe(utc('2027-05-14T21:30'));
    for (const bad of ['2027-05-14', '2027-02-30T10:00Z', '2027-05-14T25:00Z', 'soon']) {
      expect(isoToMinute(bad)).toBeNull();
    }
  });
});

describe('the zone of the machine', () => {
  it('does not matter', { timeout: 60_000 }, () => {
    const script = fileURLToPath(new URL('./print-instants.ts', import.meta.url));
    const outputs = ['UTC', 'Pacific/Apia', 'America/Sao_Paulo', 'Australia/Lord_Howe'].map((TZ) =>
      execFileSync(process.execPath, ['--no-warnings', script], {
        env: { ...process.env, TZ, NODE_OPTIONS: '' },
        encoding: 'utf8',
      }),
    );
    expect(outputs[0]!.length).toBeGreaterThan(1000);
    for (const output of outputs) expect(output).toBe(outputs[0]);
  });
});

describe('a day', () => {
  // Egypt puts its clocks forward at midnight of the last Friday of April, Chile at midnight of a Sunday.
  it.each([
    ['2027-04-30', 'Africa/Cairo', '2027-04-30T01:00+03:00'],
    ['2027-09-05', 'America/Santiago', '2027-09-05T01:00-03:00'],
    ['2027-05-14', 'Europe/Lisbon', '2027-05-14T00:00+01:00'],
  ])('%s in %s begins with its first minute', (day, zone, iso) => {
    expect(minuteToIso(localToMinute(day, zone)!.minute, zone)).toBe(iso);
  });
});
