/** Where the totals of a plan come from: weight, hours and cost. */
import type { PlanOutcome } from '../../plan/outcome.ts';
import { MEASURE_OF_UNIT, unknownsOf } from '../../part/order.ts';
import type { KitLine } from '../../part/types.ts';
import { isOnPart, roundedWeightRows, type WeightRow } from '../../part/weight.ts';
import { formatMetric } from '../../units/convert.ts';
import { massRowWords, massWords, roundedToSum, workHoursWords } from '../../units/summed.ts';
import { money, plural } from '../../units/words.ts';
import { machiningWords, unknownWords } from '../shopping.ts';
import type { Origin, OriginRow } from './origin.ts';
import { plain } from '../../units/words.ts';

/** The row in which a list is added up. */
export const TOGETHER = 'Together';

/**
 * The rows that add up to the part's weight, and beneath them what the target does not count.
 * @param route by its id; the chosen one
 */
export function massOrigin(outcome: PlanOutcome, route = outcome.result.route.id): Origin {
  const { targetIncludes } = outcome.detail.build.part;
  const rows = roundedWeightRows(outcome.detail.routes[route]!.weight).filter(
    ({ massKg }) => massKg !== 0,
  );
  const [counted, left] = [true, false].map((on) =>
    rows.filter((row) => isOnPart(row, targetIncludes) === on),
  ) as [WeightRow[], WeightRow[]];
  return {
    formula: 'Weight = the parts that the target counts, added up over all zones.',
    rows: [
      ...massRows(counted),
      ...left.map(({ name, massKg }) => ({ name, value: massWords(massKg), from: 'not counted' })),
    ],
    source:
      'Ply thickness = areal weight / (fibre density × fibre fraction); rule of mixtures. Cloth, ' +
      'core and resin figures from the library rows of this build.',
  };
}

/** Rows of a weight with what they come to; in both units they add up as they are shown. */
export function massRows(rows: readonly WeightRow[]): OriginRow[] {
  const words = massRowWords(rows.map(({ massKg }) => massKg));
  const total = rows.reduce((sum, { massKg }) => sum + massKg, 0);
  return [
    ...rows.map(({ name }, i) => ({ name, value: words[i]! })),
    { name: TOGETHER, value: `= ${massWords(total)}`, from: 'result' },
  ];
}

/** @param route by its id; the chosen one */
export function labourOrigin(outcome: PlanOutcome, route = outcome.result.route.id): Origin {
  const { labour } = outcome.detail.routes[route]!;
  const minutes = labour.map(({ personMinutes }) => personMinutes);
  const hours = roundedToSum(
    minutes.map((own) => own / 60),
    10,
  );
  return {
    formula:
      'Hours of work = one person’s time for every stage, and what the choices at the bench bring ' +
      'later, added up. Several people share the hours of a stage.',
    rows: [
      ...labour.map(({ name }, i) => ({ name, value: workHoursWords(hours[i]!) })),
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
        value: `${kitQuantity(line)} = ${priceOf(line.costMinor, currency)}`,
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
