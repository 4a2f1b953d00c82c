/** The batch in its cup. */
import type { HardenerRow } from '../build/schema.ts';
import { rateFactor } from './arrhenius.ts';
import { filmPerPot } from './fit.ts';
import type { PracticeLookup } from './practice.ts';
import type { CureModel } from './types.ts';

/** Minutes that a mass (g) in a cup at a temperature (C) stays workable. */
export type PotLife = (massG: number, temperatureC: number) => number;

/**
 * Pot life of a hardener: the film's open time shortened by the mass, as practice has it, and set to
 * the sheet's own pot life rows where it has any.
 */
export function potLifeOf(
  hardener: Pick<HardenerRow, 'sheet'>,
  model: CureModel,
  practice: PracticeLookup,
): PotLife {
  const openMinutes = (model.doseHours.open ?? 0) * 60;
  const byPractice: PotLife = (massG, temperatureC) =>
    openMinutes /
    rateFactor(model.activationEnergyJMol, temperatureC, model.referenceC) /
    filmPerPot(massG, practice);
  const referenceG = practice('cure-pot-reference-g');
  const logs = hardener.sheet
    .filter((row) => row.what === 'pot-life')
    .map((row) => Math.log(row.minutes / byPractice(row.massG ?? referenceG, row.temperatureC)));
  const scale = Math.exp(logs.reduce((sum, log) => sum + log, 0) / Math.max(1, logs.length));
  return (massG, temperatureC) => scale * byPractice(massG, temperatureC);
}
