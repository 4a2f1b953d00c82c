/** A resin's data sheet turned into one clock: milestone doses and one activation energy. */
import type { HardenerRow, Milestone, SheetRow } from '../build/schema.ts';
import { cureText } from '../messages/cure.ts';
import { energyForFactorPer10C, GAS_CONSTANT, rateFactor, ZERO_C_IN_K } from './arrhenius.ts';
import type { PracticeLookup } from './practice.ts';
import type { CureModel, SheetResidual } from './types.ts';

/** Temperature at which doses are hours: the room of nearly every sheet. */
export const REFERENCE_C = 20;

/** Milestones in the order in which a curing film meets them. */
const ORDER = ['open', 'gel', 'tackFree', 'debag', 'demould', 'sand', 'full'] as const;

const MILESTONE_OF_ROW: Readonly<Record<SheetRow['what'], Milestone>> = {
  'pot-life': 'open',
  'film-open': 'open',
  'film-gel': 'gel',
  'tack-free': 'tackFree',
  debag: 'debag',
  demould: 'demould',
  sand: 'sand',
  'bond-until': 'bondUntil',
  full: 'full',
};

/** A row read as minutes of a film, with the milestone it times. */
interface FilmReading {
  readonly row: SheetRow;
  readonly milestone: Milestone;
  /** Minutes of a film / minutes of the row. */
  readonly scale: number;
  /** ln of hours at the row's temperature. */
  readonly logHours: number;
  /** 1/Tref - 1/T, 1/K. */
  readonly inverseK: number;
}

/**
 * Fits a hardener's sheet: doses in equivalent hours at 20 C, activation energy by least squares
 * over the milestones timed at two temperatures or more. What the sheet leaves out comes from
 * practice and is said in `assumptions`.
 * Pot life is timed on a mass that heats itself; it is brought to a film by practice before use.
 * @throws Error when the library lacks a practice row.
 */
export function fitSheet(hardener: HardenerRow, practice: PracticeLookup): CureModel {
  const assumptions: string[] = [];
  const readings = hardener.sheet.map((row) => readRow(row, practice));
  const potRows = hardener.sheet.filter((row) => row.what === 'pot-life');
  if (potRows.length > 0) {
    const referenceG = practice('cure-pot-reference-g');
    assumptions.push(cureText.potToFilm(practice('cure-film-open-per-pot-life'), referenceG));
    if (potRows.some((row) => row.massG === undefined)) {
      assumptions.push(cureText.potWithoutMass(referenceG));
    }
  }
  const activationEnergyJMol = fitEnergy(readings, practice, assumptions);
  const known = knownDoses(readings, activationEnergyJMol);
  const doseHours = allDoses(known, practice, assumptions);
  return {
    referenceC: REFERENCE_C,
    activationEnergyJMol,
    doseHours,
    residuals: readings.map((reading) => residual(reading, doseHours, activationEnergyJMol)),
    assumptions,
  };
}

function readRow(row: SheetRow, practice: PracticeLookup): FilmReading {
  const scale = row.what === 'pot-life' ? filmPerPot(row.massG, practice) : 1;
  return {
    row,
    milestone: MILESTONE_OF_ROW[row.what],
    scale,
    logHours: Math.log((row.minutes * scale) / 60),
    inverseK: 1 / (REFERENCE_C + ZERO_C_IN_K) - 1 / (row.temperatureC + ZERO_C_IN_K),
  };
}

/** Film open time / pot life of this mass: a larger mass heats itself more and lives shorter. */
export function filmPerPot(massG: number | undefined, practice: PracticeLookup): number {
  const referenceG = practice('cure-pot-reference-g');
  return (
    practice('cure-film-open-per-pot-life') *
    ((massG ?? referenceG) / referenceG) ** practice('cure-pot-mass-exponent')
  );
}

/**
 * One slope of ln(hours) over 1/T for all milestones, each with its own level: least squares pooled
 * within the milestones. Falls back to the practice factor when no milestone has two temperatures.
 */
function fitEnergy(
  readings: readonly FilmReading[],
  practice: PracticeLookup,
  assumptions: string[],
): number {
  const factor = practice('cure-rate-factor-per-10c');
  const rule = energyForFactorPer10C(factor, REFERENCE_C);
  let sxx = 0;
  let sxy = 0;
  for (const group of groups(readings).values()) {
    const meanX = mean(group.map((r) => r.inverseK));
    const meanY = mean(group.map((r) => r.logHours));
    for (const r of group) {
      sxx += (r.inverseK - meanX) ** 2;
      sxy += (r.inverseK - meanX) * (r.logHours - meanY);
    }
  }
  if (sxx < 1e-12) {
    assumptions.push(cureText.oneTemperature(factor));
    return rule;
  }
  const energy = (-sxy / sxx) * GAS_CONSTANT;
  const [low, high] = [practice('cure-energy-least-kj'), practice('cure-energy-most-kj')];
  if (energy < low * 1000 || energy > high * 1000) {
    assumptions.push(cureText.energyImplausible(energy / 1000, factor));
    return rule;
  }
  return energy;
}

