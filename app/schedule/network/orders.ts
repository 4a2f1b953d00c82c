/** Orders and their arrival: one delivery for each supplier, or one wait for all where none is named. */
import { supplierHolidays } from '../../document/calendars.ts';
import { modeId } from '../../document/ids.ts';
import type { StageKind } from '../../document/schema.ts';
import type { RelationReason } from '../../messages/relations.ts';
import { STAGE_NAMES } from '../../messages/stages.ts';
import { hasSuppliers } from '../../part/deliveries.ts';
import { subtract, unite } from '../../time/calendar.ts';
import { MINUTES_PER_DAY, type Calendar } from '../../time/instant.ts';
import { dayNumber, dayTimeToMinute } from '../../time/zone.ts';
import type { NetworkBuilder } from './builder.ts';
import { deliveryLength } from './delivery.ts';
import type { DeliverySetup } from './input.ts';

/** What a stage waits for before it can touch its material. */
export interface Orders {
  /** The one order of everything; null where suppliers are ordered from one by one, or all is at hand. */
  readonly all: string | null;
  readonly bySupplier: readonly { readonly delivery: DeliverySetup; readonly arrived: string }[];
}

/** Adds an order and a check of what came for each supplier, or the one order of builds of before. */
export function orderStages(net: NetworkBuilder): Orders {
  const { route, part, deliveries } = net.input;
  const bags = route.cures.length;
  const kit = part.kitFor(bags, bags);
  if (!hasSuppliers(kit)) {
    const days = Math.max(0, ...kit.map((line) => line.leadDays ?? 0));
    return { all: oneOrder(net, days), bySupplier: [] };
  }
  const waitedFor = deliveries.filter(({ leadDays }) => leadDays > 0);
  return {
    all: null,
    bySupplier: waitedFor.map((delivery) => ({ delivery, arrived: delivered(net, delivery) })),
  };
}

/** The order is placed while somebody is in the shop; what came is looked over before it is used. */
function delivered(net: NetworkBuilder, delivery: DeliverySetup): string {
  const { supplier, name, leadDays, receives } = delivery;
  const order = net.running(
    {
      ref: { what: 'order', supplier },
      name: STAGE_NAMES.order(name, leadDays),
      kind: 'order',
    },
    deliveryLength(receives, leadDays, net.input.build.zone),
    [],
    hoursOfAnybody(net),
  );
  const check = net.labour({
    ref: { what: 'arrival', supplier },
    name: STAGE_NAMES.arrival(name),
    kind: 'arrival',
  });
  net.after(order, check, 'delivery-arrived');
  return check ?? order;
}

const REASON_BY_KIND: Readonly<Partial<Record<StageKind, RelationReason>>> = {
  cutting: 'cloth-arrived',
  'core-fit': 'core-arrived',
  'resin-warm': 'resin-arrived',
  mould: 'blank-arrived',
};

/** Every stage waits for the deliveries that it takes something from, and for no others. */
export function waitForDeliveries(net: NetworkBuilder, { bySupplier }: Orders): void {
  const machining = new Set(
    net.input.build.outside.filter(({ kind }) => kind === 'machining').map(({ id }) => id),
  );
  for (const { delivery, arrived } of bySupplier) {
    for (const { id, kind, party } of net.stageHeads()) {
      if (!delivery.kinds.has(kind)) continue;
      if (kind === 'outside' && (party === null || !machining.has(party))) continue;
      net.after(arrived, id, REASON_BY_KIND[kind] ?? 'delivery-arrived');
    }
  }
}

/** Waits for the slowest delivery; absent when all is at hand. */
function oneOrder(net: NetworkBuilder, days: number): string | null {
  if (days === 0) return null;
  const minutes = days * MINUTES_PER_DAY;
  const stage = {
    ref: { what: 'order' },
    name: STAGE_NAMES.orderAll(days),
    kind: 'order',
  } as const;
  const calendar = deliveryDays(net);
  if (calendar === null) return net.elapsed(stage, minutes, [], hoursOfAnybody(net));
  const length = { kind: 'work', minutes, unbroken: false } as const;
  return net.stage(stage, [{ id: modeId({ by: 'itself' }), uses: [], calendar, length }]);
}

/** What a person sets going, as an order, begins while somebody is there. */
export const hoursOfAnybody = ({ input: { personHours } }: NetworkBuilder): Calendar =>
  Object.values(personHours).reduce<Calendar>((all, own) => unite(all, own), []);

/** An order may have been placed this long before the plan begins. */
const DAYS_ON_ORDER = 3650;

/** All days but those that suppliers keep as holidays; null where they keep none. */
function deliveryDays({ input: { build, from, horizon } }: NetworkBuilder): Calendar | null {
  const days = supplierHolidays(build);
  if (days.length === 0) return null;
  const start = from - DAYS_ON_ORDER * MINUTES_PER_DAY;
  const closed = [...new Set(days)].sort().map((day) => ({
    start: dayTimeToMinute(dayNumber(day), 0, build.zone),
    end: dayTimeToMinute(dayNumber(day) + 1, 0, build.zone),
  }));
  return subtract([{ start, end: horizon }], closed);
}
