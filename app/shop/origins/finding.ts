/** Where a finding comes from: its rule, the numbers held against each other, the rows behind them. */
import type { Finding } from '../../document/schema.ts';
import { codesWhere, type FindingCode } from '../../messages/findings.ts';
import type { PlanOutcome } from '../../plan/outcome.ts';
import { length } from '../../time/words.ts';
import { formatBoth, type Measure } from '../../units/convert.ts';
import { exact, money, percent, plain } from '../../units/words.ts';
import { dayClock, floatWords } from '../words.ts';
import { FINDING_RULES, type FindingRule } from './findingRules.ts';
import { practiceOrigin, type Origin, type OriginRow } from './origin.ts';

/** How a published number of a finding is written. */
type Written = Measure | 'money' | 'share' | 'times' | 'hoursLong' | 'minutesLong';

const NUMBERS: Readonly<Record<string, readonly [name: string, as: Written]>> = {
  afterCostMinor: ['Plies added after demould cost', 'money'],
  afterHours: ['Plies added after demould take', 'hoursLong'],
  afterKg: ['Plies added after demould weigh', 'massKg'],
  areaM2: ['Area', 'areaM2'],
  bakeC: ['Bake', 'temperatureC'],
  betweenCostMinor: ['Plies added between the skins cost', 'money'],
  betweenHours: ['Plies added between the skins take', 'hoursLong'],
  betweenKg: ['Plies added between the skins weigh', 'massKg'],
  blockMm: ['Gives under a sanding block', 'lengthMm'],
  bonds: ['Bonds', 'count'],
  calls: ['Times that the helper comes', 'count'],
  coldestC: ['Coldest', 'temperatureC'],
  costMinor: ['Cost', 'money'],
  coupling: ['Counted softer for skins that twist', 'times'],
  daysPast: ['Days since then', 'count'],
  dewPointC: ['Dew point', 'temperatureC'],
  extraHours: ['Work against separate cures', 'hours'],
  extraKg: ['Weight against separate cures', 'massKg'],
  fibreFraction: ['Fibre fraction', 'share'],
  fillMinutes: ['Filled after', 'minutesLong'],
  fillerKg: ['Filler', 'massKg'],
  fullVacuumMinutes: ['Bag down and drawn within', 'minutesLong'],
  gapMm: ['Room for it', 'lengthMm'],
  gelMinutes: ['Gel after', 'minutesLong'],
  growthMm: ['Growth of the mould', 'lengthMm'],
  handMm: ['Gives under a hand', 'lengthMm'],
  heatC: ['Heat', 'temperatureC'],
  heatMinutes: ['Heat lasts', 'minutesLong'],
  heldC: ['Held at, at least', 'temperatureC'],
  high: ['Most that is usual', 'share'],
  hottestC: ['Hottest', 'temperatureC'],
  hours: ['Hours of work', 'hours'],
  hoursLate: ['Late by', 'hoursLong'],
  humidityPct: ['Humidity', 'percent'],
  innerPlies: ['Plies of the inner skin', 'count'],
  joints: ['Joints', 'count'],
  largestG: ['Largest batch that holds', 'massG'],
  lateMinutes: ['Late by', 'minutesLong'],
  leastRadiusMm: ['Least radius', 'lengthMm'],
  lengthM: ['Way to fill', 'lengthM'],
  lifts: ['Lifts', 'count'],
  limitC: ['Limit', 'temperatureC'],
  limitMm: ['Limit', 'lengthMm'],
  lines: ['Lines', 'count'],
  longestMinutes: ['Longest stretch of hours', 'minutesLong'],
  low: ['Least that is usual', 'share'],
  massG: ['Batch', 'massG'],
  massKg: ['Weight', 'massKg'],
  maxC: ['Limit', 'temperatureC'],
  maxVacuumKPa: ['Vacuum, at most', 'vacuumKPa'],
  minimumC: ['The hardener is for, at least', 'temperatureC'],
  minutes: ['Takes', 'minutesLong'],
  minutesEach: ['For each bond', 'minutesLong'],
  moreBatches: ['More batches', 'count'],
  mostHours: ['At worst', 'hoursLong'],
  mostKPerHour: ['Fastest rise that is usual', 'rampKPerHour'],
  neededTgC: ['Tg needed', 'temperatureC'],
  nights: ['Nights', 'count'],
  openMinutes: ['First ply stays open', 'minutesLong'],
  outerPlies: ['Plies of the outer skin', 'count'],
  overtimeHours: ['Overtime', 'hoursLong'],
  peakC: ['Peak', 'temperatureC'],
  people: ['People', 'count'],
  plies: ['Plies that would mend it', 'count'],
  radiusMm: ['Radius', 'lengthMm'],
  rampKPerHour: ['Steepest rise', 'rampKPerHour'],
  smallerG: ['Smaller batch', 'massG'],
  spanMm: ['Span', 'lengthMm'],
  spareHours: ['To spare', 'hoursLong'],
  stackMm: ['Stack', 'lengthMm'],
  stages: ['Stages', 'count'],
  stagesMoved: ['Stages moved', 'count'],
  standsC: ['Stands', 'temperatureC'],
  stripMinutes: ['Stripping takes', 'minutesLong'],
  targetMassKg: ['Target', 'massKg'],
  temperatureC: ['Temperature', 'temperatureC'],
  tentC: ['Tent', 'temperatureC'],
  tgC: ['Tg', 'temperatureC'],
  theoryMm: ['By plate theory', 'lengthMm'],
  thicknessMm: ['Thickness', 'lengthMm'],
  tried: ['Looks taken', 'count'],
  unknown: ['Not known', 'count'],
  warmC: ['Warm', 'temperatureC'],
  waysOut: ['Ways out looked at', 'count'],
  wetMinutes: ['First mix to sealed bag', 'minutesLong'],
  withTgC: ['Tg with the post-cure', 'temperatureC'],
};

