/** Where the totals of a plan come from: weight, hours and cost. */
import { hardenersOf } from '../../document/hardener.ts';
import type { PlanOutcome } from '../../plan/outcome.ts';
import type { Origin } from './origin.ts';
import { length } from '../../time/words.ts';
import { sayBoth, sayMetric, type Measure } from '../../units/convert.ts';
import { money } from '../../units/words.ts';

export const MASS_NAMES = {
  fibre: 'Fibre',
  resin: 'Resin in the plies',
  core: 'Core',
  coreResin: 'Resin taken by the core',
  closeout: 'Closeout',
  fairing: 'Fairing',
  paint: 'Primer and paint',
} as const;
/** What is on the part in each of the states in which it is weighed. */
export const MASS_PARTS = {
  shell: ['fibre', 'resin', 'core', 'coreResin', 'closeout'],
  faired: ['fibre', 'resin', 'core', 'coreResin', 'closeout', 'fairing'],
  painted: ['fibre', 'resin', 'core', 'coreResin', 'closeout', 'fairing', 'paint'],
} as const;

export function massOrigin({ detail }: PlanOutcome): Origin {
  const { part, build } = detail;
  const counted: readonly string[] = MASS_PARTS[build.part.targetIncludes];
  return {
    formula: 'Weight = the parts that the target counts, added up over all zones.',
    rows: (Object.keys(MASS_NAMES) as (keyof typeof MASS_NAMES)[]).map((key) => ({
      name: MASS_NAMES[key],
      value: sayBoth(part.massKg[key], 'massKg'),
      from: counted.includes(key) ? 'counted' : 'not counted',
    })),
    source:
      'Ply thickness = areal weight / (fibre density × fibre fraction); rule of mixtures. Cloth, ' +
      'core and resin figures from the library rows of this build.',
  };
}

export function labourOrigin({ result, detail }: PlanOutcome): Origin {
  const rows = result.stages.flatMap((stage) => {
    const minutes = detail.workMinutes[stage.id];
    if (minutes === undefined || stage.people.length === 0) return [];
    const { provenance } = detail.part.workFor(stage.kind);
    return [
      {
        name: stage.name,
        value: `${length(minutes)} × ${stage.people.length}`,
        from: provenance.kind.replace('-', ' '),
      },
    ];
  });
  return {
    formula: 'Hands-on hours = length of each stage × people on it, added up.',
    rows,
    source:
      'Minutes of a stage = set-up + minutes per m² × area + minutes per m² of ply + minutes per ' +
      'metre of edge, from the labour rows of the library.',
  };
}

const UNIT_MEASURE: Readonly<Partial<Record<string, Measure>>> = {
  m2: 'areaM2',
  m: 'lengthM',
  kg: 'massKg',
};

export function costOrigin({ result, detail }: PlanOutcome): Origin {
  const batches = Object.values(detail.batches).reduce((sum, list) => sum + list.length, 0);
  const { currency } = result.build;
  const hardeners = hardenersOf(detail.build, result.route.cures);
  return {
    formula: 'Material = quantity × price of each line; bag materials once for every bag.',
    rows: detail.part.kitFor(result.route.cures.length, batches, hardeners).map((line) => ({
      name: line.name,
      value: `${quantity(line.quantity, line.unit)} = ${money(line.costMinor, currency)}`,
      from: line.leadDays > 0 ? `${line.leadDays} days to arrive` : '',
    })),
    source: `${result.route.cures.length} bags, ${batches} batches. Prices from the library rows of this build.`,
  };
}

function quantity(value: number, unit: string): string {
  const measure = UNIT_MEASURE[unit];
  return measure ? sayMetric(value, measure) : `${Number(value.toFixed(3))} ${unit}`;
}
