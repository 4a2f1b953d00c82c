/** Which stages may go to the floor: not those that wait for an answer, nor those that are unsafe. */
import { begunStages } from '../document/records.ts';
import { heldUp } from '../document/heldUp.ts';
import type { Finding, FullBuild, Library } from '../document/schema.ts';
import { outsideStageId, readStageId } from '../document/ids.ts';
import type { Reach } from '../messages/spec.ts';
import { reachOf } from '../messages/findings.ts';
import type { Route, RouteCure } from '../route/types.ts';
import type { Problem, RelationType, StageSpec } from '../schedule/problem.ts';

/** Relations whose target comes after their source and waits for it. */
const FOLLOWS: Readonly<Record<RelationType, boolean>> = { 'at-least': true, 'at-most': false };

type Network = Pick<Problem, 'stages' | 'relations'>;

/** Stages with all that comes after them, as a function of where to begin. */
function forwardIn({ relations }: Network): (from: readonly StageSpec[]) => ReadonlySet<string> {
  const next = new Map<string, string[]>();
  for (const { type, from, to } of relations) {
    if (FOLLOWS[type]) next.set(from, [...(next.get(from) ?? []), to]);
  }
  return (from) => {
    const seen = new Set<string>();
    const queue = from.map((stage) => stage.id);
    for (let stage = queue.pop(); stage !== undefined; stage = queue.pop()) {
      if (seen.has(stage)) continue;
      seen.add(stage);
      queue.push(...(next.get(stage) ?? []));
    }
    return seen;
  };
}

/** Adds a reason to each of the stages. */
function note(reasons: Map<string, string[]>, stages: Iterable<string>, reason: string): void {
  for (const stage of stages) reasons.set(stage, [...(reasons.get(stage) ?? []), reason]);
}

/**
 * Ids of the unanswered questions that each stage waits for, by stage id; a stage that waits for none
 * is released and left out. What comes after a held stage is held as well.
 */
export function heldStages(
  build: FullBuild,
  library: Library,
  problem: Network,
): ReadonlyMap<string, readonly string[]> {
  const forward = forwardIn(problem);
  const held = new Map<string, string[]>();
  for (const question of build.part.questions.filter((one) => one.answer === null)) {
    const waiting = heldUp(question, problem.stages, build, library);
    note(held, forward(waiting), question.id);
  }
  return held;
}

/**
 * Why each stage may not be done, by stage id, in the words of the findings that make it unsafe; safe
 * stages are left out. What comes after an unsafe stage is withheld with it. Work that the floor has
 * begun keeps its cards: a bag that is down must be watched.
 */
export function withheldStages(
  { outside, records }: Pick<FullBuild, 'outside' | 'records'>,
  route: Route,
  problem: Network,
  findings: readonly Finding[],
): ReadonlyMap<string, readonly string[]> {
  const forward = forwardIn(problem);
  const withheld = new Map<string, string[]>();
  for (const finding of findings) {
    const reach = reachOf(finding);
    if (reach === null) continue;
    const begins = unsafeIn(reach, finding.stage, problem.stages, route, outside);
    note(withheld, forward(begins), finding.message);
  }
  const recorded = begunStages({ records });
  const begun = new Set(
    problem.stages
      .filter(({ id, kind }) => kind === 'layup' && recorded.has(id))
      .map(({ cure }) => cure),
  );
  for (const { id, cure } of problem.stages) {
    if (recorded.has(id) || (cure !== null && begun.has(cure))) withheld.delete(id);
  }
  return withheld;
}

/** The stages at which the unsafe work begins. */
function unsafeIn(
  reach: Reach,
  named: string | null,
  stages: readonly StageSpec[],
  route: Route,
  outside: FullBuild['outside'],
): readonly StageSpec[] {
  const own = stages.find((stage) => stage.id === named);
  const of = (belongs: (cure: RouteCure) => boolean): StageSpec[] =>
    stages.filter(isOfCures(route.cures.filter(belongs)));
  const ofOwn = own?.cure ? of((cure) => cure.id === own.cure) : null;
  switch (reach) {
    case 'wet-work':
      return of(() => true);
    case 'release':
      return stages.filter((stage) => stage.kind === 'release');
    case 'paint': {
      const visits = new Set(
        outside.filter(({ kind }) => kind === 'paint').map(({ id }) => outsideStageId(id)),
      );
      return stages.filter((stage) => visits.has(stage.id));
    }
    case 'core': {
      // A limit of one cure names it; a limit of the core alone names no stage.
      const cored = ofOwn ?? of(({ layups }) => layups.some((layup) => layup.hasCore));
      return cored.length > 0 ? cored : of(() => true);
    }
    case 'cure':
      return ofOwn ?? (own ? [own] : of(() => true));
  }
}

/** Everything of some cures, the surface that is bared for them too: peel ply stays on meanwhile. */
function isOfCures(cures: readonly RouteCure[]): (stage: StageSpec) => boolean {
  const ids = new Set(cures.map(({ id }) => id));
  const layups = new Set<string>(cures.flatMap((cure) => cure.layups.map(({ id }) => id)));
  return ({ id, cure }) => {
    if (cure !== null) return ids.has(cure);
    const ref = readStageId(id);
    return ref?.what === 'prepare' && layups.has(ref.layup);
  };
}
