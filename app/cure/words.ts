/** Sentences about the chemistry, for people at the bench. Numbers come with their units. */
import type { Milestone } from '../document/schema.ts';
import type { LogIssue, LogIssueKind } from './logger.ts';
import type { PracticeLookup } from './practice.ts';
import type { FigureFault, RowFault } from './sheet-check.ts';
import { decimals } from '../units/formats.ts';
import { exact } from '../units/words.ts';

const MILESTONE_WORDS: Readonly<Record<Milestone, string>> = {
  open: 'open time of the film',
  gel: 'gel of the film',
  tackFree: 'tack-free',
  debag: 'bag-off',
  demould: 'demould',
  sand: 'sandable',
  bondUntil: 'end of the bond window',
  full: 'full cure',
};

/** The milestone as the bench says it. */
export const milestoneWord = (milestone: Milestone): string => MILESTONE_WORDS[milestone];

const list = (words: readonly string[]): string =>
  words.length < 2
    ? words.join('')
    : `${words.slice(0, -1).join(', ')} and ${words[words.length - 1]}`;

/** Sentences about what was assumed or corrected, by what they are about. */
export const cureText = {
  oneTemperature: (factor: number) =>
    `The sheet gives one temperature only: the rate is taken to grow ${exact(factor)} times for 10 °C (common practice).`,
  slopeOpen: (pivotC: number, flatKJMol: number, steepKJMol: number) =>
    `Rows of the cure are at ${decimals(pivotC, 0)} °C only. Away from it what may come early is reckoned early and what may come late is reckoned late, by ${decimals(flatKJMol, 0)} to ${decimals(steepKJMol, 0)} kJ/mol, the range of published tables. A row at a second temperature narrows it.`,
  energyAtLimit: (kJMol: number) =>
    `The rows at different temperatures do not go together: the activation energy is held at ${decimals(kJMol, 0)} kJ/mol.`,
  potToFilm: (heatJG: number, lossWM2K: number) =>
    `Pot life is a mass in a cup heating itself, not a film: the film is worked out from it with ${decimals(heatJG, 0)} J/g of reaction heat and a cup losing ${decimals(lossWM2K, 0)} W/(m² K).`,
  potWithoutMass: (referenceG: number) =>
    `A pot life row states no mass: ${exact(referenceG)} g is taken.`,
  heatAssumed: (heatJG: number) => `Heat of reaction assumed: ${heatJG} J/g.`,
  tgAssumed: (tgC: number) => `Glass transition after full post-cure assumed: ${exact(tgC)} °C.`,
  byPractice: (milestones: readonly Milestone[]) =>
    `Not on the sheet, taken from usual ratios (common practice): ${list(milestones.map(milestoneWord))}.`,
  smearSaid: (factor: number) =>
    `A smear on the flange gelled at ${decimals(factor, 2)} times the sheet's time: every time of the film is taken so (measured).`,
  cupSaid: (pace: number) =>
    `A leftover cup ran ${decimals(pace, 2)} times as quick as the sheet's: pot lives are taken so, the laminate is not (measured).`,
  raised: (milestone: Milestone, before: Milestone) =>
    `The sheet has ${milestoneWord(milestone)} before ${milestoneWord(before)}: it is taken to come no earlier.`,
};

/** null: the clock alone decides. */
const WITNESS: Readonly<Record<Milestone, ((shoreD: number, coolerC: number) => string) | null>> = {
  open: null,
  gel: () => 'A smear of 1 to 2 mm on released film on the flange pulls no more strings.',
  tackFree: () => 'A gloved finger leaves no mark on the smear.',
  debag: (shoreD, coolerC) =>
    `The smear snaps, a nail leaves no mark, Shore D ${shoreD}; part below ${exact(coolerC)} °C.`,
  demould: (shoreD) => `Shore D ${shoreD} or more on the flange; part at room temperature.`,
  sand: () => 'Dust comes off, not gum.',
  bondUntil: null,
  full: () => 'Hardness stops rising from one day to the next.',
};

/**
 * What decides at the bench that a milestone is reached, beside the computed time; empty when the
 * clock alone does. A leftover cup says something about the pot only.
 */
