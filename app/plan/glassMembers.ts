/** Everything on a part that heat can soften: each cure with its gluelines, and the edge filler. */
import type { OutsideParty } from '../document/schema.ts';
import { neededTgC, tgFromCureC, type PostCureStep } from '../cure/tg.ts';
import { tgAfter } from '../cure/post-cure.ts';
import type { LayupPlace } from '../part/types.ts';
import { partVisits } from '../schedule/network/outside.ts';
import { MINUTES_PER_DAY, MINUTES_PER_HOUR, type Minute } from '../time/instant.ts';
import type { PlanContext } from './context.ts';
import type { SettledCure } from './cures.ts';

/** The hottest that something on the part goes through once it is built. */
export type HeatSource =
  | {
      readonly kind: 'bake';
      readonly party: string;
      readonly name: string;
      readonly temperatureC: number;
    }
  | { readonly kind: 'service'; readonly temperatureC: number };

/** One thing on the part, before its Tg is worked out. */
export interface GlassMember {
  /** Id of the cure, or `edge-filler`. */
  readonly id: string;
  readonly name: string;
  readonly what: 'cure' | 'edge-filler';
  /** What it stands by its own row, C; null: it goes with its resin. */
  readonly standsC: number | null;
  /** Where it is made. `late`: on the edge between two visits, after any post-cure. */
  readonly made: 'chain' | 'after-trim' | 'late';
  /** The cure itself, or the one that the filler lies under. */
  readonly settled: SettledCure;
  /** Hottest that it will see. */
  readonly hottest: HeatSource;
  /** Hottest bake among it, C; the post-cure is at or above it. */
  readonly bakeC: number | null;
  readonly neededC: number;
}

/** What bakes and service there are after a visit; all of them for null. */
function heatAfter(
  { build }: PlanContext,
  visit: string | null,
): { hottest: HeatSource; bakeC: number | null } {
  const visits = partVisits(build);
  const later = visits.slice(visit === null ? 0 : visits.findIndex(({ id }) => id === visit) + 1);
  const hottest = later
    .filter((party): party is OutsideParty & { bakeC: number } => party.bakeC !== null)
    .reduce<(OutsideParty & { bakeC: number }) | null>(
      (most, party) => (most === null || party.bakeC > most.bakeC ? party : most),
      null,
    );
  const { serviceMaxC } = build.part;
  const service: HeatSource = { kind: 'service', temperatureC: serviceMaxC };
  if (!hottest) return { hottest: service, bakeC: null };
  const { id, name, bakeC } = hottest;
  return bakeC >= serviceMaxC
    ? { hottest: { kind: 'bake', party: id, name, temperatureC: bakeC }, bakeC }
    : { hottest: service, bakeC };
}

/**
 * What the edge filler stands by its own row, C; null where no row says so: it is thickened resin and goes
 * with the strips over it. The fairing filler is another thing, laid after any heat.
 */
const edgeFillerStandsC = ({ library }: PlanContext): number | null =>
  library.consumables.find((row) => row.use === 'edge-filler')?.standsC ?? null;

/** Inserts lie in the core, and see the heat of the chain; a patch has missed any that came on the mould. */
const MADE: Readonly<Record<LayupPlace, 'chain' | 'after-trim'>> = {
  beside: 'chain',
  chain: 'chain',
  'after-demould': 'after-trim',
  'after-trim': 'after-trim',
};

/** Every cure of a route, in its order, and the filler of a closed edge. */
export function glassMembers(context: PlanContext, cures: readonly SettledCure[]): GlassMember[] {
  const { build, practice } = context;
  return cures.flatMap((settled): GlassMember[] => {
    const { id, name, place, layups } = settled.cure;
    const closes = layups[0]!.id === 'closeout';
    const late = closes && build.closeoutAfter !== null;
    const heat = heatAfter(context, late ? build.closeoutAfter : null);
    const shared = {
      made: late ? ('late' as const) : MADE[place],
      settled,
      ...heat,
      neededC: neededTgC(heat.bakeC, build.part.serviceMaxC, practice),
    };
    const cure: GlassMember = { id, name, what: 'cure', ...shared, standsC: null };
    if (!closes) return [cure];
    const standsC = edgeFillerStandsC(context);
    const filler = { id: 'edge-filler', name: 'Edge filler', what: 'edge-filler' } as const;
    return [cure, { ...filler, ...shared, standsC }];
  });
}

