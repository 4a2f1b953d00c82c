import { describe, expect, it } from 'vitest';
import {
  laggedProfile,
  measuredProfile,
  roomProfile,
  temperatureAt,
  temperatureRange,
  withMeasured,
} from '../../../app/cure/profile.ts';
import { localToMinute, minuteToLocal } from '../../../app/time/zone.ts';
import type { FullBuild } from '../../../app/document/schema.ts';

type DayAndNight = Pick<FullBuild['room'], 'temperatureC' | 'dayFrom' | 'nightFrom'>;
const room = (more: Partial<DayAndNight> = {}): DayAndNight => ({
  temperatureC: { day: 20, night: 16 },
  dayFrom: '07:00',
  nightFrom: '19:00',
  ...more,
});
const at = (local: string, zone: string) => localToMinute(local, zone)!.minute;

describe('the room by day and night', () => {
  const zone = 'Europe/Lisbon';

  it('is warm from day to night by the wall clock and joins up', () => {
    const from = at('2027-04-19T08:00', zone);
    const profile = roomProfile(room(), zone, from, from + 3 * 1440);
    expect(profile[0]).toEqual({
      start: from,
      end: at('2027-04-19T19:00', zone),
      temperatureC: 20,
    });
    expect(temperatureAt(profile, at('2027-04-20T06:59', zone))).toBe(16);
    expect(temperatureAt(profile, at('2027-04-20T07:00', zone))).toBe(20);
    expect(profile.at(-1)!.end).toBe(from + 3 * 1440);
    profile.slice(1).forEach((p, i) => expect(p.start).toBe(profile[i]!.end));
  });

  it.each([
    ['2027-03-28', 'spring', 11 * 60],
    ['2027-10-31', 'autumn', 13 * 60],
  ])('has a night of another length over the clock change of %s (%s)', (day, _season, minutes) => {
    const noon = at(`${day}T12:00`, zone);
    const night = roomProfile(room(), zone, noon - 1440, noon + 1440).filter(
      (p) => p.temperatureC === 16,
    )[0]!;
    expect(night.end - night.start).toBe(minutes);
    expect(minuteToLocal(night.end, zone).time).toBe('07:00');
  });

  it('changes at the first moment after a wall-clock time that the spring change leaves out', () => {
    const noon = at('2027-03-28T12:00', zone);
    const profile = roomProfile(room({ dayFrom: '01:30' }), zone, noon - 1440, noon);
    const day = profile.find((p) => p.temperatureC === 20 && p.start > noon - 1440)!;
    expect(minuteToLocal(day.start, zone).time).toBe('02:00');
  });

  it('takes a warm spell that runs past midnight', () => {
    const from = at('2027-06-01T12:00', zone);
    const profile = roomProfile(
      room({ dayFrom: '22:00', nightFrom: '06:00' }),
      zone,
      from,
      from + 1440,
    );
    expect(temperatureAt(profile, at('2027-06-02T01:00', zone))).toBe(20);
    expect(temperatureAt(profile, at('2027-06-01T13:00', zone))).toBe(16);
  });

  it('is day throughout when day and night begin together, and 24:00 is midnight', () => {
    const from = at('2027-06-01T12:00', zone);
    expect(
      roomProfile(room({ dayFrom: '08:00', nightFrom: '08:00' }), zone, from, from + 9000),
    ).toEqual([{ start: from, end: from + 9000, temperatureC: 20 }]);
    const late = roomProfile(room({ nightFrom: '24:00' }), zone, from, from + 1440);
    expect(late[0]!.end).toBe(at('2027-06-02T00:00', zone));
  });

  it('has no stretch when it ends before it begins', () => {
    expect(roomProfile(room(), zone, 100, 100)).toEqual([]);
  });
});

