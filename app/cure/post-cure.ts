/**
 * The post-cure that reaches a Tg by the resin's own curve: a slow ramp that never runs ahead of what
 * the part already stands, a hold, and a slow cooling under support.
 */
import { rateFactor } from './arrhenius.ts';
import { cureCurveTable, type CureCurveTable, type CureKinetics } from './kinetics.ts';
import type { PracticeLookup } from './practice.ts';
import {
  heatBelowTgK,
  lowestLimit,
  rampKPerHourAt,
  SLOWED_STEP_MINUTES,
  type PostCureNeed,
  type PostCurePlan,
  type PostCureStep,
} from './tg.ts';
import type { CureModel } from './types.ts';

export interface CurvePostCureNeed extends Omit<PostCureNeed, 'hardener'> {
  readonly model: CureModel;
  /** Dose that counts when the post-cure begins, equivalent hours (`stateAt(...).doseHours`). */
  readonly doseHours: number;
  readonly hardener: Pick<PostCureNeed['hardener'], 'postCure'>;
}

const STEP_MINUTES = SLOWED_STEP_MINUTES;

/**
 * The coolest hold, in whole degrees, that reaches the needed Tg in the usual hold (the sheet's own
 * where it has a step at or below that heat); at the limit a longer hold is tried as well.
 */
export function postCureByCurve(need: CurvePostCureNeed, practice: PracticeLookup): PostCurePlan {
  const kinetics = need.model.kinetics;
  if (!kinetics) throw new Error('The model has no curve to post-cure by.');
  const { glass } = kinetics;
  const leastC = Math.ceil(Math.max(need.fromC, need.bakeC ?? -Infinity));
  const { limitC, reason } = lowestLimit(need);
  if (glass.tgFullC < need.neededTgC) {
    return { possible: false, reason: 'resin', wantedC: leastC, limitC: glass.tgFullC };
  }
  const run = programmeRunner(need, kinetics, practice);
  // Hotter than the needed Tg itself is never wanted.
  const mostC = Math.ceil(need.neededTgC);
  let wantedC: number | null = null;
  for (let holdC = leastC; holdC <= Math.max(leastC, mostC); holdC++) {
    const plan = run(holdC, usualHours(need, holdC, practice));
    if (plan.reachesTgC < need.neededTgC || plan.holdC < leastC) continue;
    if (holdC <= limitC) return plan;
    wantedC = holdC;
    break;
  }
  const hottestC = Math.floor(Math.min(limitC, mostC));
  const long = run(Math.max(leastC, hottestC), practice('cure-post-cure-longest-hours'));
  if (hottestC >= leastC && long.reachesTgC >= need.neededTgC && long.holdC >= leastC) return long;
  // The part itself stays too soft to be heated faster, whatever the limits.
  if (wantedC === null) {
    const { reachesTgC, holdC } = run(mostC, practice('cure-post-cure-longest-hours'));
    if (reachesTgC < need.neededTgC || holdC < leastC) {
      const stuck = holdC < mostC;
      return {
        possible: false,
        reason: stuck ? 'cure' : 'resin',
        wantedC: mostC,
        limitC: stuck ? holdC : reachesTgC,
      };
    }
  }
  return { possible: false, reason, wantedC: wantedC ?? mostC, limitC };
}

function usualHours(need: CurvePostCureNeed, holdC: number, practice: PracticeLookup): number {
  const step = need.hardener.postCure
    .filter(({ temperatureC }) => temperatureC <= holdC)
    .sort((a, b) => b.temperatureC - a.temperatureC)[0];
  return step?.hours ?? practice('postcure-hold-hours');
}

