import { describe, expect, it } from 'vitest';
import { whoStays } from '../../../app/shop/whoStays.ts';
import type { SheetData } from '../../../app/shop/sheetData.ts';
import type { Calendar } from '../../../app/time/instant.ts';

const at = (clock: string): number =>
  Date.UTC(2027, 4, 20, Number(clock.slice(0, 2)), Number(clock.slice(3))) / 60_000;
const hours = (...spans: readonly (readonly [string, string])[]): Calendar =>
  spans.map(([from, to]) => ({ start: at(from), end: at(to) }));
const shop = (personHours: Readonly<Record<string, Calendar>>) =>
  ({
    zone: 'UTC',
    build: { crew: Object.keys(personHours).map((id) => ({ id, name: id })) },
    detail: { personHours },
  }) as unknown as SheetData;
const stays = (from: string, to: string) => ({ start: at(from), end: at(to) });

describe('who stays while heat is on', () => {
  const twoShifts = shop({
    Ana: hours(['07:30', '12:00'], ['12:30', '16:00']),
    Bo: hours(['13:00', '20:00']),
  });

  it('is one name where one is there for all of it, breaks filled', () => {
    expect(whoStays(twoShifts, stays('07:30', '15:30'))).toBe('Ana');
  });

  it('is named with the moment at which the next takes over', () => {
    expect(whoStays(twoShifts, stays('08:00', '19:00'))).toBe('Ana to 16:00, then Bo');
  });

  it('is whoever stands first in the crew, of those that are there as long', () => {
    const both = shop({ Ana: hours(['07:30', '16:00']), Bo: hours(['07:30', '16:00']) });
    expect(whoStays(both, stays('08:00', '12:00'))).toBe('Ana');
  });

  it('is nobody where a stretch has no one', () => {
    expect(whoStays(twoShifts, stays('08:00', '20:30'))).toBeNull();
    expect(whoStays(twoShifts, stays('06:00', '08:00'))).toBeNull();
  });
});
