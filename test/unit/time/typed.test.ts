/** Days and moments as people type them. */
import { describe, expect, it } from 'vitest';
import { momentFaultWords } from '../../../app/messages/typed.ts';
import { fullMoment } from '../../../app/shop/words.ts';
import { readMoment } from '../../../app/time/typed.ts';
import { dayName, dayNumber } from '../../../app/time/zone.ts';

/** A Monday. */
const TODAY = dayNumber('2027-04-12');
const read = (typed: string, today = TODAY) => {
  const moment = readMoment(typed, today);
  return moment.ok ? `${moment.day} ${moment.time ?? '-'}` : momentFaultWords(moment.fault, true);
};

describe('a typed moment', () => {
  it.each([
    ['fri 21 may 4pm', '2027-05-21 16:00'],
    ['Friday, 21st of May at 4:30 pm', '2027-05-21 16:30'],
    ['21 may 2027 16:00', '2027-05-21 16:00'],
    ['May 21 2027, 16h', '2027-05-21 16:00'],
    ['16:00 21 sept', '2027-09-21 16:00'],
    ['2027-05-21T16:00', '2027-05-21 16:00'],
    ['2027-05-21', '2027-05-21 -'],
    ['21.5.2027 7:05', '2027-05-21 07:05'],
    ['5/21/2027', '2027-05-21 -'],
    ['5/5/2027', '2027-05-05 -'],
    ['tomorrow 12pm', '2027-04-13 12:00'],
    ['today 12am', '2027-04-12 00:00'],
    ['thurs 8:00', '2027-04-15 08:00'],
    ['mon', '2027-04-19 -'],
    ['11 apr', '2028-04-11 -'],
    ['12 apr', '2027-04-12 -'],
    ['29 feb', '2028-02-29 -'],
  ])('%j is %s', (typed, meant) => {
    expect(read(typed)).toBe(meant);
  });

  it.each([
    ['5/6/2027', 'can be read two ways: 5 June 2027 or 6 May 2027. Write the month by its name.'],
    ['thu 21 may', '21 May 2027 is a Friday, not a Thursday.'],
    ['31 june', 'there is no such day'],
    ['2027-02-30', 'there is no such day'],
    ['21 may 25:00', '"25:00" is no hour of the day'],
    ['21 may 13pm', '"13pm" is no hour of the day'],
    ['soon', 'cannot be read as a day and hour'],
    ['21', 'cannot be read'],
    ['21 may 16.30', 'cannot be read'],
    ['monkey', 'cannot be read'],
    ['fri 21 may 4pm 5pm', 'cannot be read'],
    ['tomorrow 21 may', 'cannot be read'],
  ])('%j is asked back', (typed, said) => {
    expect(read(typed)).toContain(said);
  });

  it('is read back as it is shown, for every day of forty years', () => {
    const from = dayNumber('2020-01-01');
    for (let day = from; day < from + 40 * 365; day += 1) {
      const shown = fullMoment(`${dayName(day)}T16:05`);
      expect(read(shown)).toBe(`${dayName(day)} 16:05`);
    }
  });
});
