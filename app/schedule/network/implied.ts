/** What must have come before work that has begun: the floor need not write it down for it to be so. */
import { layupStageId, readStageId } from '../../document/ids.ts';
import type { RelationReason } from '../../messages/relations.ts';
import type { Minute } from '../../time/instant.ts';
import { closes, type Relation, type StageSpec } from '../problem.ts';

/** Stages that must have come before each stage, directly, by its id. */
export type ComesBefore = Readonly<Record<string, readonly string[]>>;

/** An order that the shop has made itself, or an answer that is still open, can be passed over; material and a cured layer cannot. */
const isMatter = (why: RelationReason): boolean => why !== 'own-order' && typeof why === 'string';

/**
 * Which stages must have come before which. Who sees a bag taken off knows that its vacuum was watched
 * and its gel past, though nothing waits for either.
 */
export function comesBefore(
  stages: readonly Pick<StageSpec, 'id'>[],
  relations: readonly Relation[],
): ComesBefore {
  const before: Record<string, string[]> = {};
  const note = (to: string, from: string): void => {
    const list = (before[to] ??= []);
    if (!list.includes(from)) list.push(from);
  };
  const binding = relations.filter((one) => !closes(one) && isMatter(one.why));
  for (const { from, to } of binding) note(to, from);
  for (const { id } of stages) {
    const ref = readStageId(id);
    if (ref?.what !== 'watched-vacuum' && ref?.what !== 'gel-look') continue;
    const cure = layupStageId('cure', ref.layup);
    for (const { from, to } of binding) if (from === cure) note(to, id);
  }
  return before;
}

/**
 * Stages without a record that must have come before recorded ones.
 * @param begun start of each recorded stage, by id
 * @returns the minute by which each was over: the earliest start of recorded work that depends on it
 */
export function impliedBy(
  begun: ReadonlyMap<string, Minute>,
  before: ComesBefore,
): ReadonlyMap<string, Minute> {
  const implied = new Map<string, Minute>();
  const visit = (stage: string, by: Minute): void => {
    for (const earlier of before[stage] ?? []) {
      if (begun.has(earlier)) continue;
      const known = implied.get(earlier);
      if (known !== undefined && known <= by) continue;
      implied.set(earlier, by);
      visit(earlier, by);
    }
  };
  for (const [stage, start] of begun) visit(stage, start);
  return implied;
}
