/** Other jobs and holidays in the terms of a scheduling problem. */
import { blockInterval } from '../../document/calendars.ts';
import { resourceId } from '../../document/ids.ts';
import type { FullBuild } from '../../document/schema.ts';
import { dayWords } from '../../messages/words.ts';
import type { Minute } from '../../time/instant.ts';
import { minuteToLocal } from '../../time/zone.ts';
import type { Busy } from '../problem.ts';
import type { NetworkInput } from './input.ts';

/** Gear of the shop that other jobs have within the plan's time; people lose hours instead. */
export function busyGear({ build, from, horizon }: NetworkInput): Busy[] {
  return build.busy.flatMap((block): Busy[] => {
    const { id, what, who } = block;
    if (who.kind === 'person' || who.kind === 'outside') return [];
    const { start, end } = blockInterval(block, build.zone);
    if (end <= from || start >= horizon) return [];
    return [{ id, what, resource: resourceId({ kind: who.kind }), amount: who.amount, start, end }];
  });
}

/** Holidays of the shop and other jobs of one person between two moments, in the user's words. */
export function absences(build: FullBuild, person: string, from: Minute, to: Minute): string[] {
  const [first, last] = [from, to].map((minute) => minuteToLocal(minute, build.zone).date);
  const holidays = build.holidays
    .filter((day) => day.for === 'shop' && day.date >= first! && day.date <= last!)
    .map(({ name, date }) => `${name} on ${dayWords(date)}`);
  const jobs = build.busy
    .filter(({ who }) => who.kind === 'person' && who.id === person)
    .filter((block) => block.from.slice(0, 10) <= last! && block.until.slice(0, 10) >= first!)
    .map(({ what, from: day }) => `${what} from ${dayWords(day.slice(0, 10))}`);
  return [...holidays, ...jobs];
}
