/** The printed plan beside the one from now: what moved and why, what closed, what is to be decided by when. */
import type { Build, RouteResult } from '../../document/schema.ts';
import { moveWords } from '../../messages/moves.ts';
import { localMinuteOf } from '../../plan/records.ts';
import type { PlanOutcome } from '../../plan/outcome.ts';
import type { Minute } from '../../time/instant.ts';
import { isoToMinute } from '../../time/zone.ts';

export interface MovedStage {
  readonly stage: string;
  readonly name: string;
  readonly from: Minute;
  readonly to: Minute;
  /** Work or cure in the new plan; the old one is drawn as long. */
  readonly minutes: number;
  readonly why: string;
}

/** A choice with its last moment. */
export interface Closing {
  readonly route: string;
  readonly cures: readonly string[];
  readonly at: Minute | null;
}

/** What has to be decided, the soonest first. */
export type Decision =
  | (Closing & { readonly kind: 'route'; readonly at: Minute })
  | { readonly kind: 'start'; readonly stage: string; readonly name: string; readonly at: Minute }
  | {
      readonly kind: 'answer';
      readonly question: string;
      readonly name: string;
      readonly at: Minute;
    };

export interface Replanned {
  /** Of the plan that is worked by: when it was printed, or accepted since. */
  readonly at: string;
  readonly accepted: boolean;
  readonly moved: readonly MovedStage[];
  /** Printed, still to come, and at its printed moment. */
  readonly kept: number;
  /** In the plan and not on paper. */
  readonly added: readonly string[];
  /** On paper and not in the plan. */
  readonly gone: readonly string[];
  readonly closed: readonly Closing[];
  readonly decide: readonly Decision[];
}

/** What of the printed plan no longer holds; null: nothing is printed. */
export function replannedSincePrint(outcome: PlanOutcome): Replanned | null {
  const { result, detail } = outcome;
  const { printed } = detail.build;
  if (!printed) return null;
  const stages = new Map(result.stages.map((stage) => [stage.id, stage]));
  const onPaper = new Set(printed.stages.map(({ stage }) => stage));
  const moved = (detail.moves ?? []).map(({ stage, from, to, why }): MovedStage => {
    const one = stages.get(stage)!;
    const minutes = isoToMinute(one.end!)! - isoToMinute(one.start!)!;
    return { stage, name: one.name, from, to, minutes, why: moveWords(why) };
  });
  const toCome = result.stages.filter(({ state }) => state === undefined);
  return {
    at: printed.acceptedAt ?? printed.at,
    accepted: printed.acceptedAt !== undefined,
    moved,
    kept: toCome.filter(({ id }) => onPaper.has(id)).length - moved.length,
    added: toCome.filter(({ id }) => !onPaper.has(id)).map(({ name }) => name),
    gone: [...onPaper].filter((id) => !stages.has(id)),
    closed: closedSince(outcome),
    decide: decisionsOf(outcome),
  };
}

/** True where paper and plan differ in what is still to come. */
export const hasMoved = (replanned: Replanned | null): boolean =>
  replanned !== null &&
  [replanned.moved, replanned.added, replanned.gone].some(({ length }) => length > 0);

/** Routes that were open at the printing and are not any more; none while only a first answer is there. */
function closedSince({ result, detail }: PlanOutcome): Closing[] {
  const known = new Map(result.routes.map((route) => [route.id, route]));
  const begun = result.stages.some(({ state, kind }) => state !== undefined && kind === 'layup');
  const isOpen = (route: RouteResult | undefined): boolean =>
    route === undefined ? !begun && known.size < 2 : route.open;
  return (detail.build.printed?.routes ?? []).flatMap(({ route, cures, closes }) =>
    isOpen(known.get(route))
      ? []
      : [{ route, cures, at: closes === null ? null : isoToMinute(closes) }],
  );
}

function decisionsOf({ result, detail }: PlanOutcome): Decision[] {
  const name = (id: string): string => result.stages.find((stage) => stage.id === id)?.name ?? id;
  const routes = result.routes.flatMap(({ id, open, cures, closes }): Decision[] =>
    open && closes !== null && id !== result.route.id
      ? [{ kind: 'route', route: id, cures, at: isoToMinute(closes)! }]
      : [],
  );
  const next = result.nextDeadline;
  const start: Decision[] = next
    ? [{ kind: 'start', stage: next.stage, name: name(next.stage), at: isoToMinute(next.at)! }]
    : [];
  const asked = new Map(detail.build.part.questions.map(({ id, text }) => [id, text]));
  const first = new Set<string>();
  const answers = result.stages.flatMap((stage): Decision[] => {
    const by = stage.latestStart ?? stage.start;
    return (stage.waitsFor ?? []).flatMap((id): Decision[] => {
      if (first.has(id) || by === null) return [];
      first.add(id);
      const question = asked.get(id) ?? id;
      return [{ kind: 'answer', question, name: stage.name, at: isoToMinute(by)! }];
    });
  });
  return [...start, ...routes, ...answers].sort((a, b) => a.at - b.at);
}

/**
 * Pins that keep the printed plan: every stage that moved is fixed at its printed moment.
 * @param only those of these stages; left out: all whose moment is still to come
 */
export function keepPrinted(
  document: Pick<Build, 'pins'>,
  { moved }: Pick<Replanned, 'moved'>,
  { now, zone, only }: { now: Minute; zone: string; only?: ReadonlySet<string> },
): NonNullable<Build['pins']> {
  const kept = moved.filter(({ stage, from }) => from >= now && (only?.has(stage) ?? true));
  const ids = new Set(kept.map(({ stage }) => stage));
  return [
    ...(document.pins ?? []).filter(({ stage }) => !ids.has(stage)),
    ...kept.map(({ stage, from }) => ({ stage, start: localMinuteOf(from, zone) })),
  ];
}

/** Those of the moved stages that stand at their printed moment in a plan with pins there. */
export function heldAtPrint(
  { moved }: Pick<Replanned, 'moved'>,
  { result }: PlanOutcome,
): Set<string> {
  const starts = new Map(result.stages.map(({ id, start }) => [id, start && isoToMinute(start)]));
  const held = moved.filter(({ stage, from }) => starts.get(stage) === from);
  return new Set(held.map(({ stage }) => stage));
}
