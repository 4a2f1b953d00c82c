/** The wet work of a cure by the number of hands on it: its batches, and the minutes that they take. */
import type { HardenerRow } from '../document/schema.ts';
import { layupStageId } from '../document/ids.ts';
import { practiceIf } from '../document/library.ts';
import { settleBatches } from '../cure/batches.ts';
import { batchCurve, mixedC, potLifeOf } from '../cure/pot.ts';
import type { Batch } from '../cure/types.ts';
import { crewMinutes } from '../part/labour.ts';
import { isInfused, type Layup } from '../part/types.ts';
import { stretchesOf } from '../route/routes.ts';
import type { RouteCure } from '../route/types.ts';
import { chemistryKey, chemistryOf, type Chemistry } from './chemistry.ts';
import type { PlanContext } from './context.ts';
import type { SettledCure } from './cures.ts';
import { infusionMinutes } from './infusionFill.ts';

/** Wet work for a number of hands, by layup id. */
export type WetWork = Pick<SettledCure, 'batches' | 'wetMinutes' | 'hands'>;

/** Batches and wet work of a cure by the number of hands; each is worked out once. */
export function wetWorkOf(context: PlanContext, cure: RouteCure): SettledCure['inHands'] {
  const curedWith = cure.layups.map(({ id }) => id);
  const known = new Map<string, WetWork>();
  const drawn = isInfused(cure.layups) ? drawnIn(context, cure) : null;
  return (people) => {
    const each = cure.layups.map((layup) => (drawn ? 1 : handsOn(layup, people)));
    const key = each.join();
    const same = known.get(key);
    if (same) return same;
    const batches: Record<string, readonly Batch[]> = {};
    const wetMinutes: Record<string, number> = {};
    const hands: Record<string, number> = {};
    cure.layups.forEach((layup, i) => {
      const handled = drawn?.[layup.id] ?? byHand(context, layup);
      const own = batchesFor(context)(layup, curedWith, each[i]!, handled);
      batches[layup.id] = own;
      hands[layup.id] = each[i]!;
      wetMinutes[layup.id] =
        wetPersonMinutes(context, handled, own.length) -
        (!drawn && laidWith(cure, layup) ? layup.setupMinutes : 0);
    });
    const work = { batches, wetMinutes, hands };
    known.set(key, work);
    return work;
  };
}

/** Cures with the batches of the hands that the plan has on each stretch. */
export function inPlannedHands(
  cures: readonly SettledCure[],
  handsAt: (layup: Layup) => number | null,
): SettledCure[] {
  return cures.map((settled) => {
    const works = stretchesOf(settled.cure).map((layups): WetWork => {
      const people = handsAt(layups[0]!);
      const work = people === null ? settled : settled.inHands(people);
      const own = <T>(of: Readonly<Record<string, T>>): Record<string, T> =>
        Object.fromEntries(layups.map(({ id }) => [id, of[id]!]));
      return {
        batches: own(work.batches),
        wetMinutes: own(work.wetMinutes),
        hands: own(work.hands),
      };
    });
    const isSame = works.every(({ hands }) =>
      Object.entries(hands).every(([id, people]) => people === settled.hands[id]),
    );
    if (isSame) return settled;
    return {
      ...settled,
      batches: Object.assign({}, ...works.map(({ batches }) => batches)),
      wetMinutes: Object.assign({}, ...works.map(({ wetMinutes }) => wetMinutes)),
      hands: Object.assign({}, ...works.map(({ hands }) => hands)),
    };
  });
}

/** Wet work of a layup without the mixing of its later batches, what is mixed for it, and the most at once. */
interface Handled {
  readonly minutes: number;
  readonly mixedG: number;
  readonly mostG: number;
  /** Batches whose mixing takes time of its own: every one, or the first alone. */
  readonly mixing: 'each' | 'first';
}

/**
 * One front fills what lies dry under one bag: all of it counts for its first layup. The first bucket is mixed
 * before the feed opens, the next ones while it runs.
 */
function drawnIn(context: PlanContext, { layups }: RouteCure): Record<string, Handled> {
  const { practice, library } = context;
  const ids = layups.map(({ id }) => id);
  const minutes = infusionMinutes(context, chemistryOf(context, ids).model);
  const mixedG = layups.reduce((sum, layup) => sum + layup.mixedG, 0);
  const mostG = practiceIf(library, 'infusion-bucket-max-g') ?? practice('batch-max-g');
  const nothing: Handled = { minutes: 0, mixedG: 0, mostG, mixing: 'first' };
  return Object.fromEntries(
    ids.map((id, i) => [id, i === 0 ? { ...nothing, minutes, mixedG } : nothing]),
  );
}

