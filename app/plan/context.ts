/** Everything about a build that does not depend on the route: times, calendars, room, resin, part. */
import { assume, type Assumption } from '../document/assume.ts';
import { personCalendar } from '../document/calendars.ts';
import { hardenerOf, mergeLibraries, practiceOf, resinOf } from '../document/library.ts';
import { recordsInForce } from '../document/records.ts';
import type { Build, FullBuild, HardenerRow, Library, ResinRow } from '../document/schema.ts';
import { dewPointC } from '../cure/air.ts';
import type { StatefulClock } from '../cure/clock.ts';
import { fitSheet } from '../cure/fit.ts';
import { keptClock } from '../cure/kept-clock.ts';
import type { PracticeLookup } from '../cure/practice.ts';
import type { CureModel, TemperatureProfile } from '../cure/types.ts';
import { memoByAll } from '../document/memo.ts';
import { withMovedStages } from '../document/movedStages.ts';
import { withSplitOrder } from '../document/splitOrder.ts';
import { deliveriesOf, hasSuppliers, suppliersIn } from '../part/deliveries.ts';
import { fillWays, type FillWay } from '../part/filling.ts';
import { measurePart } from '../part/measure.ts';
import { libraryFor } from '../part/process.ts';
import type { PartResult } from '../part/types.ts';
import { unite } from '../time/calendar.ts';
import { MINUTES_PER_DAY, type Calendar, type Minute } from '../time/instant.ts';
import { dayNumber, dayTimeToMinute, localToMinute } from '../time/zone.ts';
import { roomOf, type Room } from './room.ts';
import { withSectionSettings } from './sectionSettings.ts';
import { outsideHoursOf, supplierHoursOf, type SupplierHours } from './suppliers.ts';

/** Days beyond deadline and now for which calendars and room are known; what ends later counts as never. */
const DAYS_AFTER = 120;
/** Days before the first record or now for which calendars and room are known. */
const DAYS_BEFORE = 3;
/** Days before the unveiling in which a closing time that has passed is looked for. */
const DAYS_LOOKED_BACK = 60;
/** Calendars reach no further than this from the first possible start, whatever the dates. */
const MOST_DAYS_BEFORE = 730;
const MOST_DAYS_AFTER = 1095;
/** Time of day of an unveiling that names a day only. */
const DEFAULT_UNVEILING_MINUTE = 9 * 60;

export interface PlanContext {
  readonly build: FullBuild;
  readonly library: Library;
  readonly assumptions: readonly Assumption[];
  readonly practice: PracticeLookup;
  readonly resin: ResinRow;
  readonly hardener: HardenerRow;
  readonly part: PartResult;
  /** Every filler as it would fill the deepest hollow, the one that is planned first. */
  readonly fillWays: readonly FillWay[];
  readonly model: CureModel;
  readonly room: Room;
  /** What the chemistry runs on in the mould: the room's `mould`. */
  readonly profile: TemperatureProfile;
  /** The build's own hardener in the mould, without heat, on its late side. */
  readonly clock: StatefulClock;
  readonly now: Minute;
  /** Where calendars and room begin. */
  readonly first: Minute;
  readonly from: Minute;
  readonly deadline: Minute;
  readonly horizon: Minute;
  readonly personHours: Readonly<Record<string, Calendar>>;
  readonly outsideHours: Readonly<Record<string, Calendar>>;
  /** Outside parties that are closed as far as the plan looks: usual hours stand in, so that dates can be given. */
  readonly outsideClosed: ReadonlySet<string>;
  /** Receiving hours of every supplier that the kit names, by its id. */
  readonly supplierHours: Readonly<Record<string, SupplierHours>>;
  readonly shopHours: Calendar;
  /** Dew point of the day's air, C. */
  readonly dewPointC: number;
  /** Tents and ovens that can stand over a mould. */
  readonly tents: number;
}

