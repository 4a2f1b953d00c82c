/** When suppliers and outside parties work and deliver, and what each of them brings to a route. */
import { partyCalendar } from '../document/calendars.ts';
import type { FullBuild } from '../document/schema.ts';
import { deliveriesOf, type Delivery } from '../part/deliveries.ts';
import { kindsUsing } from '../part/uses.ts';
import { deliveryLength } from '../schedule/network/delivery.ts';
import type { DeliverySetup } from '../schedule/network/input.ts';
import { expandHours } from '../time/calendar.ts';
import type { Calendar, Minute } from '../time/instant.ts';
import type { WeekHours } from '../time/week.ts';
import type { PlanContext } from './context.ts';

export interface SupplierHours {
  readonly receives: Calendar;
  /** It delivers nothing for as long as the plan looks ahead: usual hours stand in, so that dates can be given. */
  readonly closed: boolean;
}

/** Hours of a supplier of which the shop has said nothing. */
const USUAL_DAY: [string, string][] = [['08:00', '17:00']];
const USUAL_WEEK = {
  mon: USUAL_DAY,
  tue: USUAL_DAY,
  wed: USUAL_DAY,
  thu: USUAL_DAY,
  fri: USUAL_DAY,
} satisfies WeekHours;

interface Span {
  /** When work may begin. */
  readonly from: Minute;
  /** Where calendars begin and end. */
  readonly first: Minute;
  readonly horizon: Minute;
}

interface Asked {
  readonly supplier: string;
  /** Its working days from order to arrival. */
  readonly leadDays: number;
}

/** Receiving hours of suppliers on the build's clock, less their days off and the holidays of outside parties. */
export function supplierHoursOf(
  build: FullBuild,
  suppliers: readonly Asked[],
  { from, first, horizon }: Span,
): Record<string, SupplierHours> {
  const hoursOf = ({ supplier: id, leadDays }: Asked): SupplierHours => {
    const own = build.suppliers.find((one) => one.id === id);
    const open = { id, hours: own?.hours ?? USUAL_WEEK, off: own?.off ?? [], zone: null };
    const receives = partyCalendar(build, open, first, horizon);
    const delivers = deliveryLength(receives, leadDays, build.zone);
    const closed = delivers.kind === 'function' && delivers.endOf(from) === null;
    if (!closed) return { receives, closed };
    return { receives: expandHours(USUAL_WEEK, [], build.zone, first, horizon), closed };
  };
  return Object.fromEntries(suppliers.map((one) => [one.supplier, hoursOf(one)]));
}

/** Hours of outside parties; usual ones for those that are closed from the first possible start on. */
export function outsideHoursOf(
  build: FullBuild,
  { from, first, horizon }: Span,
): {
  readonly outsideHours: Readonly<Record<string, Calendar>>;
  readonly outsideClosed: ReadonlySet<string>;
} {
  const closed = new Set<string>();
  const hours = build.outside.map((party): [string, Calendar] => {
    const own = partyCalendar(build, party, first, horizon);
    if (own.some(({ end }) => end > from)) return [party.id, own];
    closed.add(party.id);
    const zone = party.zone ?? build.zone;
    return [party.id, expandHours(USUAL_WEEK, [], zone, first, horizon)];
  });
  return { outsideHours: Object.fromEntries(hours), outsideClosed: closed };
}

/** What is to order for a route of so many bags. */
export const deliveriesFor = ({ build, part }: PlanContext, bags: number): Delivery[] =>
  deliveriesOf(build, part.kitFor(bags, bags));

/** The deliveries of a route, each with its hours and the kinds of stage that wait for it. */
export const deliverySetups = (context: PlanContext, bags: number): DeliverySetup[] =>
  deliveriesFor(context, bags).map(({ supplier, name, leadDays, lines }) => ({
    supplier,
    name,
    leadDays,
    receives: context.supplierHours[supplier]?.receives ?? [],
    kinds: new Set(lines.flatMap((line) => kindsUsing(line, context.library))),
  }));