describe('the range of a profile', () => {
  const profile = [
    { start: 0, end: 10, temperatureC: 20 },
    { start: 10, end: 20, temperatureC: 14 },
    { start: 20, end: 30, temperatureC: 25 },
  ];
  it.each([
    [0, 10, 20, 20],
    [0, 11, 14, 20],
    [12, 12, 14, 14],
    [5, 30, 14, 25],
    [-50, 400, 14, 25],
  ])('from %d to %d is %d to %d C', (from, to, minC, maxC) => {
    expect(temperatureRange(profile, from, to)).toEqual({ minC, maxC });
  });
  it('is refused outside', () => {
    expect(() => temperatureRange(profile, 40, 50)).toThrow(/outside/);
    expect(() => temperatureRange([], 0, 1)).toThrow(/empty/);
  });
});

describe('what was measured', () => {
  const expected = [
    { start: 0, end: 100, temperatureC: 20 },
    { start: 100, end: 300, temperatureC: 16 },
  ];
  it('stands in for what was expected, as far as it goes', () => {
    expect(
      withMeasured(expected, [
        { start: 50, end: 80, temperatureC: 18 },
        { start: 80, end: 150, temperatureC: 17 },
      ]),
    ).toEqual([
      { start: 0, end: 50, temperatureC: 20 },
      { start: 50, end: 80, temperatureC: 18 },
      { start: 80, end: 150, temperatureC: 17 },
      { start: 150, end: 300, temperatureC: 16 },
    ]);
  });
  it('keeps the span when it reaches beyond, and changes nothing when there is none', () => {
    const over = withMeasured(expected, [{ start: -50, end: 900, temperatureC: 11 }]);
    expect(over).toEqual([{ start: 0, end: 300, temperatureC: 11 }]);
    expect(withMeasured(expected, [])).toBe(expected);
  });
});

describe('a mould that lags behind its room', () => {
  const room = [
    { start: 0, end: 600, temperatureC: 20 },
    { start: 600, end: 1800, temperatureC: 10 },
  ];
  it('follows the exponential approach in the mean of every step, and joins up', () => {
    const body = laggedProfile(room, 4);
    expect(temperatureAt(body, 599)).toBe(20);
    const away = (minute: number) => 10 * Math.exp(-(minute - 600) / 240);
    for (const { start, end, temperatureC } of body.filter((p) => p.start >= 600)) {
      const meanC = 10 + (240 * (away(start) - away(end))) / (end - start);
      expect(temperatureC).toBeCloseTo(meanC, 0);
      expect(Math.abs(temperatureC - meanC)).toBeLessThanOrEqual(0.05 + 1e-9);
    }
    expect(body[0]!.start).toBe(0);
    expect(body.at(-1)!.end).toBe(1800);
    body.slice(1).forEach((p, i) => expect(p.start).toBe(body[i]!.end));
  });
  it('evens out a night that is short against its lag', () => {
    const nights = Array.from({ length: 40 }, (_, i) => ({
      start: i * 60,
      end: (i + 1) * 60,
      temperatureC: i % 2 === 0 ? 20 : 16,
    }));
    const { minC, maxC } = temperatureRange(laggedProfile(nights, 24), 2200, 2400);
    expect(minC).toBeGreaterThan(17);
    expect(maxC).toBeLessThan(19);
  });
  it('starts from where the body stands', () => {
    const body = laggedProfile([{ start: 0, end: 6000, temperatureC: 40 }], 2, 20);
    expect(body[0]!.temperatureC).toBeCloseTo(40 - 20 * (2 - 2 * Math.exp(-0.5)), 1);
    expect(body.at(-1)!.temperatureC).toBe(40);
  });
  it('is the room without a lag', () => {
    expect(laggedProfile(room, 0)).toBe(room);
  });
});

describe('a logger’s file as a build keeps it', () => {
  const log = { name: 'probe', place: 'air' as const, from: '2027-04-19T06:30:00Z' };
  it('is read in even steps from its first moment, equal neighbours joined', () => {
    const from = Date.UTC(2027, 3, 19, 6, 30) / 60_000;
    const measured = { ...log, stepMinutes: 30, temperaturesC: [18, 18, 19.5] };
    expect(measuredProfile(measured)).toEqual([
      { start: from, end: from + 60, temperatureC: 18 },
      { start: from + 60, end: from + 90, temperatureC: 19.5 },
    ]);
  });
});