export const witness = (milestone: Milestone, practice: PracticeLookup): string =>
  WITNESS[milestone]?.(practice('witness-shore-d'), practice('debag-below-c')) ?? '';

const many = (count: number, one: string): string => `${count} ${one}${count === 1 ? '' : 's'}`;

const ISSUE_WORDS: Readonly<Record<LogIssueKind, (count: number, line: number) => string>> = {
  'not-a-log': () => 'This is no table of times and temperatures.',
  empty: () => 'The file is empty.',
  'no-zone': (_, line) =>
    `Line ${line} has a time without a zone. Add an offset such as +01:00, or say which zone the logger kept.`,
  'date-order': (_, line) =>
    `Line ${line}: day or month first is not clear. Write 2027-05-14 or 14.05.2027.`,
  'comma-unclear': (_, line) =>
    `Line ${line}: the comma may part columns or be a decimal comma. Add a line of names, or part the columns by semicolons.`,
  'no-temperature': () => 'No column holds temperatures.',
  'zone-taken': () => 'Times without a zone were read by the clock of the build.',
  'byte-order-mark': () => 'A byte-order mark at the start was left out.',
  'decimal-comma': () => 'Decimal commas were read as decimals.',
  fahrenheit: () => 'Temperatures in °F were turned into °C.',
  unreadable: (count, line) =>
    `${many(count, 'line')} without time or number left out, the first ${line}.`,
  impossible: (count, line) =>
    `${many(count, 'temperature')} that no shop has left out, the first in line ${line}.`,
  'no-such-time': (count, line) =>
    `${many(count, 'time')} that the spring change leaves out left out, the first in line ${line}.`,
  'out-of-order': (count, line) =>
    `${many(count, 'line')} out of order put in order, the first ${line}.`,
  repeated: (count) => `${many(count, 'repeated line')} left out.`,
  'repeated-differently': (count) =>
    `${many(count, 'time')} came with two temperatures: the colder one is kept.`,
  'too-long': () => 'First and last reading are more than 400 days apart: a year may be mistyped.',
  gap: (count) => `${many(count, 'gap')} filled with the colder of both ends.`,
};

/** What was wrong with a logger's file, and what was done about it. */
export const logIssueText = ({ kind, count, line }: LogIssue): string =>
  ISSUE_WORDS[kind](count, line);

/** A row of a sheet that cannot be; rows are counted from 1. */
export function rowFaultText(fault: RowFault): string {
  const row = `Row ${fault.row + 1}`;
  switch (fault.fault) {
    case 'no-time':
      return `${row} has no time.`;
    case 'no-mass':
      return `${row} has no mass.`;
    case 'temperature': {
      const { temperatureC, fahrenheitC } = fault;
      const no = `${row}: ${exact(temperatureC)} °C is no temperature to laminate at.`;
      return fahrenheitC === null
        ? no
        : `${no} ${exact(temperatureC)} °F would be ${exact(fahrenheitC)} °C.`;
    }
    case 'order':
      return `${row} comes before row ${fault.against + 1} in time but after it in the cure.`;
    case 'hotter-slower':
      return `${row} is hotter than row ${fault.against + 1} and yet slower.`;
    case 'heavier-longer':
      return `${row} is heavier than row ${fault.against + 1} and yet lives longer.`;
    case 'twice':
      return `${row} gives row ${fault.against + 1} again with another time.`;
  }
}

/** A figure of a sheet that is doubted: what was found, what was expected. */
export function figureFaultText(fault: FigureFault): string {
  if (fault.fault === 'volume') {
    const { found, expected } = fault;
    return `Mix by volume: found ${exact(found)} ml for 100 ml, but mass and densities give ${decimals(expected, 1)} ml. Weigh it, or check the sheet.`;
  }
  const { step, temperatureC, mostC, fahrenheitC } = fault;
  const what = fault.fault === 'tg' ? 'Highest Tg' : `Post-cure step ${step + 1}`;
  const why = fault.fault === 'tg' ? 'for a laminating resin' : 'for this Tg';
  const asked = `${what}: found ${exact(temperatureC)} °C, expected up to ${exact(mostC)} °C ${why}.`;
  return fahrenheitC === null
    ? asked
    : `${asked} Did you mean °F? ${exact(temperatureC)} °F would be ${exact(fahrenheitC)} °C.`;
}
