/** Where the totals of a plan come from: weight, hours and cost. */
import type { PlanOutcome } from '../../plan/outcome.ts';
import { MEASURE_OF_UNIT, unknownsOf } from '../../part/order.ts';
import type { KitLine } from '../../part/types.ts';
import {
  isOnPart,
  roundedWeightRows,
  type WeightRow,
  type WeightState,
} from '../../part/weight.ts';
import { formatMetric } from '../../units/convert.ts';
import { massRowWords, massWords, workHoursRowWords, workHoursWords } from '../../units/summed.ts';
import { money, plain, plural } from '../../units/words.ts';
import { machiningWords, unknownWords } from '../shopping.ts';
import type { Origin, OriginRow } from './origin.ts';

/** The row in which a list is added up. */
export const TOGETHER = 'Together';

/** Said of what a total does not take in. */
export const NOT_COUNTED = 'not counted';

/** A row of the part's weight with what it comes to, in both units. */
export interface WeighedRow {
  readonly row: WeightRow;
  readonly value: string;
  /** False: beneath the sum, for the target does not take it in. */
  readonly isCounted: boolean;
}

/**
 * What weighs in a state of the part, which as shown adds up to its weight there in both units; then what does
 * not yet.
 */
export function weighedRows(weight: readonly WeightRow[], state: WeightState): WeighedRow[] {
  const rows = roundedWeightRows(weight).filter(({ massKg }) => massKg !== 0);
  const counted = rows.filter((row) => isOnPart(row, state));
  const words = massRowWords(counted.map(({ massKg }) => massKg));
  return [
    ...counted.map((row, i) => ({ row, value: words[i]!, isCounted: true })),
    ...rows
      .filter((row) => !counted.includes(row))
      .map((row) => ({ row, value: massWords(row.massKg), isCounted: false })),
  ];
}

/** The rows that are counted, and what they come to together. */
export function togetherRows(rows: readonly WeighedRow[]): OriginRow[] {
  const counted = rows.filter(({ isCounted }) => isCounted);
  const totalKg = counted.reduce((sum, { row }) => sum + row.massKg, 0);
  return [
    ...counted.map(({ row, value }) => ({ name: row.name, value })),
    { name: TOGETHER, value: `= ${massWords(totalKg)}`, from: 'result' },
  ];
}

/** @param route by its id; the chosen one */
export function massOrigin({ detail, result }: PlanOutcome, route = result.route.id): Origin {
  const rows = weighedRows(detail.routes[route]!.weight, detail.build.part.targetIncludes);
  return {
    formula: 'Weight = the parts that the target counts, added up over all zones.',
    rows: [
      ...togetherRows(rows),
      ...rows
        .filter(({ isCounted }) => !isCounted)
        .map(({ row, value }) => ({ name: row.name, value, from: NOT_COUNTED })),
    ],
    source:
      'Ply thickness = areal weight / (fibre density × fibre fraction); rule of mixtures. Cloth, ' +
      'core and resin figures from the library rows of this build.',
  };
}

/** @param route by its id; the chosen one */
export function labourOrigin(outcome: PlanOutcome, route = outcome.result.route.id): Origin {
  const { labour } = outcome.detail.routes[route]!;
  const minutes = labour.map(({ personMinutes }) => personMinutes);
  const words = workHoursRowWords(minutes);
  return {
    formula:
      'Hours of work = one person’s time for every stage, and what the choices at the bench bring ' +
      'later, added up. Several people share the hours of a stage.',
    rows: [
      ...labour.map(({ name }, i) => ({ name, value: words[i]! })),
      {
        name: TOGETHER,
        value: `= ${workHoursWords(minutes.reduce((sum, own) => sum + own, 0) / 60)}`,
        from: 'result',
      },
    ],
    source:
      'Minutes of a stage = set-up + minutes per m² × area + minutes per m² of ply + minutes per ' +
      'metre of edge, from the labour rows of the library.',
  };
}

/** @param route by its id; the chosen one */
export function costOrigin(outcome: PlanOutcome, route = outcome.result.route.id): Origin {
  const { result } = outcome;
  const { kit, bags, batches } = outcome.detail.routes[route]!;
  const { currency } = result.build;
  const costMinor = kit.reduce((sum, line) => sum + (line.costMinor ?? 0), 0);
  return {
    formula: 'Material = quantity × price of each line; bag materials once for every bag.',
    rows: [
      ...kit.map((line) => ({
        name: line.name,
        value: kitLineWords(line, currency),
        from: arrivalWords(line.leadDays),
      })),
      {
        name: TOGETHER,
        value: `= ${money(costMinor, currency)}`,
        from: unknownWords(unknownsOf(kit)) ?? 'result',
      },
    ],
    source: `${machiningWords(result)}. ${plural(bags, 'bag')}, ${plural(batches, 'batch', 'batches')}. Prices from the library rows of this build.`,
  };
}

export const priceOf = (costMinor: number | null, currency: string): string =>
  costMinor === null ? 'no price' : money(costMinor, currency);

/** `2.4 m² (25.8 ft²) = 31.20 EUR`: how much is bought and what it costs. */
export const kitLineWords = (line: KitLine, currency: string): string =>
  `${kitQuantity(line)} = ${priceOf(line.costMinor, currency)}`;

/** `5 days to arrive`; nothing where it is at hand. */
export const arrivalWords = (leadDays: number | null): string =>
  leadDays === null
    ? 'lead time not known'
    : leadDays === 0
      ? ''
      : `${plural(leadDays, 'day')} to arrive`;

export function kitQuantity({ quantity, unit }: KitLine): string {
  const measure = MEASURE_OF_UNIT[unit];
  return measure ? formatMetric(quantity, measure) : `${plain(quantity, 3)} ${unit}`;
}
