/** What may go wrong with a stage: work that runs over, slips, leaks, a part that sticks. */
import { outsideStageId, readResourceId, readStageId } from '../document/ids.ts';
import { practiceIf, releaseOf, workDayMinutes } from '../document/library.ts';
import type { Problem, StageSpec } from '../schedule/problem.ts';
import type { PlanContext } from '../plan/context.ts';
import type { Slot } from './replay.ts';
import type { RoutePlan } from '../plan/routePlan.ts';
import { resourcesTaken } from '../schedule/taken.ts';

/** Something that happens now and then and lengthens a stage. */
interface RiskEvent {
  /** Mishaps of the same name happen together in one replay. */
  readonly name: string;
  readonly chance: number;
  readonly leastMinutes: number;
  readonly mostMinutes: number;
}

/** Both are times the likely length. */
export interface WorkRange {
  readonly low: number;
  readonly high: number;
}

/** What may lengthen one stage. */
export interface StageRisk {
  /** Shortest and longest of the work, times the likely length; null: as planned. */
  readonly range: WorkRange | null;
  /** Part of the planned minutes that is the average of its mishaps: in its place come those that happen. */
  readonly averagedMinutes: number;
  readonly mishaps: readonly (RiskEvent & { readonly key: number })[];
}

/** What may lengthen each stage of the plan, in the order of its stages. */
export function risksOf(context: PlanContext, plan: RoutePlan): StageRisk[] {
  const { problem, personMinutes } = plan.network;
  const fairing = problem.stages.find((stage) => stage.kind === 'fair')?.id;
  const keys = new Map<string, number>();
  const keyOf = (name: string): number => {
    const key = keys.get(name) ?? 100_000 + keys.size;
    keys.set(name, key);
    return key;
  };
  return problem.stages.map((stage) => {
    const hands = personMinutes[stage.id] !== undefined;
    const mishaps = [
      ...(stage.kind === 'outside' ? [outsideSlip(context, stage)] : []),
      ...(stage.kind === 'order' ? [lateDelivery(context)] : []),
      ...(stage.kind === 'tap-test' ? dullSpots(context, stage) : []),
      ...(stage.kind === 'repair' ? marks(context, peopleOf(plan, stage)) : []),
      ...(readStageId(stage.id)?.what === 'watched-vacuum' ? [leak(context, stage)] : []),
      ...(stage.kind === 'demould' || stage.id === fairing
        ? hardDemould(context, stage, peopleOf(plan, stage))
        : []),
    ];
    return {
      range: hands ? rangeOf(context, stage) : null,
      averagedMinutes: stage.kind === 'repair' ? averagedRepair(context, plan, stage) : 0,
      mishaps: mishaps.map((mishap) => ({ ...mishap, key: keyOf(mishap.name) })),
    };
  });
}

/** How short and how long a stage’s work may be: as its row says, or by its spread, late more than early. */
export function rangeOf({ library, practice }: PlanContext, stage: StageSpec): WorkRange {
  const late = practice('labour-late-factor');
  const coats = stage.kind === 'fair' || stage.kind === 'prime';
  const row = coats ? undefined : library.labour.find((one) => one.stage === stage.kind);
  const spread = coats ? practice('finishing-spread') : (row?.spread ?? 0);
  return { low: row?.low ?? 1 - spread, high: row?.high ?? 1 + late * spread };
}

function peopleOf(plan: RoutePlan, stage: StageSpec): number {
  const placed = plan.schedule.placed.find((one) => one.stage === stage.id);
  const mode = stage.modes.find((one) => one.id === placed?.mode);
  const hands = resourcesTaken(mode, placed).filter((id) => readResourceId(id)?.kind === 'person');
  return Math.max(1, hands.length);
}

