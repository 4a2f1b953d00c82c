/** A batch asked about: its temperature over time, and what a tray or half of it would do. */
import type { Library } from '../document/schema.ts';
import { cautionsFor, DEFERRAL } from '../messages/safety.ts';
import { criticalExcessC, type CupResult } from './cup.ts';
import { batchCurve, largestBatchFor, mixedC, type BatchCase } from './pot.ts';
import type { PracticeLookup } from './practice.ts';
import type { CureModel } from './types.ts';

export interface BatchQuestion {
  readonly massG: number;
  readonly vessel: 'cup' | 'tray';
  readonly depthMm: number;
  readonly roomC: number;
  readonly resinC: number;
  /** The work that the largest batch must last. */
  readonly wantedMinutes: number;
}

export interface BatchOutcome {
  readonly case: BatchCase;
  readonly result: CupResult;
}

export interface BatchAnswer {
  /** As asked first, then what would cool it. */
  readonly outcomes: readonly BatchOutcome[];
  /** 0 when none lasts. */
  readonly largestG: number;
  /** The largest cup that is mixed at once, g. */
  readonly mostG: number;
  /** Heat loss can hold a batch no further above the room than this, K. */
  readonly holdsK: number;
  readonly hottestC: number;
  /** Its cup is given up as too hot, or it runs away. */
  readonly hot: boolean;
  readonly cautions: readonly string[];
}

/**
 * What the batch does as asked, what half of it and a tray would do, and the largest that lasts.
 * @throws Error when the model has no curve
 */
export function askBatch(
  model: CureModel,
  question: BatchQuestion,
  practice: PracticeLookup,
): BatchAnswer {
  const { massG, vessel, depthMm, roomC, resinC, wantedMinutes } = question;
  const inVessel = (kind: 'cup' | 'tray', mass: number): BatchCase => ({
    massG: mass,
    roomC,
    resinC,
    vessel: kind,
    ...(kind === 'tray' && { depthMm }),
  });
  const asked = inVessel(vessel, massG);
  const cases = [
    asked,
    inVessel(vessel, massG / 2),
    ...(vessel === 'cup' ? [inVessel('tray', massG)] : []),
  ];
  const outcomes = cases.map((one) => ({ case: one, result: batchCurve(model, one, practice) }));
  const { result } = outcomes[0]!;
  const hottestC = practice('cure-cup-hottest-c');
  const hot = result.runsAway || result.peakC >= hottestC;
  return {
    outcomes,
    largestG: largestBatchFor(model, wantedMinutes, asked, practice),
    mostG: practice('batch-max-g'),
    holdsK: criticalExcessC(model.activationEnergyJMol, roomC),
    hottestC,
    hot,
    cautions: hot ? [...cautionsFor('layup', ['exotherm']), DEFERRAL] : [],
  };
}

/**
 * The question to begin with: the planner's own first batch, in a cup of the usual shape.
 * @param roomC temperature of room and resin, C
 * @param mix the first batch of the plan; without one a usual mass
 */
export function usualQuestion(
  library: Library,
  roomC: number,
  practice: PracticeLookup,
  mix: { readonly totalG: number } | undefined,
): BatchQuestion {
  const usual = library.practice.some(({ id }) => id === 'batch-max-g') ? 'batch-max-g' : null;
  return {
    massG: Math.round(mix?.totalG ?? (usual ? practice(usual) : 300)),
    vessel: 'cup',
    depthMm: practice('cure-tray-depth-mm'),
    roomC,
    resinC: mixedC(roomC, practice),
    wantedMinutes: 20,
  };
}