/** What a member is worth in the room, and where its post-cure begins. */
export interface RoomGlass {
  /** Without a post-cure, by its own heat and the room, C; null: not known. */
  readonly withoutC: number | null;
  /** Dose that it has had when a post-cure may begin, equivalent hours. */
  readonly doseHours: number;
  /** Tg at that moment, C; null: not known. */
  readonly beginsTgC: number | null;
  /** It has slowed for stiffness by then: more days in this room bring little. */
  readonly slowed: boolean;
}

/** The earliest heat of a post-cure: the bag is off, and gel is well past. No plan begins it sooner. */
function heatMayBegin({ practice }: PlanContext, { clockAt }: SettledCure, sealed: Minute): Minute {
  const clock = clockAt(sealed);
  const gel = clock.reached(sealed, 'gel') ?? sealed;
  const rested = gel + practice('postcure-after-gel-hours') * MINUTES_PER_HOUR;
  return Math.max(rested, clock.reached(sealed, 'debag') ?? rested);
}

/**
 * Where a member ends without a post-cure: by the resin's own curve where it has one, by the rule of
 * thumb otherwise; a filler with a figure of its own by that, hotter where heat went over its tape.
 * @param sealed when its bag is down
 */
export function roomGlass(context: PlanContext, member: GlassMember, sealed: Minute): RoomGlass {
  const { build, practice, horizon } = context;
  const { settled } = member;
  const { hardener, heat } = settled;
  const clock = settled.clockAt(sealed);
  const begins = clock.stateAt(sealed, Math.min(heatMayBegin(context, settled, sealed), horizon));
  const { doseHours, tgC: beginsTgC } = begins;
  if (member.standsC !== null) {
    const heatedC = heat ? tgFromCureC(heat.hottestC, null, practice) : -Infinity;
    const withoutC = Math.max(member.standsC, heatedC);
    return { withoutC, doseHours, beginsTgC: null, slowed: false };
  }
  const days = sealed + practice('room-cure-days') * MINUTES_PER_DAY;
  const until = Math.min(Math.max(days, clock.reached(sealed, 'demould') ?? days), horizon);
  const { day, night } = build.room.temperatureC;
  const hottestC = Math.max(day, night, heat?.hottestC ?? day);
  const { tgC, slowed } = clock.stateAt(sealed, until);
  const inRoomC = tgC ?? tgFromCureC(hottestC, hardener.tgFullC, practice);
  // What heat brings hangs on a Tg that the sheet does not give.
  const withoutC = heat && hardener.tgFullC === null ? null : inRoomC;
  return { withoutC, doseHours, beginsTgC, slowed };
}

/** Tg of a member that goes through the steps of post-cures, C; null: not known. */
export function heatedGlass(
  { practice }: PlanContext,
  { standsC, settled: { model, hardener } }: GlassMember,
  { withoutC, doseHours }: RoomGlass,
  steps: readonly PostCureStep[],
): number | null {
  if (withoutC === null || steps.length === 0) return withoutC;
  // What heat brings hangs on a Tg that the sheet does not give.
  if (standsC === null && hardener.tgFullC === null) return withoutC;
  const hottestC = Math.max(...steps.map(({ toC }) => toC));
  const after =
    standsC === null && model.kinetics
      ? tgAfter(model.kinetics, doseHours, steps)
      : tgFromCureC(hottestC, standsC === null ? hardener.tgFullC : null, practice);
  return Math.max(withoutC, after);
}