/** Runs a programme to a hold and gives it with the Tg it ends at. */
function programmeRunner(
  need: CurvePostCureNeed,
  kinetics: CureKinetics,
  practice: PracticeLookup,
) {
  const table = cureCurveTable(kinetics.shape, kinetics.glass);
  const rampCPerStep = (rampKPerHourAt(need.place ?? 'mould', practice) * STEP_MINUTES) / 60;
  const belowTgK = heatBelowTgK(practice);
  const coolToC = practice('cool-to-c');

  return (holdC: number, holdHours: number): Extract<PostCurePlan, { possible: true }> => {
    let y = table.nodeAtDose(need.doseHours * kinetics.ratePerHour);
    let temperatureC = need.fromC;
    const steps: PostCureStep[] = [];
    const longest = practice('cure-post-cure-longest-hours') * 60;
    for (let waited = 0; temperatureC < holdC && waited < longest;) {
      const mayC = Math.min(holdC, temperatureC + rampCPerStep, table.tgAtNode(y) - belowTgK);
      const nextC = Math.max(temperatureC, mayC);
      // Time lost against the full ramp: heat that follows Tg comes ever closer to the hold and never there.
      waited += STEP_MINUTES * (1 - (nextC - temperatureC) / rampCPerStep);
      const kind = nextC > temperatureC ? 'ramp' : 'hold';
      addStep(steps, { kind, fromC: temperatureC, toC: nextC, minutes: STEP_MINUTES });
      y = advance(table, kinetics, y, (temperatureC + nextC) / 2, STEP_MINUTES / 60);
      temperatureC = nextC;
    }
    y = advance(table, kinetics, y, temperatureC, holdHours);
    const hold = Math.ceil(holdHours * 60);
    addStep(steps, { kind: 'hold', fromC: temperatureC, toC: temperatureC, minutes: hold });
    const cooledC = Math.min(temperatureC, coolToC);
    if (cooledC < temperatureC) {
      const minutes = Math.ceil(((temperatureC - cooledC) / rampCPerStep) * STEP_MINUTES);
      addStep(steps, { kind: 'cool', fromC: temperatureC, toC: cooledC, minutes });
    }
    return {
      possible: true,
      holdC: temperatureC,
      reachesTgC: table.tgAtNode(y),
      steps,
      minutes: steps.reduce((sum, step) => sum + step.minutes, 0),
    };
  };
}

/**
 * Tg of a resin that has had `doseHours` and goes through the steps of a post-cure, C; what it gains
 * while it cools is left out, as in the plan's own figure.
 */
export function tgAfter(
  kinetics: CureKinetics,
  doseHours: number,
  steps: readonly PostCureStep[],
): number {
  const table = cureCurveTable(kinetics.shape, kinetics.glass);
  let y = table.nodeAtDose(doseHours * kinetics.ratePerHour);
  for (const { kind, fromC, toC, minutes } of steps) {
    if (kind === 'cool') continue;
    const parts = fromC === toC ? 1 : Math.max(1, Math.ceil(minutes / STEP_MINUTES));
    for (let i = 0; i < parts; i++) {
      const middleC = fromC + ((toC - fromC) * (i + 0.5)) / parts;
      y = advance(table, kinetics, y, middleC, minutes / parts / 60);
    }
  }
  return table.tgAtNode(y);
}

/** Place on the curve after some hours at one temperature. */
function advance(
  table: CureCurveTable,
  kinetics: CureKinetics,
  y: number,
  temperatureC: number,
  hours: number,
): number {
  const way = table.at(temperatureC);
  const rate =
    kinetics.ratePerHour *
    rateFactor(kinetics.activationEnergyJMol, temperatureC, kinetics.referenceC);
  return Math.max(y, way.nodeBy(way.spentAtNode(y) + rate * hours));
}

/** Joins a step to the one before when both are of a kind and go on at the same slope. */
function addStep(steps: PostCureStep[], step: PostCureStep): void {
  const last = steps[steps.length - 1];
  const slope = ({ fromC, toC, minutes }: PostCureStep): number => (toC - fromC) / minutes;
  if (last && last.kind === step.kind && Math.abs(slope(last) - slope(step)) < 1e-9) {
    steps[steps.length - 1] = { ...last, toC: step.toC, minutes: last.minutes + step.minutes };
  } else steps.push(step);
}
