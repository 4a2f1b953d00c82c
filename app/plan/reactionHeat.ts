/** Reaction heat where it matters: through the stack of a cure, in filler and in potting. */
import { practiceOf } from '../document/library.ts';
import { largestLift, stackTemperatures, type LargestLift } from '../cure/stack.ts';
import type { PlanOutcome } from './outcome.ts';
import { stackPartsOf, thickestOf, zoneStacksOf } from './exotherm.ts';
import type { CureStory } from './cureStory.ts';

export interface LayerHeat {
  readonly name: string;
  readonly peakC: number;
  readonly peakHours: number;
  readonly limitC: number | null;
}

export type StackHeat =
  | { readonly matters: false; readonly wetMm: number; readonly fromMm: number }
  | {
      readonly matters: true;
      readonly wetMm: number;
      readonly zone: string;
      /** From the bag down. */
      readonly layers: readonly LayerHeat[];
    };

/**
 * Reaction heat through the thickest zone of a cure over time, from the bag down to the mould.
 * @returns null for a cure that is not in the mould or whose resin has no curve
 * @throws MissingRow when the library lacks a row that the stack needs
 */
export function stackHeat(outcome: PlanOutcome, story: CureStory): StackHeat | null {
  const { build, library, part } = outcome.detail;
  const { model, profile } = story;
  const resin = library.resins.find(({ id }) => id === build.resin.system);
  const cure = outcome.result.route.cures.find(({ id }) => id === story.id);
  if (!resin || !cure || !model.kinetics) return null;
  const layups = part.layups.filter(({ id }) => cure.layups.includes(id));
  const [first] = layups;
  if (!first) return null;
  const thickest = thickestOf(zoneStacksOf({ build, library, resin }), {
    place: first.place,
    layups,
  });
  if (!thickest) return null;
  const { stack, wet, wetMm } = thickest;
  const practice = practiceOf(library);
  const fromMm = practice('stack-heat-from-mm');
  if (wetMm < fromMm) return { matters: false, wetMm, fromMm };
  const parts = stackPartsOf({ build, library, resin }, stack, wet);
  const heat = stackTemperatures(model, parts, profile, story.mixed, practice);
  const nameOf = (id: string) => part.layups.find((layup) => layup.id === id)?.name ?? id;
  return {
    matters: true,
    wetMm,
    zone: stack.zone.name,
    layers: heat.layers.map(({ name, peakC, peakHours, limitC }) => ({
      name: nameOf(name),
      peakC,
      peakHours,
      limitC,
    })),
  };
}

export interface Lifts {
  readonly groundName: string;
  readonly limitC: number;
  readonly roomC: number;
  readonly filler: LargestLift;
  readonly potting: LargestLift;
  /** The last lift has cooled this far before the next goes on it. */
  readonly nextBelowC: number;
}

/**
 * Thickest lift of filler and of potting on the part's lightest core; null without core or curve.
 * @param asked room and mix where they are not those of the plan
 */
export function liftsOf(
  { detail }: PlanOutcome,
  asked?: { readonly roomC: number; readonly resinC: number },
): Lifts | null {
  const { build, library, model } = detail;
  const practice = practiceOf(library);
  const grounds = build.part.zones
    .flatMap(({ core }) => {
      const row = library.cores.find(({ id }) => id === core?.material);
      return core && row ? [{ row, mm: core.thicknessMm }] : [];
    })
    .sort((a, b) => a.row.maxC - b.row.maxC);
  const [ground] = grounds;
  if (!ground || !model.kinetics) return null;
  const roomC = asked?.roomC ?? build.room.temperatureC.day;
  const startC = asked?.resinC ?? roomC;
  const limitC = Math.min(ground.row.maxC, practice('cure-thick-hottest-c'));
  const lift = (mix: 'filler' | 'potting'): LargestLift => {
    const { mm: groundMm, row } = ground;
    const pour = { mix, roomC, startC, groundMm, groundDensityKgM3: row.densityKgM3 };
    return largestLift(model, pour, limitC, practice);
  };
  return {
    groundName: ground.row.name,
    limitC,
    roomC,
    filler: lift('filler'),
    potting: lift('potting'),
    nextBelowC: practice('lift-next-below-c'),
  };
}
