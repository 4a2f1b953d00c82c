/**
 * Deliveries and slots against an independent calendar: days counted by date-fns (weekends by its own rule),
 * holidays by the published table of the German federal state of Berlin for 2027 (from memory of its holiday
 * law: Easter Monday 29 March, Ascension 6 May, Whit Monday 17 May; 1 May is a Saturday).
 */
import { addDays, format, isWeekend } from 'date-fns';
import { describe, expect, it } from 'vitest';
import { plan } from '../../app/answer/plan.ts';
import type { Build } from '../../app/document/schema.ts';
import { FIRST_ANSWER } from '../../app/plan/outcome.ts';
import { library, NOW, smallBuild } from '../support/builds.ts';

const HOLIDAYS = ['2027-03-29', '2027-05-01', '2027-05-06', '2027-05-17'];

const isOff = (day: Date): boolean =>
  isWeekend(day) || HOLIDAYS.includes(format(day, 'yyyy-MM-dd'));

/** So many working days after a day, itself moved to a working day first. */
function workingDaysAfter(date: string, count: number): string {
  let day = new Date(`${date}T12:00`);
  while (isOff(day)) day = addDays(day, 1);
  for (let left = count; left > 0;) {
    day = addDays(day, 1);
    if (!isOff(day)) left -= 1;
  }
  return format(day, 'yyyy-MM-dd');
}

const build = (from: string): Build => ({
  ...smallBuild(),
  zone: 'Europe/Berlin',
  earliestStart: `${from}T08:00`,
  holidays: HOLIDAYS.map((date) => ({ date, name: 'Holiday', for: 'outside' as const })),
  outside: [
    {
      ...{ id: 'paint', name: 'Paint shop', kind: 'paint' as const, workingDays: 4 },
      hours: Object.fromEntries(
        ['mon', 'tue', 'wed', 'thu', 'fri'].map((day) => [day, [['08:00', '17:00']]]),
      ),
    },
  ],
});

describe('deliveries and visits round holidays', () => {
  it('come and end on the days that an independent calendar counts', () => {
    let orders = 0;
    for (const from of ['2027-04-19', '2027-04-28', '2027-05-03']) {
      const { stages } = plan(build(from), library(), NOW, FIRST_ANSWER).result;
      for (const { id, name, start, end } of stages.filter(({ kind }) => kind === 'order')) {
        const days = Number(/(\d+) working day/.exec(name)![1]);
        expect([id, end!.slice(0, 10)]).toEqual([id, workingDaysAfter(start!.slice(0, 10), days)]);
        orders += 1;
      }
      const paint = stages.find(({ id }) => id === 'outside:paint')!;
      // Four days of nine hours, begun with the first hour of one: the last ends three working days later.
      const begins = paint.start!.slice(11, 16) === '08:00';
      const last = workingDaysAfter(paint.start!.slice(0, 10), begins ? 3 : 4);
      expect(paint.end!.slice(0, 10)).toBe(last);
    }
    expect(orders).toBeGreaterThanOrEqual(15);
  });
});
