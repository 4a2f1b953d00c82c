/** The glass transition that everything on a part needs, has and gets: one answer for plan and paper. */
import type { PostCurePlan } from '../cure/tg.ts';
import { mouldGrowthAt, type MouldGrowth } from '../part/growth.ts';
import { finishingRounds } from '../part/labour.ts';
import type { Minute } from '../time/instant.ts';
import { dayTimeToMinute, localDayNumber } from '../time/zone.ts';
import type { PlanContext } from './context.ts';
import type { SettledCure } from './cures.ts';
import {
  glassMembers,
  heatedGlass,
  roomGlass,
  type GlassMember,
  type HeatSource,
} from './glassMembers.ts';
import {
  choosePostCure,
  type RejectionReason,
  type PostCureAnswer,
  type PostCureChoice,
  type PostCureRun,
} from './postCure.ts';

/** One thing on the part with its Tg. */
export interface TgMember extends Omit<GlassMember, 'settled'> {
  /** Without a post-cure, C; null: not known. */
  readonly withoutC: number | null;
  /** As it will be, with the post-cures of the plan, C; null: not known. */
  readonly withC: number | null;
  /** Known to stand less than it needs. */
  readonly short: boolean;
  /** It has slowed for stiffness in the room: more days bring little. */
  readonly slowed: boolean;
}

/** A difference of Tg that cannot be measured, K. */
const NO_DIFFERENCE_K = 0.5;

const isShort = (withC: number | null, neededC: number): boolean =>
  withC !== null && withC < neededC - NO_DIFFERENCE_K;

/** The post-cures that something goes through. */
export const heatedBy = (
  choice: PostCureChoice | null,
  member: Pick<GlassMember, 'made'>,
): readonly PostCureRun[] => (choice?.runs ?? []).filter(({ place }) => heats(place, member));

/** What is filled, primed or coated in the shop after any post-cure. */
export interface Coat {
  readonly name: string;
  /** Hottest that it stands, C; null: not known. */
  readonly standsC: number | null;
}

/** Heat under a bag in the mould, and how far the mould grows in it. */
export interface HeatInMould extends MouldGrowth {
  readonly cure: SettledCure['cure'];
  readonly heldC: number;
}

export interface TgNeed {
  /** Most that anything on the part needs, C, and by what. */
  readonly neededC: number;
  readonly by: HeatSource;
  /** Hottest bake that the part will see, C. */
  readonly bakeC: number | null;
  /** Weakest without a post-cure, C. */
  readonly roomC: number;
  /** Weakest first as they will be; what is not known last. */
  readonly members: readonly TgMember[];
  /** The heat that would bring what is needed; null where none is needed. */
  readonly postCure: PostCurePlan | null;
  /** The post-cures that are in the plan; null: none. */
  readonly choice: PostCureChoice | null;
  /** What keeps a post-cure that is needed out of the plan. */
  readonly blocked: RejectionReason | null;
  readonly coats: readonly Coat[];
  /** The hottest heat under a bag in the mould; null: none, or nothing in the part that could lock. */
  readonly inMould: HeatInMould | null;
}

const known = new WeakMap<PlanContext, Map<string, PostCureAnswer>>();

/** Noon of the first day, so that the hour at which is asked changes no post-cure. */
const noonOf = ({ build: { zone }, from }: PlanContext): Minute =>
  dayTimeToMinute(localDayNumber(from, zone), 12 * 60, zone);

/**
 * The post-cures of a route, by bags sealed at noon of the first possible day: settled before anything is
 * scheduled, as the stages depend on it.
 */
export function postCureOf(context: PlanContext, cures: readonly SettledCure[]): PostCureAnswer {
  const answers = known.get(context) ?? new Map<string, PostCureAnswer>();
  known.set(context, answers);
  const key = cures
    .map(({ cure, hardener, heat }) => {
      const springs = cure.layups.some((layup) => layup.hasCore);
      return `${cure.place} ${cure.layups[0]!.id === 'closeout'} ${springs} ${hardener.id} ${JSON.stringify(heat?.steps)}`;
    })
    .filter((one, i, all) => all.indexOf(one) === i)
    .sort()
    .join(' + ');
  let answer = answers.get(key);
  if (!answer) {
    const measured = glassMembers(context, cures).map((member) => ({
      member,
      room: roomGlass(context, member, noonOf(context)),
    }));
    answers.set(key, (answer = choosePostCure(context, measured)));
  }
  return answer;
}

/**
 * What the part of a route needs and gets, everything on it counted.
 * @param sealedAt when the bag of a cure is down; null where it has no place in time
 */
export function tgNeedOf(
  context: PlanContext,
  cures: readonly SettledCure[],
  sealedAt: (cure: SettledCure) => Minute | null = () => null,
): TgNeed {
  const { choice, wanted, blocked } = postCureOf(context, cures);
  const members = glassMembers(context, cures).map((member): TgMember => {
    const room = roomGlass(context, member, sealedAt(member.settled) ?? noonOf(context));
    const steps = heatedBy(choice, member).flatMap(({ plan }) => plan.steps);
    const withC = heatedGlass(context, member, room, steps);
    const { settled: _settled, ...told } = member;
    const { withoutC, slowed } = room;
    return { ...told, withoutC, withC, slowed, short: isShort(withC, member.neededC) };
  });
  const weakestFirst = members.toSorted((a, b) => (a.withC ?? Infinity) - (b.withC ?? Infinity));
  const needs = glassNeeds(context, members);
  const roomC = Math.min(...members.map(({ withoutC }) => withoutC ?? Infinity));
  return {
    ...needs,
    roomC,
    members: weakestFirst,
    postCure: wanted,
    choice,
    blocked,
    coats: coatsOf(context),
    inMould: heatInMould(context, cures),
  };
}

const coatsOf = ({ build, library }: PlanContext): Coat[] =>
  finishingRounds(build, library)
    .filter(({ row }) => row.massKgM2 > 0)
    .map(({ row: { name, standsC } }) => ({ name, standsC }));

/** A post-cure that would lock the part is never planned on the mould: programmes are what is left. */
function heatInMould(
  { build, library }: PlanContext,
  cures: readonly SettledCure[],
): HeatInMould | null {
  const [hottest] = cures
    .flatMap(({ cure, heat }) =>
      cure.place === 'chain' && heat ? [{ cure, heldC: heat.hottestC }] : [],
    )
    .toSorted((a, b) => b.heldC - a.heldC);
  const growth = hottest ? mouldGrowthAt(build, library, hottest.heldC) : null;
  return hottest && growth ? { ...hottest, ...growth } : null;
}

/** On the mould nothing but the chain is there yet; on supports all but an edge closed later. */
const heats = (place: 'mould' | 'supports', { made }: Pick<GlassMember, 'made'>): boolean =>
  made === 'chain' || (place === 'supports' && made === 'after-trim');

function glassNeeds(context: PlanContext, members: readonly TgMember[]) {
  const most = members.reduce<TgMember | null>(
    (hottest, one) => (hottest === null || one.neededC > hottest.neededC ? one : hottest),
    null,
  );
  const { serviceMaxC } = context.build.part;
  const none = { kind: 'service', temperatureC: serviceMaxC } as const;
  return {
    neededC: most?.neededC ?? serviceMaxC + context.practice('tg-margin-c'),
    by: most?.hottest ?? none,
    bakeC: most?.bakeC ?? null,
  };
}