/** Names of what a finding names by a text. */
const TEXTS: Readonly<Record<string, string>> = {
  after: 'Begun',
  before: 'Would come first',
  best: 'Best finish',
  closed: 'Closed',
  closes: 'Closes',
  cloth: 'Cloth',
  core: 'Core',
  mould: 'Mould',
  process: 'Way of laying up',
  release: 'Release',
  shape: 'Shape',
  zone: 'Zone',
};

/** Findings that hang on the dates of the plan. */
const ofPlan = codesWhere(({ dependsOn }) => dependsOn !== 'document');

/** Where a finding comes from. */
export function findingOrigin(outcome: PlanOutcome, finding: Finding): Origin {
  const rule = ruleOf(finding.code);
  const from = ofPlan.has(finding.code) ? 'this plan' : 'this build';
  return {
    formula: rule.rule,
    rows: [
      ...Object.entries(finding.numbers).flatMap(([key, value]) =>
        value === null ? [] : [numberRow(outcome, key, value, from)],
      ),
      ...stageRows(outcome, finding),
      ...(rule.practice ?? []).map((id) => practiceOrigin(outcome.detail.library, id)),
    ],
    source: rule.source,
  };
}

/** A finding that this version does not know has no rule to tell. */
const ruleOf = (code: string): FindingRule =>
  Object.hasOwn(FINDING_RULES, code)
    ? FINDING_RULES[code as FindingCode]
    : { rule: 'The rule of this finding is not known here.', source: '' };

function numberRow(
  outcome: PlanOutcome,
  key: string,
  value: number | string,
  from: string,
): OriginRow {
  const known = NUMBERS[key];
  if (typeof value === 'number' && known) {
    const [name, as] = known;
    return { name, value: written(value, as, outcome.result.build.currency), from };
  }
  const name = stageName(outcome, key) ?? TEXTS[key] ?? spelt(key);
  if (typeof value === 'number') return { name, value: plain(value, 3) };
  return { name, value: rowName(outcome, key, value) ?? value };
}

function written(value: number, as: Written, currency: string): string {
  switch (as) {
    case 'money':
      return money(value, currency);
    case 'share':
      return percent(value);
    case 'times':
      return `× ${exact(value)}`;
    case 'hoursLong':
      return length(Math.abs(Math.round(value * 60)));
    case 'minutesLong':
      return length(Math.abs(value));
    default:
      return formatBoth(value, as);
  }
}

const stageName = ({ result }: PlanOutcome, id: string): string | undefined =>
  result.stages.find((stage) => stage.id === id)?.name;

/** Tables of the library by the keys under which a finding names their rows. */
const TABLE_OF = {
  cloth: 'cloths',
  core: 'cores',
  mould: 'moulds',
  release: 'releases',
} as const;

function rowName({ detail }: PlanOutcome, key: string, id: string): string | undefined {
  if (!Object.hasOwn(TABLE_OF, key)) return undefined;
  const rows: readonly { readonly id: string; readonly name: string }[] =
    detail.library[TABLE_OF[key as keyof typeof TABLE_OF]];
  return rows.find((row) => row.id === id)?.name;
}

/** `fact 1` as it is; a name that no table has in plain words: `floatHours` as `float hours`. */
const spelt = (key: string): string => key.replace(/([a-z])([A-Z])/g, '$1 $2').toLowerCase();

/** When the stage that it names lies, and what that has to spare. */
function stageRows({ result: { stages } }: PlanOutcome, { stage: id }: Finding): OriginRow[] {
  const stage = stages.find((one) => one.id === id);
  if (!stage || stage.start === null) return [];
  const { name, start, floatHours } = stage;
  return [
    { name, value: dayClock(start), from: 'start in this plan' },
    { name: 'To spare', value: floatWords(floatHours), from: 'this plan' },
  ];
}
