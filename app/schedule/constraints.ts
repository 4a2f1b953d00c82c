/** The single facts of a problem that a person could name and change, and the problem without one. */
import type { Fact } from '../messages/facts.ts';
import type { Minute } from '../time/instant.ts';
import { closes, type Mode, type Problem, type StageSpec } from './problem.ts';

export interface Constraint {
  readonly kind:
    'stage' | 'window' | 'release' | 'hours' | 'resource' | 'busy' | 'air' | 'pin' | 'due' | 'now';
  /** Ids of the stages, resources or other jobs the fact is about; empty for now and for the last date. */
  readonly about: readonly string[];
  /** Worded with the other messages. */
  readonly fact: Fact;
  /** Index of the relation, for a window. */
  readonly relation: number;
}

/** The shortest that the stage can take; null where it never ends. */
function leastMinutes(stage: StageSpec, from: Minute): number | null {
  const lengths = stage.modes.map((mode) => minutesOf(mode, from)).filter((m) => m !== null);
  return lengths.length === 0 ? null : Math.min(...lengths);
}

function minutesOf(mode: Mode, from: Minute): number | null {
  if (mode.length.kind !== 'function') return mode.length.minutes;
  const end = mode.length.endOf(from);
  return end === null ? null : end - from;
}

/** Work by somebody's hours; heat that may only begin at some times takes no hands. */
const byHours = ({ calendar, length }: Mode): boolean =>
  calendar !== null && length.kind === 'work';

/** Resources whose calendars are joined, because some work takes them at once: one set for each group. */
function crewsOf(problem: Problem): string[][] {
  const crews: Set<string>[] = [];
  for (const mode of problem.stages.flatMap((stage) => stage.modes)) {
    if (!byHours(mode) || mode.uses.length === 0) continue;
    const joined = new Set(mode.uses.map((use) => use.resource));
    for (let k = crews.length - 1; k >= 0; k--) {
      if (![...crews[k]!].some((id) => joined.has(id))) continue;
      for (const id of crews[k]!) joined.add(id);
      crews.splice(k, 1);
    }
    crews.push(joined);
  }
  return crews.map((crew) => [...crew].sort());
}

/** Names of those of a group that some work takes alone: a bench that only goes with people is left out. */
function namesOf(problem: Problem, crew: readonly string[]): string[] {
  const modes = problem.stages.flatMap((stage) => stage.modes);
  const alone = (id: string) =>
    modes.some((m) => byHours(m) && m.uses.length === 1 && m.uses[0]!.resource === id);
  const named = crew.some(alone) ? crew.filter(alone) : crew;
  return named.map((id) => problem.resources.find((r) => r.id === id)?.name ?? id);
}

/** Why the hours of a group are shorter than the week. */
function awayOf(problem: Problem, crew: readonly string[]): string[] {
  const of = problem.resources.filter((resource) => crew.includes(resource.id));
  return [...new Set(of.flatMap((resource) => resource.away ?? []))];
}

function busyFacts(problem: Problem, used: ReadonlySet<string>): Constraint[] {
  const until = Math.max(problem.due, problem.from);
  return (problem.busy ?? [])
    .filter((block) => used.has(block.resource) && block.start < until)
    .map(({ id, what, resource, start, end }) => {
      const name = problem.resources.find((one) => one.id === resource)?.name ?? resource;
      const fact: Fact = { what: 'busy', job: what, resource: name, start, end };
      return { kind: 'busy', about: [id], fact, relation: -1 };
    });
}

function hoursFacts(problem: Problem): Constraint[] {
  const hours = (about: readonly string[], of: string[], away: string[]): Constraint => ({
    kind: 'hours',
    about,
    fact: { what: 'hours', of, away },
    relation: -1,
  });
  const modes = problem.stages.flatMap((stage) => stage.modes);
  const nobodys = modes.some((mode) => byHours(mode) && mode.uses.length === 0);
  return [
    ...crewsOf(problem).map((crew) => hours(crew, namesOf(problem, crew), awayOf(problem, crew))),
    ...(nobodys ? [hours([], [], [])] : []),
  ];
}

/** True when a mode works by the hours that the fact is about. */
function worksBy(mode: Mode, fact: Constraint): boolean {
  if (fact.about.length === 0) return mode.uses.length === 0;
  return mode.uses.some((use) => fact.about.includes(use.resource));
}

