/** Where the totals of a plan come from: weight, hours and cost. */
import type { PlanOutcome } from '../../plan/outcome.ts';
import { MEASURE_OF_UNIT } from '../../part/order.ts';
import type { KitLine } from '../../part/types.ts';
import { isOnPart, roundedWeightRows, type WeightRow } from '../../part/weight.ts';
import { formatMetric } from '../../units/convert.ts';
import { massRowWords, massWords, workHoursWords } from '../../units/summed.ts';
import { money, plural } from '../../units/words.ts';
import { machiningWords, unknownWords } from '../shopping.ts';
import type { Origin, OriginRow } from './origin.ts';

/** The rows that add up to the part's weight, and beneath them what the target does not count. */
export function massOrigin({ detail }: PlanOutcome): Origin {
  const { targetIncludes } = detail.build.part;
  const rows = roundedWeightRows(detail.weight).filter(({ massKg }) => massKg !== 0);
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
    { name: 'Together', value: `= ${massWords(total)}`, from: 'result' },
  ];
}

export function labourOrigin({ result }: PlanOutcome): Origin {
  const rows = result.breakdown?.labourHours ?? [];
  return {
    formula:
      'Hours of work = one person’s time for every stage, and what the choices at the bench bring ' +
      'later, added up. Several people share the hours of a stage.',
    rows: [
      ...rows.map(({ name, value }) => ({ name, value: workHoursWords(value) })),
      {
        name: 'Together',
        value: `= ${workHoursWords(result.totals.labourHours)}`,
        from: 'result',
      },
    ],
    source:
      'Minutes of a stage = set-up + minutes per m² × area + minutes per m² of ply + minutes per ' +
      'metre of edge, from the labour rows of the library.',
  };
}

export function costOrigin({ result, detail }: PlanOutcome): Origin {
  const batches = Object.values(detail.batches).reduce((sum, list) => sum + list.length, 0);
  const { currency } = result.build;
  const unknown = unknownWords(result.totals);
  const bags = result.route.cures.length;
  return {
    formula: 'Material = quantity × price of each line; bag materials once for every bag.',
    rows: [
      ...detail.kit.map((line) => ({
        name: line.name,
        value: `${quantity(line.quantity, line.unit)} = ${priceOf(line.costMinor, currency)}`,
        from: arrivalWords(line.leadDays),
      })),
      {
        name: 'Together',
        value: `= ${money(result.totals.materialCost, currency)}`,
        from: unknown ?? 'result',
      },
    ],
    source: `${machiningWords(result)}. ${plural(bags, 'bag')}, ${plural(batches, 'batch', 'batches')}. Prices from the library rows of this build.`,
  };
}

const priceOf = (costMinor: number | null, currency: string): string =>
  costMinor === null ? 'no price' : money(costMinor, currency);

/** `5 days to arrive`; nothing where it is at hand. */
export const arrivalWords = (leadDays: number | null): string =>
  leadDays === null
    ? 'lead time not known'
    : leadDays === 0
      ? ''
      : `${plural(leadDays, 'day')} to arrive`;

function quantity(value: number, unit: KitLine['unit']): string {
  const measure = MEASURE_OF_UNIT[unit];
  return measure ? formatMetric(value, measure) : `${Number(value.toFixed(3))} ${unit}`;
}
