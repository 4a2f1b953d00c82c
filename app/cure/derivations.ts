/** Where the chemistry's figures come from: formula, inputs with their origin, source of the formula. */
import type { HardenerRow, Library, Milestone, PracticeRow, SheetRow } from '../document/schema.ts';
import { practiceOf } from '../document/library.ts';
import { milestoneWord } from './words.ts';
import type { Derivation, Input } from '../part/derivations.ts';
import type { Minute } from '../time/instant.ts';
import { NO_CORRECTION } from './bench.ts';
import type { StatefulClock } from './clock.ts';
import { batchCurve, type BatchCase } from './pot.ts';
import { MILESTONE_OF_ROW } from './sheet-model.ts';
import type { CureModel } from './types.ts';
import { exact } from '../units/words.ts';

const DOSE_SOURCE =
  'Equivalent age of the maturity method, ASTM C1074 (formula from memory); rate after Kamal & ' +
  'Sourour with one activation energy; Tg after DiBenedetto.';

/** @throws MissingRow */
export function practiceInput(library: Library, id: string): Input {
  const value = practiceOf(library)(id);
  const { name, unit, provenance }: PracticeRow = library.practice.find((row) => row.id === id)!;
  return { name, value, unit, provenance };
}

const fitted = (name: string, value: number, unit: string): Input => ({
  name,
  value,
  unit,
  provenance: null,
});

const MEASURED = { kind: 'measured', source: 'at the bench, typed into this build' } as const;
const smearInput = (filmTimes: number): Input => ({
  name: 'Smear: times of the film over the sheet’s',
  value: filmTimes,
  unit: '×',
  provenance: MEASURED,
});
const cupInput = (cupPace: number): Input => ({
  name: 'Leftover cup: pace of the pot over the sheet’s',
  value: cupPace,
  unit: '×',
  provenance: MEASURED,
});

const rowInput = (row: SheetRow, { provenance }: HardenerRow): Input => ({
  name:
    `Sheet: ${row.what} at ${exact(row.temperatureC)} °C` +
    (row.massG === undefined ? '' : `, ${exact(row.massG)} g`),
  value: row.minutes,
  unit: 'min',
  provenance,
});

/**
 * When a cure started at `start` reaches a milestone. Results: hours from start, and the dose.
 * @param reached where the plan has it otherwise than the clock alone
 * @throws MissingRow
 */
export function explainMilestone(
  model: CureModel,
  hardener: HardenerRow,
  clock: StatefulClock,
  start: Minute,
  milestone: Milestone,
  library: Library,
  reached: Minute | null = clock.reached(start, milestone),
): Derivation {
  const rows = hardener.sheet.filter((row) => MILESTONE_OF_ROW[row.what] === milestone);
  const range = clock.range(start, reached ?? start);
  const dose = model.doseHours[milestone];
  const { filmTimes } = hardener.bench ?? NO_CORRECTION;
  return {
    formula:
      'dose = ∫ exp(−E/R (1/T − 1/Tref)) dt, divided by 1 + exp((Tg − T − half) / width) once Tg ' +
      'stands near T; reached when the dose is that of the milestone',
    inputs: [
      ...rows.map((row) => rowInput(row, hardener)),
      ...(filmTimes === 1 ? [] : [smearInput(filmTimes)]),
      fitted('Activation energy, fitted', model.activationEnergyJMol / 1000, 'kJ/mol'),
      ...(rows.length === 0 ? [practiceInput(library, 'cure-rate-factor-per-10c')] : []),
      fitted('Coldest on the way', range.minC, '°C'),
      fitted('Warmest on the way', range.maxC, '°C'),
      practiceInput(library, 'cure-slows-over-c'),
      practiceInput(library, 'cure-halves-over-c'),
      practiceInput(library, 'cure-slow-width-c'),
    ],
    results: [
      ...(dose === null
        ? []
        : [{ name: `Dose of ${milestoneWord(milestone)}`, value: dose, unit: 'h at 20 °C' }]),
      ...(reached === null
        ? []
        : [{ name: milestoneWord(milestone), value: (reached - start) / 60, unit: 'h' }]),
    ],
    source: DOSE_SOURCE,
  };
}

/** Pot life and peak of a batch. @throws MissingRow */
export function explainBatch(
  model: CureModel,
  hardener: HardenerRow,
  batch: BatchCase,
  library: Library,
): Derivation {
  const { potLifeMinutes, peakC } = batchCurve(model, batch, practiceOf(library));
  const { cupPace } = hardener.bench ?? NO_CORRECTION;
  const heat: Input =
    hardener.heatOfReactionJG === null
      ? fitted('Heat of reaction, assumed', model.kinetics?.heatJG ?? 0, 'J/g')
      : {
          name: 'Heat of reaction',
          value: hardener.heatOfReactionJG,
          unit: 'J/g',
          provenance: hardener.provenance,
        };
  return {
    formula: 'm cp dT/dt = m H dα/dt − U A (T − room); workable until too thick or too hot',
    inputs: [
      ...hardener.sheet
        .filter((row) => row.what === 'pot-life')
        .map((row) => rowInput(row, hardener)),
      fitted('Batch', batch.massG, 'g'),
      fitted('Room', batch.roomC, '°C'),
      fitted('Resin when mixed', batch.resinC ?? batch.roomC, '°C'),
      heat,
      practiceInput(library, 'cure-heat-capacity-j-gk'),
      practiceInput(library, 'cure-cup-loss-w-m2k'),
      fitted('Heat loss over the usual, fitted', model.pot?.lossFactor ?? 1, ''),
      ...(cupPace === 1 ? [] : [cupInput(cupPace)]),
      fitted('Too thick at a degree of cure of', model.pot?.openDegree ?? 0, ''),
      practiceInput(library, 'cure-cup-hottest-c'),
    ],
    results: [
      ...(potLifeMinutes === null
        ? []
        : [{ name: 'Pot life', value: potLifeMinutes, unit: 'min' }]),
      { name: 'Peak when left in the cup', value: peakC, unit: '°C' },
    ],
    source:
      'Heat balance of one lump (Semenov); own arithmetic. How pot life falls with mass is this model’s: ' +
      'no published pair of masses of one resin was found to hold it against.',
  };
}