function stageFacts({ stages, from }: Problem): Constraint[] {
  const about = (kind: Constraint['kind'], stage: StageSpec, fact: Fact): Constraint => ({
    kind,
    about: [stage.id],
    fact,
    relation: -1,
  });
  const open = stages.filter((stage) => stage.fixedEnd === null);
  const lengthOf = (stage: StageSpec) =>
    Math.max(0, ...stage.modes.map((mode) => minutesOf(mode, from) ?? 0));
  const byLength = [...open].sort((a, b) => lengthOf(a) - lengthOf(b));
  return [
    ...byLength.map((stage) => {
      const minutes = leastMinutes(stage, from);
      return about('stage', stage, { what: 'length', stage: stage.name, minutes });
    }),
    ...open.flatMap((stage) => {
      const { name, release: at } = stage;
      const now = at === null || at <= from;
      return now ? [] : [about('release', stage, { what: 'not-before', stage: name, at })];
    }),
    ...open.flatMap((stage) => {
      const { name, fixedStart: at } = stage;
      const past = at === null || at < from;
      return past ? [] : [about('pin', stage, { what: 'pinned', stage: name, at })];
    }),
    ...open.flatMap((stage) => {
      const { name, due: at } = stage;
      return at === null ? [] : [about('due', stage, { what: 'done-by', stage: name, at })];
    }),
  ];
}

/** Every fact, the least telling first: facts are dropped in this order, and what is left is shown. */
export function constraintsOf(problem: Problem): Constraint[] {
  const whole = (kind: Constraint['kind'], fact: Fact): Constraint => ({
    kind,
    about: [],
    fact,
    relation: -1,
  });
  const windows = problem.relations.flatMap((relation, i): Constraint[] =>
    closes(relation)
      ? [
          {
            kind: 'window',
            about: [relation.from, relation.to],
            fact: { what: 'window', why: relation.why },
            relation: i,
          },
        ]
      : [],
  );
  const used = new Set([
    ...problem.stages.flatMap((s) => s.modes.flatMap((mode) => mode.uses.map((u) => u.resource))),
    ...(problem.holds ?? []).map((hold) => hold.resource),
  ]);
  const resources = problem.resources
    .filter((resource) => used.has(resource.id))
    .map((resource): Constraint => ({
      kind: 'resource',
      about: [resource.id],
      fact: { what: 'capacity', resource: resource.name, amount: resource.capacity },
      relation: -1,
    }));
  return [
    ...stageFacts(problem),
    ...windows,
    ...hoursFacts(problem),
    ...busyFacts(problem, used),
    ...resources,
    ...(problem.stages.some((stage) => stage.air !== null) ? [whole('air', { what: 'air' })] : []),
    whole('due', { what: 'all-done-by', at: problem.due }),
    whole('now', { what: 'now', at: problem.from }),
  ];
}

const ZERO_LENGTH: Mode['length'] = { kind: 'elapsed', minutes: 0 };

function stageWithout(stage: StageSpec, fact: Constraint): StageSpec {
  if (fact.about[0] !== stage.id) return stage;
  if (fact.kind === 'stage') {
    const modes = stage.modes.map((mode) => ({
      ...mode,
      uses: [],
      calendar: null,
      starts: [],
      length: ZERO_LENGTH,
    }));
    return { ...stage, modes, air: null };
  }
  if (fact.kind === 'release') return { ...stage, release: null };
  if (fact.kind === 'pin') return { ...stage, fixedStart: null };
  return fact.kind === 'due' ? { ...stage, due: null } : stage;
}

/** By how much a date is moved when its fact is dropped, minutes. */
const FAR_DATE_MINUTES = 60 * 1440;

/** The problem without that fact. */
export function without(problem: Problem, fact: Constraint): Problem {
  switch (fact.kind) {
    case 'window':
      return {
        ...problem,
        relations: problem.relations.map((r, i) => (i === fact.relation ? freed(r) : r)),
      };
    case 'resource':
      return {
        ...problem,
        resources: problem.resources.map((resource) =>
          resource.id === fact.about[0] ? { ...resource, capacity: 1000 } : resource,
        ),
      };
    case 'busy':
      return {
        ...problem,
        busy: (problem.busy ?? []).filter((block) => block.id !== fact.about[0]),
      };
    case 'air':
      return { ...problem, stages: problem.stages.map((stage) => ({ ...stage, air: null })) };
    case 'hours': {
      const open = (mode: Mode): Mode => (worksBy(mode, fact) ? { ...mode, calendar: null } : mode);
      return {
        ...problem,
        stages: problem.stages.map((stage) => ({ ...stage, modes: stage.modes.map(open) })),
      };
    }
    case 'now':
      return { ...problem, from: problem.from - FAR_DATE_MINUTES };
    case 'due':
      if (fact.about.length === 0)
        return { ...problem, due: Math.max(problem.due, problem.horizon) };
  }
  return { ...problem, stages: problem.stages.map((stage) => stageWithout(stage, fact)) };
}

/** A window that never closes; kept in its place so that the others keep their numbers. */
const freed = (relation: Problem['relations'][number]): Problem['relations'][number] => ({
  ...relation,
  lag: FAR_DATE_MINUTES * 10,
});
