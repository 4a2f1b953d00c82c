/** The window from a first pull of peel ply: so many minutes, and never past the day. */
import { describe, expect, it } from 'vitest';
import { sameDayWithin } from '../../../app/schedule/network/sameDay.ts';
import { isoToMinute } from '../../../app/time/zone.ts';

const at = (iso: string): number => isoToMinute(iso)!;

describe('within so long and on the same day', () => {
  const map = sameDayWithin(120, 'Europe/Lisbon');

  it('ends with its minutes, or with the day', () => {
    expect(map.apply(at('2027-04-19T09:00+01:00'))).toBe(at('2027-04-19T11:00+01:00'));
    expect(map.apply(at('2027-04-19T23:10+01:00'))).toBe(at('2027-04-19T23:59+01:00'));
  });

  it('is inverted exactly over two days, one of them with the clock put forward', () => {
    const from = at('2027-03-27T12:00+00:00');
    const ceilings = Array.from({ length: 2880 }, (_, i) => map.apply(from + i)!);
    let cut = 0;
    for (let y = from + 400; y < from + 2400; y++) {
      const latest = map.latest(y)!;
      const earliest = map.earliest(y)!;
      expect([map.apply(latest)! <= y, map.apply(latest + 1)! > y]).toEqual([true, true]);
      expect([map.apply(earliest)! >= y, map.apply(earliest - 1)! < y]).toEqual([true, true]);
    }
    for (let i = 1; i < ceilings.length; i++) {
      expect(ceilings[i]!).toBeGreaterThanOrEqual(ceilings[i - 1]!);
      if (ceilings[i]! < from + i + 120) cut++;
    }
    expect(cut).toBe(240);
  });
});
