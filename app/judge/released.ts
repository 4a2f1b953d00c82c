/** Which stages may go to the floor while questions are open. */
import type { FullBuild } from '../document/schema.ts';
import type { Problem, RelationType } from '../schedule/problem.ts';

/** Relations whose target comes after their source and waits for it. */
const FOLLOWS: Readonly<Record<RelationType, boolean>> = { 'at-least': true, 'at-most': false };

/**
 * Ids of the unanswered questions that each stage waits for, by stage id; a stage that waits for none
 * is released and left out. What comes after a held stage is held as well.
 */
export function heldStages(
  questions: FullBuild['part']['questions'],
  problem: Pick<Problem, 'stages' | 'relations'>,
): ReadonlyMap<string, readonly string[]> {
  const next = new Map<string, string[]>();
  for (const { type, from, to } of problem.relations) {
    if (FOLLOWS[type]) next.set(from, [...(next.get(from) ?? []), to]);
  }
  const held = new Map<string, string[]>();
  for (const question of questions.filter((one) => one.answer === null)) {
    const waiting = problem.stages.filter((stage) => stage.kind === question.before);
    const seen = new Set<string>();
    const queue = waiting.map((stage) => stage.id);
    for (let stage = queue.pop(); stage !== undefined; stage = queue.pop()) {
      if (seen.has(stage)) continue;
      seen.add(stage);
      queue.push(...(next.get(stage) ?? []));
    }
    for (const stage of seen) held.set(stage, [...(held.get(stage) ?? []), question.id]);
  }
  return held;
}
