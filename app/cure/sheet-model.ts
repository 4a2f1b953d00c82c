/** What a set of fitted numbers says about the rows of a sheet. */
import type { Milestone, SheetRow } from '../document/schema.ts';
import { rateFactor } from './arrhenius.ts';
import { potLifeMinutes } from './cup.ts';
import {
  cureCurveTable,
  type CureCurveTable,
  type CureKinetics,
  type CurveAtTemperature,
} from './kinetics.ts';
import { RATIO_MILESTONES, usualCup, usualVessel, type Nominal } from './nominal.ts';
import type { PracticeLookup } from './practice.ts';
import { MOST_ENERGY_J_MOL } from './rate.ts';

/** Temperature at which doses are hours: the room of nearly every sheet. */
export const REFERENCE_C = 20;

export const MILESTONE_OF_ROW: Readonly<Record<SheetRow['what'], Milestone>> = {
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

/** True for a row timed on a mass that heats itself; a pot life of a film is its open time. */
export const isMassRow = (row: SheetRow): boolean =>
  row.what === 'pot-life' && row.vessel !== 'film';

/**
 * The fitted numbers, in this order: ln of hours to gel of a film at 20 C; logit of the activation
 * energy's place between the least and the most that practice believes; order m; ln of heat loss
 * over the usual; then ln of each of RATIO_MILESTONES over gel.
 */
export const PARAMETER = { gel: 0, energy: 1, order: 2, loss: 3, ratios: 4 } as const;
export const PARAMETER_COUNT = PARAMETER.ratios + RATIO_MILESTONES.length;

/** Activation energy, J/mol, at a place between the limits of practice, and back. */
export function energyScale(practice: PracticeLookup) {
  const least = practice('cure-energy-least-kj') * 1000;
  const span = practice('cure-energy-most-kj') * 1000 - least;
  return {
    energyAt: (place: number): number =>
      Math.min(MOST_ENERGY_J_MOL, least + span / (1 + Math.exp(-place))),
    placeOf: (energyJMol: number): number => {
      const share = Math.min(0.999, Math.max(0.001, (energyJMol - least) / span));
      return Math.log(share / (1 - share));
    },
  };
}

/** A pot that outlives the search for its end is taken to end then. */
const LONGEST_POT_MINUTES = 60_000;

export interface SheetModel {
  readonly kinetics: CureKinetics;
  readonly table: CureCurveTable;
  /** Dose that counts of each milestone, equivalent hours at 20 C. */
  readonly doseHours: Readonly<Record<Milestone, number>>;
  readonly openDegree: number;
  /** Minutes at which the model has a row. */
  minutesOf(row: SheetRow): number;
}

/** Reads parameters as models; keeps what neighbouring parameter sets share. */
export function sheetModels(
  nominal: Nominal,
  practice: PracticeLookup,
): (parameters: readonly number[]) => SheetModel {
  const tables = new Map<number, CureCurveTable>();
  const ways = new Map<string, CurveAtTemperature>();
  const pots = new Map<string, number>();
  const { energyAt } = energyScale(practice);
  const tableOf = (m: number): CureCurveTable => {
    let table = tables.get(m);
    if (!table) tables.set(m, (table = cureCurveTable({ ...nominal.shape, m }, nominal.glass)));
    return table;
  };

  return (parameters) => {
    const m = parameters[PARAMETER.order]!;
    const table = tableOf(m);
    const way = (temperatureC: number): CurveAtTemperature => {
      const key = `${m} ${temperatureC}`;
      let found = ways.get(key);
      if (!found) ways.set(key, (found = table.at(temperatureC)));
      return found;
    };
    const gelX = table.doseFor(nominal.gelDegree);
    const atReference = way(REFERENCE_C);
    const gelHours = Math.exp(parameters[PARAMETER.gel]!);
    // Times are of a film at 20 C, slowing included; doses are what the curve counts.
    const gelSpent = atReference.spent(gelX);
    const ratePerHour = gelSpent / gelHours;
    const xOf = (milestone: Milestone): number => {
      if (milestone === 'gel') return gelX;
      const i = RATIO_MILESTONES.indexOf(milestone);
      return atReference.reachedBy(gelSpent * Math.exp(parameters[PARAMETER.ratios + i]!));
    };
    const kinetics: CureKinetics = {
      shape: table.shape,
      glass: nominal.glass,
      referenceC: REFERENCE_C,
      activationEnergyJMol: energyAt(parameters[PARAMETER.energy]!),
      ratePerHour,
      heatJG: nominal.heatJG,
    };
    const openX = xOf('open');
    const openDegree = table.degreeAt(openX);
    const hours = (milestone: Milestone): number => xOf(milestone) / ratePerHour;

    const potMinutes = (row: SheetRow): number => {
      const usual = usualVessel(row.vessel === 'tray' ? 'tray' : 'cup', practice);
      const lossWM2K = usual.lossWM2K * Math.exp(parameters[PARAMETER.loss]!);
      const massG = row.massG ?? practice('cure-pot-reference-g');
      const cup = usualCup(
        { massG, roomC: row.temperatureC, vessel: { ...usual, lossWM2K } },
        kinetics,
        openDegree,
        practice,
      );
      const key = [
        massG,
        row.temperatureC,
        usual.kind,
        m,
        lossWM2K,
        openX,
        ratePerHour,
        kinetics.activationEnergyJMol,
      ].join(' ');
      let minutes = pots.get(key);
      if (minutes === undefined) {
        minutes = Math.min(LONGEST_POT_MINUTES, Math.max(0.01, potLifeMinutes(cup)));
        pots.set(key, minutes);
      }
      return minutes;
    };

    return {
      kinetics,
      table,
      openDegree,
      doseHours: {
        open: openX / ratePerHour,
        gel: hours('gel'),
        tackFree: hours('tackFree'),
        debag: hours('debag'),
        demould: hours('demould'),
        sand: hours('sand'),
        bondUntil: hours('bondUntil'),
        full: hours('full'),
      },
      minutesOf(row) {
        if (isMassRow(row)) return potMinutes(row);
        const spent = way(row.temperatureC).spent(xOf(MILESTONE_OF_ROW[row.what]));
        const rate = rateFactor(kinetics.activationEnergyJMol, row.temperatureC, REFERENCE_C);
        return (spent / ratePerHour / rate) * 60;
      },
    };
  };
}
