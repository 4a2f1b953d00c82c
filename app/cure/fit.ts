/** A resin's data sheet turned into one curve: speed, activation energy, shape and milestones. */
import { levenbergMarquardt } from 'ml-levenberg-marquardt';
import { MILESTONES, type HardenerRow, type Milestone, type SheetRow } from '../document/schema.ts';
import { cureText } from './words.ts';
import { energyForFactorPer10C, rateFactor } from './arrhenius.ts';
import { withBench } from './bench.ts';
import { cureCurveTable } from './kinetics.ts';
import { nominalOf, RATIO_MILESTONES, type Chemistry, type Nominal } from './nominal.ts';
import type { PracticeLookup } from './practice.ts';
import { ONE_TEMPERATURE_K, openSlopes } from './rate.ts';
import {
  energyScale,
  isMassRow,
  MILESTONE_OF_ROW,
  PARAMETER,
  PARAMETER_COUNT,
  REFERENCE_C,
  sheetModels,
  type SheetModel,
} from './sheet-model.ts';
import type { CureModel } from './types.ts';

export { REFERENCE_C };

/** Milestones in the order in which a curing film meets them. */
const ORDER = ['open', 'gel', 'tackFree', 'debag', 'demould', 'sand', 'full'] as const;

/**
 * How far each number may depart from practice (standard deviations): rows are trusted far more
 * than practice; practice decides where there is no row.
 */
const ROW_SCATTER = { film: 0.03, mass: 0.06 };
const PRIOR_SCATTER = { gel: 3, energy: 0.75, order: 0.12, loss: 0.35, ratio: 0.25 };
/** Makers differ in what they call full cure and the bond window: practice is trusted less for these. */
const LOOSE_RATIO: readonly Milestone[] = ['full', 'bondUntil'];
const LOOSE_SCATTER = 0.5;
/** Step of the numerical slopes: coarse enough that the pot's integration error does not show. */
const SLOPE_STEP = 0.01;
/** Rounds are repeated from the best point so far until a round gains nothing. */
const ROUND = { iterations: 6, most: 6, gain: 1e-4 };

/** Least-squares problem of one sheet: what was asked, and where it ended. */
export interface SheetFit {
  readonly nominal: Nominal;
  readonly rows: readonly SheetRow[];
  readonly parameters: readonly number[];
  readonly priorMeans: readonly number[];
  readonly priorScatter: readonly number[];
  readonly scatterOf: (row: SheetRow) => number;
  readonly modelOf: (parameters: readonly number[]) => SheetModel;
  readonly model: SheetModel;
}

/**
 * Fits a hardener's sheet. One activation energy, one autocatalytic curve, one time for each
 * milestone, by least squares on ln(minutes) over all rows together with practice; pot life rows by
 * the heat balance of their cup. What the sheet leaves out comes from practice and is said in
 * `assumptions`. What smear and cup said is laid over it; `residuals` stay those of the sheet alone.
 * @throws when the library lacks a practice row.
 */
export function fitSheet(
  hardener: HardenerRow,
  practice: PracticeLookup,
  chemistry: Chemistry = 'epoxy',
): CureModel {
  const read: number[] = [];
  const noted: PracticeLookup = (id) => {
    const value = practice(id);
    read.push(value);
    return value;
  };
  const { sheet, tgFullC, heatOfReactionJG, bench } = hardener;
  nominalOf(hardener, chemistry, noted);
  for (const id of FIT_PRACTICE) noted(id);
  const key = JSON.stringify([chemistry, sheet, tgFullC, heatOfReactionJG, bench, read]);
  let model = fitted.get(key);
  if (!model) {
    model = withBench(fitWithoutCache(hardener, practice, chemistry), bench);
    if (fitted.size >= KEPT_FITS) fitted.delete(fitted.keys().next().value!);
    fitted.set(key, model);
  }
  return model;
}

/** The last few fits: a plan asks for the same sheet at every edit. */
const fitted = new Map<string, CureModel>();
const KEPT_FITS = 24;
/** Practice that the fit reads beside what `nominalOf` does. */
const FIT_PRACTICE = [
  'cure-rate-factor-per-10c',
  'cure-energy-least-kj',
  'cure-energy-most-kj',
  'energy-cure-flat-kj',
  'energy-cure-steep-kj',
  'energy-pot-flat-kj',
  'energy-pot-steep-kj',
  'cure-pot-reference-g',
  'cure-cup-height-per-diameter',
  'cure-cup-loss-w-m2k',
  'cure-cup-hottest-c',
  'cure-tray-depth-mm',
  'cure-mix-density-kg-m3',
  'cure-heat-capacity-j-gk',
];