/** Geometric mean dose of each milestone that has rows, hours at the reference temperature. */
function knownDoses(
  readings: readonly FilmReading[],
  activationEnergyJMol: number,
): Map<Milestone, number> {
  const doses = new Map<Milestone, number>();
  for (const [milestone, group] of groups(readings)) {
    // A row read on the film itself outweighs a pot life brought to a film by practice.
    const film = group.filter((r) => r.row.what !== 'pot-life');
    const use = film.length > 0 ? film : group;
    const logs = use.map((r) => r.logHours + (activationEnergyJMol / GAS_CONSTANT) * r.inverseK);
    doses.set(milestone, Math.exp(mean(logs)));
  }
  return doses;
}

/** Multiples of film gel that practice gives to each milestone of `ORDER`. */
function usualMultiples(practice: PracticeLookup): Record<(typeof ORDER)[number], number> {
  const debag = practice('cure-debag-per-film-gel');
  const demould = debag * practice('cure-demould-per-debag');
  const sand = demould * practice('cure-sand-per-demould');
  return {
    open: practice('cure-film-open-per-pot-life') / practice('cure-film-gel-per-pot-life'),
    gel: 1,
    tackFree: practice('cure-tack-free-per-film-gel'),
    debag,
    demould,
    sand,
    full: sand * practice('cure-full-per-sand'),
  };
}

function allDoses(
  known: ReadonlyMap<Milestone, number>,
  practice: PracticeLookup,
  assumptions: string[],
): Record<Milestone, number | null> {
  const usual = usualMultiples(practice);
  const anchors = ORDER.filter((m) => known.has(m)).map((m) => ({
    x: Math.log(usual[m]),
    y: Math.log(known.get(m)!),
  }));
  const doses: Record<Milestone, number | null> = {
    open: null,
    gel: null,
    tackFree: null,
    debag: null,
    demould: null,
    sand: null,
    bondUntil: null,
    full: null,
  };
  const guessed: Milestone[] = [];
  const perGel = practice('cure-bond-until-per-film-gel');
  const bond = known.get('bondUntil');
  if (anchors.length === 0 && bond !== undefined)
    anchors.push({ x: Math.log(perGel), y: Math.log(bond) });
  ORDER.forEach((milestone, i) => {
    let dose = known.get(milestone);
    if (dose === undefined) {
      dose = Math.exp(interpolate(anchors, Math.log(usual[milestone])));
      guessed.push(milestone);
    }
    const before = ORDER[i - 1];
    const floor = before ? doses[before]! : 0;
    if (dose < floor) {
      if (known.has(milestone)) assumptions.push(cureText.raised(milestone, before!));
      dose = floor;
    }
    doses[milestone] = dose;
  });
  doses.bondUntil = bond ?? doses.gel! * perGel;
  if (bond === undefined) guessed.push('bondUntil');
  if (guessed.length > 0) assumptions.push(cureText.byPractice(guessed));
  return doses;
}

/** Straight between anchors, slope 1 beyond them. `anchors` is in order of x and not empty. */
function interpolate(anchors: readonly { x: number; y: number }[], x: number): number {
  const after = anchors.findIndex((a) => a.x >= x);
  if (after === 0) return anchors[0]!.y + (x - anchors[0]!.x);
  if (after < 0) {
    const last = anchors[anchors.length - 1]!;
    return last.y + (x - last.x);
  }
  const [a, b] = [anchors[after - 1]!, anchors[after]!];
  return a.y + ((b.y - a.y) * (x - a.x)) / (b.x - a.x);
}

function residual(
  { row, milestone, scale }: FilmReading,
  doseHours: CureModel['doseHours'],
  activationEnergyJMol: number,
): SheetResidual {
  const rate = rateFactor(activationEnergyJMol, row.temperatureC, REFERENCE_C);
  const fittedMinutes = (doseHours[milestone]! * 60) / rate / scale;
  return { row, fittedMinutes, relative: fittedMinutes / row.minutes - 1 };
}

function groups(readings: readonly FilmReading[]): Map<Milestone, FilmReading[]> {
  const byMilestone = new Map<Milestone, FilmReading[]>();
  for (const reading of readings) {
    const group = byMilestone.get(reading.milestone);
    if (group) group.push(reading);
    else byMilestone.set(reading.milestone, [reading]);
  }
  return byMilestone;
}

const mean = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length;