/** @throws MissingRow when the document was not checked by `readBuild` first. */
export function contextOf(document: Build, shipped: Library, now: Minute): PlanContext {
  const { build: written, assumptions } = assume(document);
  const library = libraryFor(written, mergeLibraries(written.library, shipped));
  const part = measurePart(written, library);
  const kit = part.kitFor(1, 1);
  const suppliers = hasSuppliers(kit) ? suppliersIn(kit) : [];
  const build = withSectionSettings(withMovedStages(withSplitOrder(written, suppliers)));
  const practice = practiceOf(library);
  const hardener = hardenerOf(library, build.resin);
  const resin = resinOf(library, build.resin.system);
  const deadline = minuteOf(build.unveiling, build.zone, DEFAULT_UNVEILING_MINUTE);
  const earliest = build.earliestStart ? minuteOf(build.earliestStart, build.zone) : now;
  const from = Math.max(now, earliest);
  const records = [...recordsInForce(build).values()].map(({ start }) =>
    minuteOf(start, build.zone),
  );
  const lookBack = Math.max(deadline, now) - DAYS_LOOKED_BACK * MINUTES_PER_DAY;
  const first = Math.max(
    Math.min(now, lookBack, ...records) - DAYS_BEFORE * MINUTES_PER_DAY,
    from - MOST_DAYS_BEFORE * MINUTES_PER_DAY,
  );
  const horizon = Math.min(
    Math.max(deadline, from) + DAYS_AFTER * MINUTES_PER_DAY,
    from + MOST_DAYS_AFTER * MINUTES_PER_DAY,
  );
  const { personHours, shopHours } = crewHours(build, first, horizon);
  const { outsideHours, outsideClosed } = outsideHoursOf(build, { from, first, horizon });
  const model = fitSheet(hardener, practice, resin.chemistry);
  const room = roomOf(build, library, first, horizon);
  const clock = keptClock(model, room.mould, { side: 'late', minimumC: hardener.minimumC });
  return {
    build,
    library,
    assumptions,
    practice,
    resin,
    hardener,
    part,
    fillWays: fillWays(build, library),
    model,
    room,
    profile: room.mould,
    clock,
    now,
    first,
    from,
    deadline,
    horizon,
    personHours,
    outsideHours,
    outsideClosed,
    supplierHours: supplierHoursOf(build, deliveriesOf(build, kit), { from, first, horizon }),
    shopHours,
    tents: Math.max(build.gear.tents, build.room.tent ? 1 : 0),
    dewPointC: dewPointC(build.room.temperatureC.day, build.room.humidityPct),
  };
}

type CrewHours = Pick<PlanContext, 'personHours' | 'shopHours'>;

/** Hours of each person and of anybody: the same calendars as long as crew, holidays and busy blocks are the same. */
const crewHours = (build: FullBuild, first: Minute, horizon: Minute): CrewHours =>
  knownHours([build.crew, build.holidays, build.busy], `${build.zone} ${first} ${horizon}`, () => {
    const hours = build.crew.map((p): [string, Calendar] => [
      p.id,
      personCalendar(build, p, p.hours, first, horizon),
    ]);
    return {
      personHours: Object.fromEntries(hours),
      shopHours: hours.reduce<Calendar>((all, [, own]) => unite(all, own), []),
    };
  });

const knownHours = memoByAll<CrewHours>();

/** The same build in a room that is so many kelvin off what is expected. */
export function withRoomOffset(context: PlanContext, offK: number): PlanContext {
  const { build, library, first, horizon, model, hardener } = context;
  const room = roomOf(build, library, first, horizon, offK);
  const clock = keptClock(model, room.mould, { side: 'late', minimumC: hardener.minimumC });
  return { ...context, room, profile: room.mould, clock };
}

/** A bare day is its first minute, or `minuteOfDay` of it; where the clocks skip that, what comes next. */
function minuteOf(local: string, zone: string, minuteOfDay = 0): Minute {
  if (local.length === 10) return dayTimeToMinute(dayNumber(local), minuteOfDay, zone);
  const instant = localToMinute(local, zone);
  if (!instant) throw new RangeError(`${local} does not exist in ${zone}`);
  return instant.minute;
}