function fitWithoutCache(
  hardener: HardenerRow,
  practice: PracticeLookup,
  chemistry: Chemistry,
): CureModel {
  const fit = fitRows(hardener, hardener.sheet, practice, chemistry);
  const { model } = fit;
  const assumptions = assumptionsOf(hardener, fit, practice);
  return {
    referenceC: REFERENCE_C,
    activationEnergyJMol: model.kinetics.activationEnergyJMol,
    doseHours: inOrder(fit, assumptions),
    residuals: fit.rows.map((row) => {
      const fittedMinutes = model.minutesOf(row);
      return { row, fittedMinutes, relative: fittedMinutes / row.minutes - 1 };
    }),
    assumptions,
    slopes: openSlopes(fit.rows, model.kinetics.activationEnergyJMol, practice),
    kinetics: model.kinetics,
    pot: {
      lossFactor: Math.exp(fit.parameters[PARAMETER.loss]!),
      openDegree: model.openDegree,
    },
  };
}

/** The fit of some rows of a sheet, with all that is needed to judge it. */
export function fitRows(
  hardener: Pick<HardenerRow, 'tgFullC' | 'heatOfReactionJG'>,
  rows: readonly SheetRow[],
  practice: PracticeLookup,
  chemistry: Chemistry,
): SheetFit {
  const nominal = nominalOf(hardener, chemistry, practice);
  const modelOf = sheetModels(nominal, practice);
  const priorMeans = meansOf(rows, nominal, practice);
  const { gel, energy, order, loss, ratio } = PRIOR_SCATTER;
  const ratios = RATIO_MILESTONES.map((m) => (LOOSE_RATIO.includes(m) ? LOOSE_SCATTER : ratio));
  const priorScatter = [gel, energy, order, loss, ...ratios];
  const scatterOf = (row: SheetRow): number =>
    isMassRow(row) ? ROW_SCATTER.mass : ROW_SCATTER.film;
  const parameters = leastSquares(rows, modelOf, priorMeans, priorScatter, scatterOf);
  return {
    nominal,
    rows,
    parameters,
    priorMeans,
    priorScatter,
    scatterOf,
    modelOf,
    model: modelOf(parameters),
  };
}

/** What practice expects of each parameter; the time to gel is read off the rows. */
function meansOf(rows: readonly SheetRow[], nominal: Nominal, practice: PracticeLookup): number[] {
  const energy = energyForFactorPer10C(practice('cure-rate-factor-per-10c'), REFERENCE_C);
  const means = new Array<number>(PARAMETER_COUNT).fill(0);
  means[PARAMETER.energy] = energyScale(practice).placeOf(energy);
  means[PARAMETER.order] = nominal.shape.m;
  RATIO_MILESTONES.forEach((milestone, i) => {
    means[PARAMETER.ratios + i] = Math.log(nominal.perGel[milestone]);
  });
  const logs = rows.map((row) => {
    const milestone = MILESTONE_OF_ROW[row.what];
    const perGel = milestone === 'gel' ? 1 : nominal.perGel[milestone];
    // A cup heats itself: some three times the film's speed is a fair place to start from.
    const massFactor = isMassRow(row) ? 3 : 1;
    const hours =
      (row.minutes / 60) * massFactor * rateFactor(energy, row.temperatureC, REFERENCE_C);
    return Math.log(hours / perGel);
  });
  means[PARAMETER.gel] = logs.reduce((sum, log) => sum + log, 0) / Math.max(1, logs.length);
  return means;
}

