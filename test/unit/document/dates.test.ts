import { describe, expect, it } from 'vitest';
import { isCalendarDay } from '../../../app/document/schema.ts';
import { read, smallBuild } from '../../support/builds.ts';

const two = (value: number) => String(value).padStart(2, '0');

it('a day of the document is one that the calendar has, from 2000 to 2199', () => {
  const years = [1999, 2000, 2027, 2028, 2100, 2199, 2200];
  let days = 0;
  for (const year of years) {
    for (let month = 0; month <= 13; month += 1) {
      for (let day = 0; day <= 32; day += 1) {
        const text = `${year}-${two(month)}-${two(day)}`;
        // The runtime rolls a day that does not exist over into another one.
        const date = new Date(Date.UTC(year, month - 1, day));
        const exists = date.toISOString().slice(0, 10) === text && year >= 2000 && year <= 2199;
        expect(isCalendarDay(text), text).toBe(exists);
        days += Number(exists);
      }
    }
  }
  expect(days).toBe(366 + 365 + 366 + 365 + 365);
});

describe('a moment of the document', () => {
  it.each(['2027-07-02', '2027-07-02T00:00', '2027-07-02T23:59'])('may read %s', (unveiling) => {
    expect(read({ ...smallBuild(), unveiling }).ok).toBe(true);
  });

  it.each([
    '',
    '2027-7-2',
    '2027-07-02T',
    '2027-07-02T8:00',
    '2027-07-02T24:00',
    '2027-07-02T18:60',
    '2027-07-02T18:00:00',
    '2027-07-02T18:00Z',
    '2027-07-02T18:00+01:00',
    '2027-07-02 18:00',
    '2027-07-02T18:00\n',
    '2027-07-02T18:00T18:00',
    '2027-06-31T18:00',
    '1999-12-31T18:00',
  ])('may not read %j, and the fault says the form', (unveiling) => {
    expect(read({ ...smallBuild(), unveiling })).toMatchObject({
      ok: false,
      faults: [
        {
          path: 'unveiling',
          expected: 'a day and time that exist, as YYYY-MM-DDTHH:MM (or the day alone)',
        },
      ],
    });
  });
});
