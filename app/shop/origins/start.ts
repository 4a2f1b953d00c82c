/** Where the moments of a stage come from: its start, how far it may move, its time to spare. */
import type { StageResult } from '../../document/schema.ts';
import type { PlanOutcome } from '../../plan/outcome.ts';
import { byCodeUnit, dayClock, dayClockOr, floatWords } from '../words.ts';
import { result, type Origin, type OriginRow } from './origin.ts';

const RULES =
  'The rules about when, each with its reason and source: under ?, What the plan obeys.';

/** Of what comes before a stage, so many are named: those that end last. */
const MOST_BEFORE = 4;

/** What must have come directly before, and when it is done; the last of it below. */
function beforeRows({ detail, result: { stages } }: PlanOutcome, { id }: StageResult): OriginRow[] {
  const before = new Set(detail.before?.[id] ?? []);
  return stages
    .filter((one) => before.has(one.id) && one.end !== null)
    .toSorted((a, b) => byCodeUnit(a.end!, b.end!))
    .slice(-MOST_BEFORE)
    .map(({ name, end }) => ({ name, value: `done ${dayClock(end!)}`, from: 'comes before it' }));
}

const namesOf = ({ detail }: PlanOutcome, people: readonly string[]): string =>
  people.map((id) => detail.build.crew.find((person) => person.id === id)?.name ?? id).join(', ');

function whoRows(outcome: PlanOutcome, stage: StageResult): OriginRow[] {
  const who = namesOf(outcome, stage.people);
  return [
    ...(who === '' ? [] : [{ name: 'People', value: who, from: 'their hours: typed or assumed' }]),
    ...(stage.gear.length === 0
      ? []
      : [{ name: 'Gear', value: stage.gear.map((one) => one.replace(/-/g, ' ')).join(', ') }]),
  ];
}

/** The name of the stage that is fixed by hand and keeps this one from starting sooner. */
function fixedRows({ detail, result: { stages } }: PlanOutcome, { id }: StageResult): OriginRow[] {
  const cause = detail.shown?.fixedBy?.[id];
  const name = stages.find((stage) => stage.id === cause)?.name;
  return name === undefined ? [] : [{ name, value: 'holds it back', from: 'fixed by hand' }];
}

const limitRows = ({ earliestStart, latestStart }: StageResult): OriginRow[] => [
  { name: 'Earliest start', value: dayClockOr(earliestStart, '–'), from: 'everything before it' },
  { name: 'Latest start', value: dayClockOr(latestStart, '–'), from: 'everything after it' },
];

/** When a stage starts in the plan. */
export function startOrigin(outcome: PlanOutcome, stage: StageResult): Origin {
  return {
    formula:
      'A stage starts as soon as what comes before it is done, its people and gear are free in their hours, ' +
      'and its rules let it begin; what perishes (release, stripped peel ply, mixes) as late as it may.',
    rows: [
      ...beforeRows(outcome, stage),
      ...fixedRows(outcome, stage),
      ...whoRows(outcome, stage),
      ...limitRows(stage),
      result('Start', dayClockOr(stage.start, 'not placed')),
    ],
    source: RULES,
  };
}

/** The moments between which a stage may lie. */
export function limitOrigin(
  outcome: PlanOutcome,
  stage: StageResult,
  which: 'earliestStart' | 'latestStart' | 'latestEnd',
): Origin {
  const value = dayClockOr(stage[which], '–');
  if (which === 'earliestStart') {
    return {
      formula:
        'Earliest start = every stage before it as early as the rules let it, in this plan’s order.',
      rows: [
        ...beforeRows(outcome, stage),
        ...whoRows(outcome, stage),
        result('Earliest start', value),
      ],
      source: RULES,
    };
  }
  return {
    formula:
      'Latest start and end = every stage after it as late as the fixed dates let it, in this plan’s order.',
    rows: [
      ...fixedDates(outcome),
      ...whoRows(outcome, stage),
      result(which === 'latestStart' ? 'Latest start' : 'Latest end', value),
    ],
    source: RULES,
  };
}

/** The dates that a plan is held to. */
function fixedDates({ result: { spare = [], stages, deadline } }: PlanOutcome): OriginRow[] {
  const slots = spare
    .filter(({ before }) => before !== null)
    .map(({ before, at }) => ({
      name: stages.find(({ id }) => id === before)?.name ?? 'A fixed date',
      value: dayClock(at),
      from: 'fixed',
    }));
  return [...slots, { name: 'Unveiling', value: dayClock(deadline), from: 'typed' }];
}

/** The time that one stage has to spare. */
export function floatOrigin(outcome: PlanOutcome, stage: StageResult): Origin {
  return {
    formula:
      'To spare = latest start − earliest start, counted in the hours of those who do it; round the ' +
      'clock for a cure.',
    rows: [
      ...limitRows(stage),
      ...whoRows(outcome, stage),
      result('To spare', floatWords(stage.floatHours)),
    ],
    source:
      'Both from this plan’s own order of people and gear; what it shares with others is gone when they take it.',
  };
}
