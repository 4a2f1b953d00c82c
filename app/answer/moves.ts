/** Why what is still to come starts at another moment than was printed: the rule that hinders it there. */
import type { Move, MoveReason } from '../messages/moves.ts';
import type { PlanContext } from '../plan/context.ts';
import { movedSincePrinted } from '../plan/replanPrinted.ts';
import type { RoutePlan } from '../plan/routePlan.ts';
import { whatHinders, type Binding } from '../schedule/binding.ts';
import type { StartChange } from '../schedule/replan.ts';
import type { Minute } from '../time/instant.ts';

/** Every stage that has not begun and moved since the printing, with the reason. */
export function movesSincePrinted(context: PlanContext, taken: RoutePlan): Move[] {
  const { problem } = taken.network;
  const specs = new Map(problem.stages.map((stage) => [stage.id, stage]));
  const all = movedSincePrinted(context, taken);
  const moved = new Set(all.map(({ stage }) => stage));
  return all
    .filter(({ stage }) => specs.get(stage)?.begun !== true)
    .map((move) => ({ ...move, why: reasonOf(taken, move, moved, context.now) }));
}

function reasonOf(
  taken: RoutePlan,
  { stage: id, from: printed }: StartChange,
  moved: ReadonlySet<string>,
  now: Minute,
): MoveReason {
  const { problem } = taken.network;
  const stage = problem.stages.find((one) => one.id === id);
  if (stage?.fixedStart !== null && stage?.fixedStart !== undefined) return { kind: 'pinned' };
  const found = whatHinders(problem, taken.schedule.placed, id, printed) ?? [];
  const said = found.map((binding) => wordable(taken, binding, moved));
  // A record comes first: what happened on the floor is the reason behind all the others.
  return (
    said.find(({ kind }) => kind === 'recorded') ??
    (printed < now ? ({ kind: 'past' } as const) : said[0]) ?? { kind: 'plan' }
  );
}

/** A binding with the names of stages and things. */
function wordable(
  { network }: RoutePlan,
  binding: Binding,
  moved: ReadonlySet<string>,
): MoveReason {
  const { problem } = network;
  const stage = (id: string) => problem.stages.find((one) => one.id === id);
  const name = (id: string): string => stage(id)?.name ?? id;
  switch (binding.kind) {
    case 'now':
      return { kind: 'past' };
    case 'release':
      return { kind: 'not-before' };
    case 'hours':
    case 'never-ends':
      return { kind: 'hours' };
    case 'start-window':
      return { kind: 'start', why: binding.why };
    case 'relation': {
      const { relation, other } = binding;
      const begun = stage(other)?.begun === true;
      const kind = begun ? 'recorded' : moved.has(other) ? 'waits' : 'rule';
      return { kind, other: name(other), why: relation.why };
    }
    case 'resource': {
      const what = problem.resources.find(({ id }) => id === binding.resource)?.name;
      return { kind: 'taken', what: what ?? binding.resource, others: binding.others.map(name) };
    }
    case 'air':
      return { kind: 'air', other: name(binding.other) };
  }
}
