/** Settles the chemistry of every cure of a route: its clock, its batches, its wet work. */
import { memoByAll, memoByObject } from '../document/memo.ts';
import type { HardenerRow } from '../document/schema.ts';
import { bagDueRange, type BagDueRange } from '../cure/bag-due.ts';
import { cureClock, type StatefulClock } from '../cure/clock.ts';
import { keptClock } from '../cure/kept-clock.ts';
import { heatedClock, programmeFrom, programmeMinutes, sealedClock } from '../cure/programme.ts';
import { withMeasured } from '../cure/profile.ts';
import { clockRate, type Side } from '../cure/rate.ts';
import type { Batch, CureClock, CureModel, TemperatureProfile } from '../cure/types.ts';
import { dryWork } from '../part/layDry.ts';
import { isInfused } from '../part/types.ts';
import { stretchesOf } from '../route/routes.ts';
import type { Route, RouteCure } from '../route/types.ts';
import type { CureSetup } from '../schedule/network/input.ts';
import type { Minute } from '../time/instant.ts';
import {
  chemistryOf,
  heatLimitsOf,
  heatOf,
  withSpringBack,
  type Chemistry,
  type CureHeat,
  type HeatLimits,
} from './chemistry.ts';
import type { PlanContext } from './context.ts';
import { wetMinutesOf, wetWorkOf, type WetWork } from './wetWork.ts';

/**
 * A cure's chemistry with its batches, in the order of mixing. `clock` and what is not named otherwise
 * is the late side: strength, and the latest gel. What hurts when it comes early is asked of `early`.
 */
export interface SettledCure extends CureSetup {
  readonly hardener: HardenerRow;
  readonly model: CureModel;
  readonly heat: CureHeat | null;
  /** What tent, mould and cores in its bag stand. */
  readonly heatLimits: HeatLimits;
  readonly early: CureClock;
  /** The film in the room, before its bag is sealed, on its late and on its early side. */
  readonly laid: StatefulClock;
  readonly laidEarly: StatefulClock;
  /** From the sealed bag on, gel too: that of the youngest resin. */
  readonly fromSealed: CureClock;
  /** What part and mould go through when the bag is sealed at a minute. */
  readonly profileAt: (sealed: Minute) => TemperatureProfile;
  /** The clock over that. */
  readonly clockAt: (sealed: Minute) => StatefulClock;
  /** Batches of each layup, by layup id: for the hands that a plan has there, the most before there is one. */
  readonly batches: Readonly<Record<string, readonly Batch[]>>;
  /** Hands that spread them, by layup id. */
  readonly hands: Readonly<Record<string, number>>;
  readonly inHands: (people: number) => WetWork;
  /**
   * The room never takes it to where it must go: it is dated as if part and mould were held at least so warm, C;
   * null: by the room as it is.
   */
  readonly asIfHeldC: number | null;
}

/**
 * Hardener, clocks, batches and wet work of every cure of a route, in the order of its cures.
 * @param mayHold a cure that the room never ends is dated as if it were held warmer
 * @throws MissingRow when the library lacks a row that a cure needs
 */
export function settleCures(context: PlanContext, route: Route, mayHold = true): SettledCure[] {
  return route.cures.map((cure, at) => {
    const heatLimits = heatLimitsOf(context, route.cures, at);
    return { cure, heatLimits, ...keptCure(context, cure, mayHold) };
  });
}

type Settled = ReturnType<typeof settle>;
const settledByContext = new WeakMap<PlanContext, Map<string, Settled>>();

/** What all routes with the same cure share: its clocks and its wet work, with all that was asked of them. */
function keptCure(context: PlanContext, cure: RouteCure, mayHold: boolean): Settled {
  const known = settledByContext.get(context) ?? new Map<string, Settled>();
  settledByContext.set(context, known);
  const key = `${cure.place} ${cure.id} ${mayHold}`;
  const settled = known.get(key) ?? settle(context, cure, mayHold);
  known.set(key, settled);
  return settled;
}

function settle(context: PlanContext, cure: RouteCure, mayHold: boolean) {
  const chemistry = chemistryOf(
    context,
    cure.layups.map(({ id }) => id),
  );
  const inHands = wetWorkOf(context, cure);
  const most = inHands(context.build.crew.length);
  const clocks = neverStalled(context, cure, chemistry, most, mayHold);
  const { build, part, library } = context;
  const dry = isInfused(cure.layups) ? dryWork(part, cure.layups, build, library) : null;
  return { dry, ...most, inHands, hardener: chemistry.hardener, ...clocks };
}

/** Core that is bent over a curve springs back: its bag stays on longer. */
function springs(context: PlanContext, cure: RouteCure): boolean {
  const curved = context.build.part.zones.some((zone) => zone.core && zone.shape !== 'flat');
  return curved && cure.layups.some((layup) => layup.hasCore);
}

