/** A planned network in lines for a terminal: stages, relations with their slack, and why. */
import { relationWords } from '../../app/messages/relations.ts';
import { dayAndTime, elapsed, listed } from '../../app/messages/words.ts';
import {
  relationSlacks,
  explainStart,
  type Binding,
  type EarlierStart,
  type RelationSlack,
} from '../../app/schedule/binding.ts';
import type { PlacedWithFloat, Problem } from '../../app/schedule/problem.ts';
import type { Minute } from '../../app/time/instant.ts';
import { plainName } from './input.ts';
import { minuteToLocal } from '../../app/time/zone.ts';

export interface PlannedNetwork {
  /** Name of the build. */
  readonly name: string;
  /** IANA zone of the build. */
  readonly zone: string;
  /** Id of the taken route. */
  readonly route: string;
  readonly problem: Problem;
  /** In start order. */
  readonly placed: readonly PlacedWithFloat[];
}

/** Every stage as planned, and every relation with its words and the room left in it. */
export function networkText(network: PlannedNetwork): string {
  const { name, route, zone, problem, placed } = network;
  const short = (minute: Minute): string => {
    const { date, time, weekday } = minuteToLocal(minute, zone);
    return `${weekday} ${date} ${time}`;
  };
  const stages = placed.map((one) => [
    short(one.start),
    short(one.end),
    one.floatMinutes === null ? 'fixed' : `float ${signed(one.floatMinutes)}`,
    one.stage,
    `in ${one.mode || 'no mode'}`,
  ]);
  const order = new Map(placed.map((one, i) => [one.stage, i]));
  const at = ({ relation }: RelationSlack): number => order.get(relation.to) ?? placed.length;
  const relations = relationSlacks(problem, placed)
    .toSorted((a, b) => at(a) - at(b))
    .map(({ relation, inForce, slackMinutes }) => [
      relation.type,
      `${relation.anchor} of ${relation.from}`,
      `start of ${relation.to}`,
      !inForce
        ? 'not in force'
        : slackMinutes === null
          ? 'no limit'
          : `slack ${signed(slackMinutes)}`,
      relation.onlyIf
        ? `${relationWords(relation.why)} (only with ${relation.onlyIf.stage} in ${relation.onlyIf.mode})`
        : relationWords(relation.why),
    ]);
  return lines([
    `${name}, route ${route}`,
    '',
    `Stages (${stages.length}): start, end, float, stage, mode`,
    ...table(stages),
    '',
    `Relations (${relations.length}): kind, from, to, slack, why`,
    ...table(relations),
  ]);
}

/**
 * Why a stage starts when it does.
 * @param id a stage of the plan
 */
export function startText(network: PlannedNetwork, id: string): string {
  const { problem, placed, zone } = network;
  const { spot, fixed, minuteBefore, lastOpenBefore } = explainStart(problem, placed, id);
  const when = (minute: Minute): string => dayAndTime(minute, zone);
  const head = [
    `${nameOf(problem, id)} (${id}) in ${spot.mode || 'no mode'}`,
    `from ${when(spot.start)} to ${when(spot.end)}`,
  ];
  if (fixed === 'recorded') return lines([...head, 'It was recorded so.']);
  if (fixed === 'pinned') return lines([...head, 'Its start is fixed by hand.']);
  if (minuteBefore === null) return lines([...head, 'It has no way of being done.']);
  const open = lastOpenBefore;
  const further =
    open !== null && open.start < minuteBefore.start && onlyHours(minuteBefore)
      ? reasons(
          network,
          `Last moment before that with hands free to begin, ${when(open.start)}`,
          open,
        )
      : [];
  return lines([...head, ...reasons(network, 'One minute earlier', minuteBefore), ...further]);
}

const onlyHours = ({ bindings }: EarlierStart): boolean =>
  bindings.length > 0 && bindings.every((binding) => binding.kind === 'hours');

function reasons(network: PlannedNetwork, head: string, { bindings }: EarlierStart): string[] {
  if (bindings.length === 0) {
    return [
      `${head}: nothing hinders it. The plan starts it later because it gains nothing by it`,
      'or because what it makes would wait and perish.',
    ];
  }
  return [`${head}:`, ...bindings.map((binding) => `  ${sentence(network, binding)}`)];
}

/** What would be broken, and what would have to move. */
function sentence({ problem, placed, zone }: PlannedNetwork, binding: Binding): string {
  const stage = (id: string): string => {
    const spot = placed.find((one) => one.stage === id);
    return `${nameOf(problem, id)} (${id}${spot ? `, until ${dayAndTime(spot.end, zone)}` : ''})`;
  };
  switch (binding.kind) {
    case 'now':
      return 'now: nothing that has not begun starts in the past.';
    case 'release':
      return 'release: it may not begin before its own first day.';
    case 'hours':
      return 'hours: nobody who does it is in, or it would not be done before a pause; other hours would have to be agreed.';
    case 'start-window':
      return `start: ${relationWords(binding.why)}.`;
    case 'never-ends':
      return 'length: begun then it never ends.';
    case 'relation': {
      const { relation, other } = binding;
      const move =
        relation.to === other ? 'would have to start earlier too' : 'would have to move first';
      return `${relation.type} "${relationWords(relation.why)}": ${stage(other)} ${move}.`;
    }
    case 'resource': {
      const { name } = problem.resources.find((one) => one.id === binding.resource)!;
      return `resource ${name}: taken by ${listed(binding.others.map(stage))}, which would have to move.`;
    }
    case 'air':
      return `air of the room: ${stage(binding.other)}, and the time in which its dust or vapour settles, would have to move.`;
  }
}

const nameOf = (problem: Problem, id: string): string =>
  problem.stages.find((one) => one.id === id)?.name ?? id;

const signed = (minutes: number): string => `${minutes < 0 ? '-' : ''}${elapsed(minutes)}`;

const lines = (all: readonly string[]): string =>
  all.map((line) => `${plainName(line).trimEnd()}\n`).join('');

/** Columns as wide as their widest cell; the last is left as it is. */
function table(rows: readonly (readonly string[])[]): string[] {
  const widths = (rows[0] ?? []).map((_, c) => Math.max(...rows.map((row) => row[c]!.length)));
  return rows.map((row) => `  ${row.map((cell, c) => cell.padEnd(widths[c]!)).join('  ')}`);
}
