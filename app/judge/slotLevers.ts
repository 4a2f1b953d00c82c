/** Levers of outside parties: another day for a booked slot. */
import { leverId, outsideStageId, type LeverRef } from '../document/ids.ts';
import { filledIn, partyIdAt } from '../document/assume.ts';
import type { Build } from '../document/schema.ts';
import { leverWords } from '../messages/levers.ts';
import type { PlanContext } from '../plan/context.ts';
import type { Minute } from '../time/instant.ts';
import { localToMinute, minuteToLocal } from '../time/zone.ts';
import { slotsMissed } from './dates.ts';
import type { LeverEdit, LeverTable, PlanOfferInput } from './lever.ts';

type SlotLever = Extract<LeverRef, { lever: 'slot' }>;

/** A later slot for every outside party whose booked one the plan misses. */
function slotLevers({ context, document, plan }: PlanOfferInput): LeverEdit[] {
  return slotsMissed(plan).flatMap(({ stage, at }) => {
    const party = context.build.outside.find((one) => outsideStageId(one.id) === stage.id);
    if (!party) return [];
    const zone = party.zone ?? context.build.zone;
    const day = firstDayFrom(context.outsideHours[party.id] ?? [], at.start, zone);
    return day === null ? [] : (slotEdit(document, { lever: 'slot', party: party.id, day }) ?? []);
  });
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