function leastSquares(
  rows: readonly SheetRow[],
  modelOf: (parameters: readonly number[]) => SheetModel,
  priorMeans: readonly number[],
  priorScatter: readonly number[],
  scatterOf: (row: SheetRow) => number,
): number[] {
  // Every point is divided by its scatter here: the library's own weights count the other way round
  // when it judges a step.
  const scatter = [...rows.map(scatterOf), ...priorScatter];
  const wanted = [...rows.map((row) => Math.log(row.minutes)), ...priorMeans];
  const data = { x: scatter.map((_, i) => i), y: wanted.map((value, i) => value / scatter[i]!) };
  const minValues = priorMeans.map((mean) => mean - 4);
  const maxValues = priorMeans.map((mean) => mean + 4);
  minValues[PARAMETER.order] = 0.2;
  maxValues[PARAMETER.order] = 1.5;
  const predicted = (parameters: number[]) => {
    const model = modelOf(parameters);
    return (i: number): number =>
      (i < rows.length ? Math.log(model.minutesOf(rows[i]!)) : parameters[i - rows.length]!) /
      scatter[i]!;
  };
  let best: number[] = [...priorMeans];
  let error = Infinity;
  for (let round = 0; round < ROUND.most; round++) {
    const result = levenbergMarquardt(data, predicted, {
      initialValues: best,
      minValues,
      maxValues,
      gradientDifference: SLOPE_STEP,
      maxIterations: ROUND.iterations,
      errorTolerance: 1e-9,
      damping: 1e-3,
    });
    const gain = error - result.parameterError;
    best = result.parameterValues;
    error = result.parameterError;
    if (gain < ROUND.gain * Math.max(1, error)) break;
  }
  return best;
}

/** Doses of all milestones, none before the one that comes before it. */
function inOrder(fit: SheetFit, assumptions: string[]): Record<Milestone, number | null> {
  const doses: Record<Milestone, number | null> = { ...fit.model.doseHours };
  const known = new Set(fit.rows.map((row) => MILESTONE_OF_ROW[row.what]));
  ORDER.forEach((milestone, i) => {
    const before = ORDER[i - 1];
    if (!before || doses[milestone]! >= doses[before]!) return;
    if (known.has(milestone)) assumptions.push(cureText.raised(milestone, before));
    doses[milestone] = doses[before]!;
  });
  return doses;
}

function assumptionsOf(hardener: HardenerRow, fit: SheetFit, practice: PracticeLookup): string[] {
  const assumptions: string[] = [];
  const { rows, nominal, parameters } = fit;
  const potRows = rows.filter(isMassRow);
  if (potRows.length > 0) {
    const loss = practice('cure-cup-loss-w-m2k') * Math.exp(parameters[PARAMETER.loss]!);
    assumptions.push(cureText.potToFilm(nominal.heatJG, loss));
    if (potRows.some((row) => row.massG === undefined)) {
      assumptions.push(cureText.potWithoutMass(practice('cure-pot-reference-g')));
    }
  }
  const temperatures = rows.map((row) => row.temperatureC);
  const energy = fit.model.kinetics.activationEnergyJMol / 1000;
  if (Math.max(...temperatures) - Math.min(...temperatures) < ONE_TEMPERATURE_K) {
    assumptions.push(cureText.oneTemperature(practice('cure-rate-factor-per-10c')));
  } else if (
    energy <= practice('cure-energy-least-kj') * 1.05 ||
    energy >= practice('cure-energy-most-kj') * 0.95
  ) {
    assumptions.push(cureText.energyAtLimit(energy));
  }
  const open = openSlopes(rows, fit.model.kinetics.activationEnergyJMol, practice).cure;
  if (open) {
    const { pivotC, flatJMol, steepJMol } = open;
    assumptions.push(cureText.slopeOpen(pivotC, flatJMol / 1000, steepJMol / 1000));
  }
  if (hardener.heatOfReactionJG === null) assumptions.push(cureText.heatAssumed(nominal.heatJG));
  if (hardener.tgFullC === null) assumptions.push(cureText.tgAssumed(nominal.glass.tgFullC));
  const known = new Set(rows.map((row) => MILESTONE_OF_ROW[row.what]));
  const guessed = MILESTONES.filter((milestone) => !known.has(milestone));
  if (guessed.length > 0) assumptions.push(cureText.byPractice(guessed));
  return assumptions;
}

/**
 * The model with some milestones put off: each comes `factor` times later on a film at 20 C, and in
 * proportion elsewhere.
 */
export function delayMilestones(
  model: CureModel,
  factors: Readonly<Partial<Record<Milestone, number>>>,
): CureModel {
  const doseHours = { ...model.doseHours };
  const { kinetics } = model;
  const way = kinetics
    ? cureCurveTable(kinetics.shape, kinetics.glass).at(model.referenceC)
    : { spent: (x: number) => x, reachedBy: (spent: number) => spent };
  const perHour = kinetics?.ratePerHour ?? 1;
  for (const milestone of MILESTONES) {
    const [dose, factor] = [doseHours[milestone], factors[milestone]];
    if (dose === null || factor === undefined) continue;
    doseHours[milestone] = way.reachedBy(way.spent(dose * perHour) * factor) / perHour;
  }
  return { ...model, doseHours };
}
