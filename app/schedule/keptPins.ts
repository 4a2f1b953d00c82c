/**
 * Pins that contradict each other: as many as can be are kept, the older ones first, and each that is left out is
 * named with the smallest set of pins that it clashes with. A pin that the work alone forbids stays: it gives
 * way as far as it must (`pins.ts`).
 */
import type { Fact } from '../messages/facts.ts';
import { compile } from './compile.ts';
import { exactSearch } from './exact.ts';
import { modeEnd } from './modeEnd.ts';
import { isPinned } from './ownOrders.ts';
import {
  byRelation,
  type Mode,
  type Problem,
  type Relation,
  type StageSpec,
  type Use,
} from './problem.ts';
import { smallestSet } from './smallestSet.ts';

/** A pin that the plan does not keep. */
export interface DroppedPin {
  readonly stage: string;
  readonly pin: Fact;
  /** The fewest pins beside which it cannot stand. */
  readonly against: readonly Fact[];
}

export interface KeptPins {
  readonly problem: Problem;
  readonly dropped: readonly DroppedPin[];
}

/** Nodes within which it has to be proven that pins clash. */
const NODES = 40;

/**
 * A problem with those of its pins that go together.
 * @param byAge pinned stages, the oldest pin first
 */
export function keptPins(problem: Problem, byAge: readonly string[]): KeptPins {
  const plain = { problem, dropped: [] };
  const pinned = problem.stages.filter(isPinned).map(({ id }) => id);
  const aged = byAge.filter((id) => pinned.includes(id));
  if (aged.length < 2 || !clash(problem, aged, pinned)) return plain;
  const able = aged.filter((id) => !clash(problem, [id], pinned));
  if (!clash(problem, able, pinned)) return plain;
  const gone = fewestToDrop(problem, able, pinned);
  const kept = able.filter((id) => !gone.includes(id));
  const dropped = gone.map((stage) => ({
    stage,
    pin: factOf(problem, stage),
    against: smallestClash(problem, stage, kept, pinned).map((id) => factOf(problem, id)),
  }));
  return { problem: without(problem, gone), dropped };
}

const without = (problem: Problem, gone: readonly string[]): Problem => ({
  ...problem,
  stages: problem.stages.map((one) => (gone.includes(one.id) ? { ...one, fixedStart: null } : one)),
});

/** True where it is proven that no plan keeps these pins, whatever becomes of the others. */
function clash(problem: Problem, some: readonly string[], pinned: readonly string[]): boolean {
  // The search takes what is fixed as it is, and looks only at what lies between.
  if (problem.relations.some((relation) => isBroken(problem, relation, some))) return true;
  if (some.some((one, i) => some.slice(i + 1).some((other) => collide(problem, one, other)))) {
    return true;
  }
  const rest = pinned.filter((id) => !some.includes(id));
  const compiled = compile(without(problem, rest));
  if (compiled.obstacles.length > 0) return false;
  const { from } = problem;
  const found = exactSearch(compiled, { from, nodes: NODES, better: null, stopAtFirst: true });
  return found.exhausted && found.plan === null;
}

/** True where two of the pins are too near or too far apart, in whatever mode the first of them is done. */
function isBroken(
  { stages }: Problem,
  { type, from, anchor, to, lag, onlyIf }: Relation,
  some: readonly string[],
): boolean {
  if (onlyIf || !some.includes(from) || !some.includes(to)) return false;
  const [first, second] = [from, to].map((id) => stages.find((one) => one.id === id)!);
  const start = first!.fixedStart!;
  const anchors =
    anchor === 'start' ? [start] : first!.modes.flatMap((mode) => modeEnd(mode, start) ?? []);
  return (
    anchors.length > 0 &&
    anchors.every((minute) => {
      const limit = typeof lag === 'number' ? minute + lag : lag.apply(minute);
      if (limit === null) return false;
      return byRelation(type, {
        'at-least': second!.fixedStart! < limit,
        'at-most': second!.fixedStart! > limit,
      });
    })
  );
}

/** True where two pins ask for the same at the same time, in whatever modes they are done. */
function collide({ stages, resources }: Problem, one: string, other: string): boolean {
  const capacity = new Map(resources.map(({ id, capacity: most }) => [id, most]));
  const [first, second] = [one, other].map((id) => stages.find((each) => each.id === id)!);
  const spots = (stage: StageSpec) =>
    stage.modes.map((mode) => ({ mode, end: modeEnd(mode, stage.fixedStart!) ?? Infinity }));
  const [firsts, seconds] = [spots(first!), spots(second!)];
  if (firsts.length === 0 || seconds.length === 0) return false;
  return firsts.every((a) =>
    seconds.every((b) => {
      const apart = a.end <= second!.fixedStart! || b.end <= first!.fixedStart!;
      return !apart && a.mode.uses.some((use) => takesTooMuch(use, b.mode, capacity));
    }),
  );
}

const takesTooMuch = (
  { resource, amount }: Use,
  { uses }: Mode,
  capacity: ReadonlyMap<string, number>,
): boolean => {
  const beside = uses.find((use) => use.resource === resource)?.amount ?? 0;
  return beside > 0 && amount + beside > (capacity.get(resource) ?? 0);
};

/** The fewest pins whose going lets the rest stand; of as many, the youngest. */
const fewestToDrop = (
  problem: Problem,
  able: readonly string[],
  pinned: readonly string[],
): readonly string[] =>
  smallestSet(
    able,
    able.length - 1,
    (gone) => {
      const rest = able.filter((id) => !gone.includes(id));
      return !clash(problem, rest, pinned);
    },
    () => oneByOne(problem, able, pinned),
  ) ?? able.slice(1);

/** Of so many pins that not every set can be tried: each is taken that goes with the older ones. */
function oneByOne(
  problem: Problem,
  able: readonly string[],
  pinned: readonly string[],
): readonly string[] {
  const kept: string[] = [];
  for (const id of able) if (!clash(problem, [...kept, id], pinned)) kept.push(id);
  return able.filter((id) => !kept.includes(id));
}

/** The fewest of the kept pins that a pin cannot stand beside. */
const smallestClash = (
  problem: Problem,
  stage: string,
  kept: readonly string[],
  pinned: readonly string[],
): readonly string[] =>
  smallestSet(
    kept,
    kept.length,
    (some) => clash(problem, [...some, stage], pinned),
    () => kept,
  ) ?? kept;

function factOf({ stages }: Problem, id: string): Fact {
  const { name, fixedStart } = stages.find((one) => one.id === id)!;
  return { what: 'pinned', stage: name, at: fixedStart! };
}
