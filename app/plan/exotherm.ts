/** Reaction heat of a plan: what a batch does in its cup, what a bag does to core and mould. */
import { mouldOf } from '../document/library.ts';
import { hotCup, hotLayers } from '../cure/exotherm.ts';
import { mixedC } from '../cure/pot.ts';
import { stackTemperatures, type StackPart } from '../cure/stack.ts';
import { stackOf, type ZoneStack } from '../part/stack.ts';
import { laminateOf } from '../part/sections.ts';
import { LAYUP_IDS, type Layup, type LayupId } from '../part/types.ts';
import { stretchesOf } from '../route/routes.ts';
import type { Minute } from '../time/instant.ts';
import type { PlanContext } from './context.ts';
import type { SettledCure } from './cures.ts';
import { slowCup } from './slowCups.ts';
import { smallBatches, type SmallBatches } from './smallBatches.ts';
import { wetMinutesOf } from './wetWork.ts';
import type { CureTimes } from './cureTimes.ts';

/** One thing that gets too hot in a cure. */
export type HeatReport = { readonly cureName: string; readonly layupId: string } & (
  | {
      readonly kind: 'cup';
      readonly massG: number;
      readonly peakC: number;
      readonly runsAway: boolean;
      readonly potLifeMinutes: number | null;
      readonly largestG: number;
      readonly spreadMinutes: number;
      /** Smaller ones that would be spread in time; null: none are. */
      readonly smaller: SmallBatches | null;
    }
  | {
      readonly kind: 'stack';
      readonly zoneName: string;
      readonly layer: string;
      readonly peakC: number;
      readonly limitC: number;
    }
);

/**
 * The plan's worst cup that cannot be spread in its share of pot life; at most one. Batches are split as far
 * as the shop does without being asked.
 */
export function cupReports(context: PlanContext, cures: readonly SettledCure[]): HeatReport[] {
  const slow = cures.flatMap((settled) =>
    !settled.model.kinetics || !settled.model.pot ? [] : slowCups(context, settled),
  );
  const [worst] = slow.toSorted((a, b) => b.over - a.over);
  if (!worst) return [];
  const { settled, layup, batch, spreadMinutes } = worst;
  const { practice, build } = context;
  const roomC = build.room.temperatureC.day;
  const input = { massG: batch.totalG, roomC, resinC: mixedC(roomC, practice) };
  const wanted = spreadMinutes / practice('spread-share-of-pot-life');
  const cup = hotCup(settled.model, input, wanted, practice);
  if (!cup) return [];
  const smaller = smallBatches(context, settled, layup);
  return [{ ...named(settled), kind: 'cup', spreadMinutes, ...cup, smaller }];
}

const stacksByContext = new WeakMap<PlanContext, Map<string, readonly HeatReport[]>>();

/**
 * Layers of a route's cures that reaction heat takes past what they stand, in the shop's first hours.
 * Worked out once for each cure of a build: routes share most of them.
 */
export function stackReports(context: PlanContext, cures: readonly SettledCure[]): HeatReport[] {
  const known = stacksByContext.get(context) ?? new Map<string, readonly HeatReport[]>();
  stacksByContext.set(context, known);
  const start = context.shopHours.find((hours) => hours.end > context.from)?.start ?? context.from;
  return cures.flatMap((settled) => {
    if (!settled.model.kinetics) return [];
    const own =
      known.get(settled.cure.id) ??
      hotStacks(context, settled, Math.max(start, context.from)).map((stack) => ({
        ...named(settled),
        ...stack,
      }));
    known.set(settled.cure.id, own);
    return own;
  });
}

const named = ({ cure }: SettledCure) => ({ cureName: cure.name, layupId: cure.layups[0]!.id });

/** Layups of a cure whose cups are not spread in time, and how far they are over. */
const slowCups = (context: PlanContext, settled: SettledCure) =>
  settled.cure.layups.flatMap((layup) => {
    const slow = slowCup(context, layup, settled);
    return slow
      ? [{ settled, layup, ...slow, over: slow.spreadMinutes / slow.potLifeMinutes }]
      : [];
  });