type BatchesFor = (
  layup: Layup,
  curedWith: readonly string[],
  hands: number,
  handled: Handled,
) => readonly Batch[];

/** A helper mixes all batches but the first, before which nothing is laid, and hands over what is laid. */
function byHand({ build, practice }: PlanContext, { id, personMinutes, mixedG }: Layup): Handled {
  const isHelped = build.helperFor.includes(id);
  return {
    minutes: isHelped ? personMinutes * (1 - practice('helper-takes-share')) : personMinutes,
    mixedG,
    mixing: isHelped ? 'first' : 'each',
    mostG: practice('batch-max-g'),
  };
}

const batchesByContext = new WeakMap<PlanContext, BatchesFor>();

/** Batches of a layup, which all routes of one build share; each is worked out once. */
function batchesFor(context: PlanContext): BatchesFor {
  const same = batchesByContext.get(context);
  if (same) return same;
  const settled = new Map<string, readonly Batch[]>();
  const cups = new Map<string, Cups>();
  const batches: BatchesFor = (layup, curedWith, hands, handled) => {
    const chemistry = chemistryKey(context.build, curedWith);
    const key = `${layup.id} ${chemistry} ${hands} ${handled.minutes} ${handled.mixedG} ${handled.mixing}`;
    const cup = cups.get(chemistry) ?? cupsOf(context, chemistryOf(context, curedWith));
    cups.set(chemistry, cup);
    const own = settled.get(key) ?? batchesOf(context, { hands, handled }, cup);
    settled.set(key, own);
    return own;
  };
  batchesByContext.set(context, batches);
  return batches;
}

/** What a mass of one hardener does in its cup, in the shop's room. */
interface Cups {
  readonly hardener: HardenerRow;
  readonly potLifeMinutesOf: (massG: number) => number;
  readonly peakCOf: (massG: number) => number;
}

function cupsOf({ practice, build }: PlanContext, { hardener, model }: Chemistry): Cups {
  const roomC = build.room.temperatureC.day;
  const resinC = mixedC(roomC, practice);
  const potLife = potLifeOf(model, practice);
  const peaks = new Map<number, number>();
  return {
    hardener,
    potLifeMinutesOf: (massG) => potLife(massG, roomC, resinC),
    peakCOf: (massG) => {
      const peakC = peaks.get(massG) ?? batchCurve(model, { massG, roomC, resinC }, practice).peakC;
      peaks.set(massG, peakC);
      return peakC;
    },
  };
}

const batchesOf = (
  context: PlanContext,
  { hands, handled }: { readonly hands: number; readonly handled: Handled },
  cups: Cups,
): Batch[] =>
  settleBatches({
    ...cups,
    mixedG: handled.mixedG,
    mostG: handled.mostG,
    leastG: context.build.resin.leastBatchG ?? context.practice('batch-min-g'),
    wetMinutesIn: (count) =>
      Math.ceil(crewMinutes(wetPersonMinutes(context, handled, count), hands, context.library)),
    practice: context.practice,
  });

/** Person-minutes of a layup's wet work, mixing included. */
const wetPersonMinutes = (
  { practice }: PlanContext,
  { minutes, mixing }: Handled,
  batches: number,
): number => {
  const mixed = mixing === 'each' ? batches : Math.min(1, batches);
  return minutes + mixed * practice('mix-minutes-per-batch');
};

/** Plies that go down wet with a layup share its bag and bench: set up once. */
const laidWith = ({ layups, joints }: RouteCure, layup: Layup): boolean => {
  const i = layups.indexOf(layup);
  return i > 0 && joints[i - 1] === 'one-bag' && layup.partOf === layups[i - 1]!.id;
};

/** Those of so many people that can be on a layup at once. */
const handsOn = (layup: Layup, people: number): number =>
  Math.max(1, Math.min(layup.peopleMax, people));

/** Minutes from first mix to sealed bag of the layups that share one stretch. */
export const wetMinutesOf = (
  { library }: PlanContext,
  layups: readonly Layup[],
  { wetMinutes, hands }: Pick<WetWork, 'wetMinutes' | 'hands'>,
): number => {
  const people = Math.max(...layups.map(({ id }) => hands[id]!));
  const together = layups.reduce((sum, layup) => sum + wetMinutes[layup.id]!, 0);
  return Math.ceil(crewMinutes(together, people, library));
};

/** Person-minutes of every stretch of wet work, by its stage. */
export const personMinutesByStage = (cures: readonly SettledCure[]): Record<string, number> =>
  Object.fromEntries(
    cures.flatMap(({ cure, wetMinutes }) =>
      stretchesOf(cure).map((layups) => [
        layupStageId('layup', layups[0]!.id),
        layups.reduce((sum, { id }) => sum + wetMinutes[id]!, 0),
      ]),
    ),
  );
