/** Jobs of outside parties in their own hours, from their slot or the weekday they take work in. */
import { modeId, waitForParty } from '../../document/ids.ts';
import type { FullBuild, OutsideParty } from '../../document/schema.ts';
import { STAGE_NAMES } from '../../messages/stages.ts';
import { addWork, nextOpen } from '../../time/calendar.ts';
import type { Calendar, Minute } from '../../time/instant.ts';
import { dayNumber, dayTimeToMinute, minuteToLocal } from '../../time/zone.ts';
import type { Length } from '../problem.ts';
import type { NetworkBuilder } from './builder.ts';

/** Adds the job, with the wait for its weekday where there is one; returns the job's id. */
export function outsideJob(net: NetworkBuilder, party: OutsideParty): string {
  const hours = net.input.outsideHours[party.id] ?? [];
  const minutes = Math.max(1, Math.round(party.workingDays * minutesPerDay(party)));
  const slot = party.slot === null ? null : slotWindow(net, party, hours, minutes);
  return net.stage(
    {
      ref: { what: 'outside', party: party.id },
      name: STAGE_NAMES.outside(party.name, party.workingDays),
      kind: 'outside',
      ...(slot ?? {}),
    },
    [
      {
        id: modeId({ by: 'party' }),
        uses: [],
        calendar: hours,
        length: { kind: 'work', minutes, unbroken: false },
      },
    ],
  );
}

/** Parties that the part itself goes to, in order; the machining of a mould comes before it. */
export const partVisits = ({ outside }: Pick<FullBuild, 'outside'>): OutsideParty[] =>
  outside.filter((party) => party.kind !== 'machining');

/** A job on the part once it is `ready`, with the wait for its weekday; the job's id. */
export function visit(net: NetworkBuilder, party: OutsideParty, ready: readonly string[]): string {
  const gate = handIn(net, party);
  const job = outsideJob(net, party);
  for (const stage of ready) net.after(stage, gate ?? job, 'part-ready');
  if (gate) net.straightAfter(gate, job, 'taken-in-that-day');
  return job;
}

/** The wait from the shop's last stage to the weekday the party takes work in; null when any day is good. */
function handIn(net: NetworkBuilder, party: OutsideParty): string | null {
  if (party.leavesFrom === null || party.slot !== null) return null;
  const zone = party.zone ?? net.input.build.zone;
  const gates = (net.input.outsideHours[party.id] ?? [])
    .map((interval) => interval.start)
    .filter((start) => minuteToLocal(start, zone).weekday === party.leavesFrom);
  return net.running(
    {
      ref: { what: 'wait', for: waitForParty(party.id) },
      name: STAGE_NAMES.handIn(party.name),
      kind: 'wait',
    },
    gateLength(gates),
  );
}

/** A wait that ends at the next of `gates`. */
function gateLength(gates: readonly Minute[]): Length {
  return {
    kind: 'function',
    endOf: (start) => gates.find((gate) => gate >= start) ?? null,
    latestStart: (end) => gates.findLast((gate) => gate <= end) ?? null,
  };
}

/** A booked slot: not before its first opening, done as if begun then. */
function slotWindow(
  net: NetworkBuilder,
  party: OutsideParty,
  hours: Calendar,
  minutes: number,
): { release: Minute; due: Minute } | null {
  const zone = party.zone ?? net.input.build.zone;
  const opens = nextOpen(hours, dayTimeToMinute(dayNumber(party.slot!), 0, zone));
  if (opens === null) return null;
  const done = addWork(hours, opens, minutes);
  return done === null ? null : { release: opens, due: done };
}

/** Average length of a day the party works, minutes. */
function minutesPerDay(party: OutsideParty): number {
  const days = Object.values(party.hours).filter((spans) => spans.length > 0);
  const total = days
    .flat()
    .reduce((sum, [from, to]) => sum + minuteOfDay(to) - minuteOfDay(from), 0);
  return days.length === 0 ? 1 : total / days.length;
}

const minuteOfDay = (wall: string): number =>
  Number(wall.slice(0, 2)) * 60 + Number(wall.slice(3, 5));