/** Work minutes of one of an outside party's days. */
function outsideDayMinutes({ build, library }: PlanContext, stage: StageSpec): number {
  const party = build.outside.find((one) => outsideStageId(one.id) === stage.id);
  const { length } = stage.modes[0]!;
  if (!party || length.kind === 'function') return workDayMinutes(library);
  return length.minutes / party.workingDays;
}

function outsideSlip(context: PlanContext, stage: StageSpec): RiskEvent {
  const day = outsideDayMinutes(context, stage);
  return {
    name: `slip:${stage.id}`,
    chance: context.practice('outside-slip-chance'),
    leastMinutes: 0.5 * day,
    mostMinutes: context.practice('outside-slip-days') * day,
  };
}

function lateDelivery({ practice }: PlanContext): RiskEvent {
  return {
    name: 'delivery',
    chance: practice('delivery-slip-chance'),
    leastMinutes: 1440,
    mostMinutes: practice('delivery-slip-days') * 1440,
  };
}

function leak({ practice }: PlanContext, stage: StageSpec): RiskEvent {
  return {
    name: `leak:${stage.id}`,
    chance: practice('leak-chance'),
    leastMinutes: 10,
    mostMinutes: practice('leak-minutes'),
  };
}

/** Dull spots in the core bond are drilled and filled before anything covers them. */
function dullSpots({ library }: PlanContext, stage: StageSpec): RiskEvent[] {
  const ref = readStageId(stage.id);
  const row = library.consequences.find((one) => one.event === 'dull-core');
  const chance = practiceIf(library, 'dull-core-chance') ?? 0;
  if (!row || chance === 0 || ref?.what !== 'tap-test' || ref.at !== 'core') return [];
  const minutes = row.extraHours * 60;
  return [{ name: 'dull-core', chance, leastMinutes: 0.5 * minutes, mostMinutes: 2 * minutes }];
}

/** What demould marks, each mark by its own chance; plies that nobody planned a cure for take a night more. */
function marks({ part, library }: PlanContext, people: number): RiskEvent[] {
  const { repair } = part;
  return (repair?.causes ?? []).map(({ event, chance, minutes, replacesPlies }) => {
    const night = replacesPlies && !repair!.cures ? workDayMinutes(library) : 0;
    const own = minutes / people;
    return {
      name: event,
      chance,
      leastMinutes: 0.5 * own + night,
      mostMinutes: 1.5 * own + night,
    };
  });
}

/** The planned repair holds its causes at their average, but for what a shop has seen. */
function averagedRepair({ part }: PlanContext, plan: RoutePlan, stage: StageSpec): number {
  const { repair, repairLaidMinutes } = part;
  if (!repair || repair.causes.length === 0) return 0;
  return Math.max(0, repair.minutes - repairLaidMinutes) / peopleOf(plan, stage);
}

/** A part that sticks: hours at the mould, and a day of filling at the first round of fairing. */
function hardDemould(
  { library, build, part }: PlanContext,
  stage: StageSpec,
  people: number,
): RiskEvent[] {
  const row = library.consequences.find((one) => one.event === 'hard-demould');
  const chance = releaseOf(library, build.mould.release).hardDemouldChance;
  if (!row || chance === 0) return [];
  const fairing = row.fairMinutesPerM2 * part.areaM2 + row.fairMinutesPerEdgeM * part.edgeM;
  const own = stage.kind === 'demould' ? row.extraHours * 60 : fairing;
  const minutes = own / people;
  return [
    { name: 'hard-demould', chance, leastMinutes: 0.5 * minutes, mostMinutes: 1.5 * minutes },
  ];
}

/** A part that comes late for its slot waits for another. */
export function slotsOf(context: PlanContext, problem: Problem): Slot[] {
  const { practice } = context;
  return problem.stages
    .filter((stage) => stage.kind === 'outside' && stage.due !== null)
    .map((stage) => ({
      stage: stage.id,
      graceMinutes: practice('slot-grace-hours') * 60,
      rebookMinutes: practice('slot-rebook-days') * outsideDayMinutes(context, stage),
    }));
}
