/** Prints conversions around clock changes; run under several machine zones by the zone test. */
import type { Hours } from '../../../app/document/schema.ts';
import { expandHours } from '../../../app/time/calendar.ts';
import { localToMinute, minuteToIso, minuteToLocal } from '../../../app/time/zone.ts';

const hours: Hours = { sat: [['22:00', '24:00']], sun: [['00:00', '03:00']] };
const out: unknown[] = [];
for (const zone of ['Europe/Lisbon', 'America/New_York', 'Australia/Lord_Howe', 'Pacific/Apia']) {
  for (const local of ['2027-03-28T01:30', '2027-10-31T01:30', '2011-12-30T10:00', '2028-02-29']) {
    out.push(localToMinute(local, zone));
  }
  for (let minute = 30_230_000; minute < 30_760_000; minute += 9_973) {
    out.push(minuteToIso(minute, zone), minuteToLocal(minute, zone));
  }
  out.push(expandHours(hours, ['2027-04-11'], zone, 30_230_000, 30_760_000));
}
console.log(JSON.stringify(out));