/** What a cure must reach before its part goes on. */
const MUST_REACH = ['debag', 'demould', 'sand'] as const;
/** Kelvin between two tries of a warmer part, and how far it is tried. */
const STEP_K = 3;
const MOST_K = 30;

/** The clocks of a cure in its room, or held as warm as it takes where it would stall there. */
function neverStalled(
  context: PlanContext,
  cure: RouteCure,
  chemistry: Chemistry,
  work: WetWork,
  mayHold: boolean,
): ReturnType<typeof clocksOf> & Pick<SettledCure, 'asIfHeldC'> {
  const { minimumC } = chemistry.hardener;
  const base = cure.place === 'chain' ? context.room.mould : context.room.air;
  const own = clocksOf(context, cure, chemistry, work, base);
  const ends = ({ model, clock }: typeof own): boolean =>
    MUST_REACH.every(
      (milestone) =>
        model.doseHours[milestone] === null || clock.reached(context.from, milestone) !== null,
    );
  if (!mayHold || ends(own)) return { ...own, asIfHeldC: null };
  for (let heldC = minimumC; heldC <= minimumC + MOST_K; heldC += STEP_K) {
    const held = clocksOf(context, cure, chemistry, work, heldAt(base, heldC));
    if (ends(held)) return { ...held, asIfHeldC: heldC };
  }
  return { ...own, asIfHeldC: null };
}

const heldProfiles = memoByAll<TemperatureProfile>();

/** A room that is nowhere colder than so much. */
const heldAt = (base: TemperatureProfile, heldC: number): TemperatureProfile =>
  heldProfiles([base], `${heldC}`, () =>
    base.map((one) => ({ ...one, temperatureC: Math.max(one.temperatureC, heldC) })),
  );

/** The clocks of a cure: in the mould or, on the trimmed part, in the room's air; with its heat. */
function clocksOf(
  context: PlanContext,
  cure: RouteCure,
  { hardener, model: plain }: Chemistry,
  work: WetWork,
  base: TemperatureProfile,
) {
  const { practice } = context;
  const { minimumC } = hardener;
  const own = springs(context, cure);
  const model = own ? withSpringBack(plain, practice('core-springs-factor')) : plain;
  const clockOf = (side: Side): StatefulClock => keptClock(model, base, { side, minimumC });
  const [laid, laidEarly] = [clockOf('late'), clockOf('early')];
  const heat = heatOf(context, cure);
  const inTheRoom = dueRanges([model, base, context.library], `${minimumC}`, () =>
    dueRangeOf(model, base, minimumC, practice),
  );
  if (!heat) {
    const clock: CureClock = laid;
    const early: CureClock = laidEarly;
    const same = { profileAt: () => base, clockAt: () => laid };
    return {
      model,
      heat,
      heatMinutes: null,
      laid,
      laidEarly,
      clock,
      early,
      fromSealed: clock,
      bagDueRange: inTheRoom,
      ...same,
    };
  }
  const { programme } = heat;
  const wet = wetMinutesOf(context, stretchesOf(cure).at(-1)!, work);
  const heatedOn = (side: Side): CureClock => {
    const perHour = clockRate(model, side, 'cure', minimumC)(context.build.room.temperatureC.day);
    return heatedClock({ ...heated, side }, wet, (wet / 60) * perHour);
  };
  const heated = { model, room: base, programme, minimumC };
  const profileAt = (sealed: Minute) => withMeasured(base, programmeFrom(programme, sealed));
  return {
    model,
    heat,
    heatMinutes: programmeMinutes(programme),
    laid,
    laidEarly,
    clock: heatedOn('late'),
    early: heatedOn('early'),
    // Heat over the bag can only bring a gel forward.
    bagDueRange: atOnce(inTheRoom),
    fromSealed: sealedClock({ ...heated, side: 'late' }) as CureClock,
    profileAt,
    clockAt: (sealed: Minute) => cureClock(model, profileAt(sealed), { side: 'late', minimumC }),
  };
}

const atOnce = memoByObject((range: BagDueRange): BagDueRange => ({ ...range, least: 0 }));

/** How soon bags are due in a room without heat. */
const dueRanges = memoByAll<BagDueRange>();

/** A film at one temperature is followed for so long, min. */
const FOLLOWED_MINUTES = 60 * 1440;

/** How soon a bag is due at the temperatures that a room comes to. */
function dueRangeOf(
  model: CureModel,
  room: TemperatureProfile,
  minimumC: number,
  practice: PlanContext['practice'],
): BagDueRange {
  const at = (temperatureC: number) =>
    cureClock(model, [{ start: 0, end: FOLLOWED_MINUTES, temperatureC }], {
      side: 'early',
      minimumC,
    });
  return bagDueRange(room, at, practice);
}
