/** Levers of outside parties: another day for a booked slot, later or earlier. */
import { leverId, outsideStageId, type LeverRef } from '../document/ids.ts';
import { filledIn, partyIdAt } from '../document/assume.ts';
import type { Build, OutsideParty } from '../document/schema.ts';
import { leverWords } from '../messages/levers.ts';
import type { PlanContext } from '../plan/context.ts';
import type { RoutePlan } from '../plan/routePlan.ts';
import type { Minute } from '../time/instant.ts';
import { localToMinute, minuteToLocal } from '../time/zone.ts';
import { slotsMissed } from './dates.ts';
import type { LeverEdit, LeverTable, PlanOfferInput } from './lever.ts';

type SlotLever = Extract<LeverRef, { lever: 'slot' }>;

/** A later slot for every outside party whose booked one the plan misses; an earlier one where it waits. */
const slotLevers = (input: PlanOfferInput): LeverEdit[] => [
  ...laterSlots(input),
  ...earlierSlots(input),
];

const laterSlots = (input: PlanOfferInput): LeverEdit[] =>
  slotsMissed(input.plan).flatMap(({ stage, at }) => {
    const party = input.context.build.outside.find((one) => outsideStageId(one.id) === stage.id);
    return party ? slotFrom(input, party, at.start) : [];
  });

/** Where the unveiling is missed: the days before a booked one on which the part is there already. */
function earlierSlots(input: PlanOfferInput): LeverEdit[] {
  const { context, plan } = input;
  if (plan.lateMinutes === null || plan.lateMinutes <= 0) return [];
  return context.build.outside.flatMap((party) => {
    const arrives = arrivalFor(plan, outsideStageId(party.id));
    return party.slot === null || arrives === null
      ? []
      : slotFrom(input, party, arrives, party.slot);
  });
}

/** The first of the party's days that opens at or after a moment, and lies before a day where one is given. */
function slotFrom(
  { context, document }: PlanOfferInput,
  party: OutsideParty,
  from: Minute,
  before: string | null = null,
): LeverEdit[] {
  const zone = party.zone ?? context.build.zone;
  const day = firstDayFrom(context.outsideHours[party.id] ?? [], from, zone);
  if (day === null || (before !== null && day >= before)) return [];
  const edit = slotEdit(document, { lever: 'slot', party: party.id, day });
  return edit ? [edit] : [];
}

/** When all that a visit waits for is done in the plan; null: it has begun, or nothing leads to it. */
function arrivalFor({ network, placed }: RoutePlan, visit: string): Minute | null {
  const { stages, relations } = network.problem;
  if (stages.some(({ id, begun }) => id === visit && begun)) return null;
  const done = relations.flatMap(({ to, from, type }) => {
    const before = to === visit && type === 'at-least' && placed.get(from);
    return before ? [before.end] : [];
  });
  return done.length === 0 ? null : Math.max(...done);
}

/** Ids of slots so many of the party's working days after each booked one. */
export function laterSlotIds(context: PlanContext, workingDays: readonly number[]): string[] {
  return context.build.outside.flatMap((party) => {
    if (party.slot === null) return [];
    const zone = party.zone ?? context.build.zone;
    const dates = (context.outsideHours[party.id] ?? []).map(
      (hours) => minuteToLocal(hours.start, zone).date,
    );
    const later = [...new Set(dates)].filter((date) => date > party.slot!);
    return workingDays.flatMap((days) => {
      const date = later[days - 1];
      return date === undefined ? [] : [leverId({ lever: 'slot', party: party.id, day: date })];
    });
  });
}

/** The first day whose opening is at or after the moment the part is there. */
function firstDayFrom(
  hours: readonly { readonly start: Minute }[],
  from: Minute,
  zone: string,
): string | null {
  const opened = hours.find((one) => one.start >= from && isFirstOfItsDay(hours, one.start, zone));
  return opened ? minuteToLocal(opened.start, zone).date : null;
}

const isFirstOfItsDay = (
  hours: readonly { readonly start: Minute }[],
  start: Minute,
  zone: string,
): boolean => {
  const before = hours.findLast((one) => one.start < start);
  return !before || minuteToLocal(before.start, zone).date < minuteToLocal(start, zone).date;
};

/** The edit that a slot's lever stands for; null when it names no party of the build. */
function slotEdit(document: Build, ref: SlotLever): LeverEdit | null {
  const { day } = ref;
  const party = filledIn(document).outside.find(({ id }) => id === ref.party);
  if (!party) return null;
  const outside = (document.outside ?? []).map((one, i) =>
    partyIdAt(one, i) === party.id ? { ...one, slot: day } : one,
  );
  const zone = party.zone ?? document.zone;
  const noon = localToMinute(`${day}T12:00`, zone)?.minute ?? 0;
  return {
    id: leverId(ref),
    ...leverWords('slot', { party: party.name, noon, zone }),
    document: { ...document, outside },
    addedMinor: 0,
  };
}

export const SLOT_LEVERS: LeverTable<'slot'> = {
  slot: { subject: ({ party }) => `slot ${party}`, offerWithPlan: slotLevers, edit: slotEdit },
};