/** Layers of the thickest zone of a cure that its heat takes past their limit. */
function hotStacks(context: PlanContext, settled: SettledCure, start: Minute) {
  const { cure } = settled;
  const thickest = thickestOf(zoneStacksOf(context), cure);
  if (!thickest || thickest.wetMm < context.practice('stack-heat-from-mm')) return [];
  const wet = wetMinutesOf(context, stretchesOf(cure).at(-1)!, settled);
  const zoneName = thickest.stack.zone.name;
  return hotLayers(temperaturesOf(context, settled, thickest, start, start + wet)).map((layer) => ({
    kind: 'stack' as const,
    zoneName,
    ...layer,
  }));
}

/** Hottest that each cure in the mould gets in its thickest zone, C, by cure id. */
export function stackPeaks(
  context: PlanContext,
  times: readonly CureTimes[],
): ReadonlyMap<string, number> {
  const stacks = zoneStacksOf(context);
  return new Map(
    times.flatMap(({ cure: settled, bagMix, sealed }): [string, number][] => {
      const thickest = thickestOf(stacks, settled.cure);
      if (!settled.model.kinetics || !thickest || bagMix === null || sealed === null) return [];
      const { peakC } = temperaturesOf(context, settled, thickest, bagMix, sealed);
      return [[settled.cure.id, peakC]];
    }),
  );
}

export const zoneStacksOf = ({
  build,
  library,
  resin,
}: Pick<PlanContext, 'build' | 'library' | 'resin'>): ZoneStack[] =>
  build.part.zones.map((zone) => stackOf(zone, library, resin.curedDensityKgM3));

export interface WetStack {
  readonly stack: ZoneStack;
  readonly wet: ReadonlySet<LayupId>;
  readonly wetMm: number;
}

/** The zone with the most wet plies in a cure; none for a cure off the mould or without plies. */
export function thickestOf(
  stacks: readonly ZoneStack[],
  cure: { readonly place: Layup['place']; readonly layups: readonly { readonly id: LayupId }[] },
): WetStack | undefined {
  if (cure.place !== 'chain') return undefined;
  const wet = new Set<LayupId>(cure.layups.map((layup) => laminateOf(layup.id)));
  return stacks
    .map((stack) => ({ stack, wet, wetMm: wetMm(stack, wet) }))
    .filter(({ wetMm: mm }) => mm > 0)
    .toSorted((a, b) => b.wetMm - a.wetMm)[0];
}

function temperaturesOf(
  context: PlanContext,
  { model, profileAt }: SettledCure,
  { stack, wet }: WetStack,
  mixed: Minute,
  sealed: Minute,
) {
  const parts = stackPartsOf(context, stack, wet);
  return stackTemperatures(model, parts, profileAt(sealed), mixed, context.practice);
}

/** Thickness of a zone's plies that are wet in a cure. */
const wetMm = ({ plies }: ZoneStack, wet: ReadonlySet<LayupId>): number =>
  plies.reduce((sum, ply) => sum + (wet.has(ply.layup) ? ply.thicknessMm : 0), 0);

/** From the bag down to the mould: what is wet, and what has cured before and only conducts. */
export function stackPartsOf(
  context: Pick<PlanContext, 'build' | 'library' | 'resin'>,
  { plies, core }: ZoneStack,
  wet: ReadonlySet<LayupId>,
): StackPart[] {
  const last = Math.max(...[...wet].map((id) => LAYUP_IDS.indexOf(id)));
  const parts: StackPart[] = [];
  for (const id of LAYUP_IDS.slice(0, last + 1)) {
    if (id === 'core' && core) {
      const { row, thicknessMm } = core;
      const { name, densityKgM3, maxC } = row;
      parts.push({ kind: 'core', name, thicknessMm, densityKgM3, maxC });
      continue;
    }
    const own = plies.filter((ply) => ply.layup === id);
    const [first] = own;
    if (!first) continue;
    parts.push({
      kind: 'laminate',
      name: id,
      thicknessMm: own.reduce((sum, ply) => sum + ply.thicknessMm, 0),
      fibreFraction: first.cloth.fibreFraction,
      fibreDensityKgM3: first.cloth.fibreDensityKgM3,
      resinDensityKgM3: context.resin.curedDensityKgM3,
      wet: wet.has(id),
    });
  }
  const mould = mouldOf(context.library, context.build.mould.material);
  const maxC = context.build.mould.maxC ?? mould.maxC;
  return [...parts.reverse(), { kind: 'mould', name: mould.name, maxC }];
}
