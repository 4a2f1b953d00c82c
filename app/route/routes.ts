/** Enumerates the routes of a part from its layups and their boundaries. */
import { boundaryId, chainId, routeId } from '../document/ids.ts';
import { JOINT_STATES, type JointState } from '../document/schema.ts';
import { cureName } from '../messages/layups.ts';
import { isInfused, isInLine, type Layup } from '../part/types.ts';
import type { Boundary, Route, RouteCure } from './types.ts';

/** Chains longer than this would give thousands of routes; the schema's parts stay well below. */
const MAX_CHAIN_LAYUPS = 8;

/** The boundaries between neighbouring layups, chain first; what is made beside them has none. */
export function boundariesOf(all: readonly Layup[]): Boundary[] {
  const layups = all.filter(isInLine);
  return layups.slice(1).map((after, i) => {
    const before = layups[i]!;
    return {
      id: boundaryId(before.id, after.id),
      before: before.id,
      after: after.id,
      // Sections are laminations of their own: nothing else goes into the bag of one.
      free: [before, after].every(({ place, section }) => place === 'chain' && section === null),
      dry: isInfused([before, after]),
    };
  });
}

/** Dry cloth has no tack: what is infused is bagged apart or filled in one shot. */
const statesOf = ({ dry }: Boundary): readonly JointState[] =>
  dry ? JOINT_STATES.filter((state) => state !== 'tack') : JOINT_STATES;

/**
 * Every division of the layups into cures: each free boundary apart, wet on tack or in one bag.
 * The order is stable: more cures apart first, then tack before one bag, from the mould side up.
 * A part without layups has no routes.
 */
export function enumerateRoutes(layups: readonly Layup[]): Route[] {
  if (layups.length === 0) return [];
  const chain = layups.filter((layup) => layup.place === 'chain');
  if (chain.length > MAX_CHAIN_LAYUPS) {
    throw new RangeError(`a chain of ${chain.length} layups; at most ${MAX_CHAIN_LAYUPS}`);
  }
  const free = boundariesOf(layups).filter((boundary) => boundary.free);
  const combinations = free.reduce<JointState[][]>(
    (partial, boundary) =>
      partial.flatMap((before) => statesOf(boundary).map((state) => [...before, state])),
    [[]],
  );
  return combinations
    .map((own) => {
      const joints = Object.fromEntries(free.map((boundary, i) => [boundary.id, own[i]!]));
      return routeOf(layups, joints);
    })
    .sort((a, b) => a.merging - b.merging);
}

const MERGING: Readonly<Record<JointState, number>> = { apart: 0, tack: 1, 'one-bag': 2 };
/** Plies of the layup before them: laid wet with it they merge nothing, and a bag of their own is rare. */
const MERGING_OF_PLIES: Readonly<Record<JointState, number>> = { apart: 1, tack: 1, 'one-bag': 0 };

/**
 * The route with these joints. A boundary that is not named, or that can only be apart, is apart;
 * joints of boundaries that the part no longer has are ignored. Tack between layups that are infused is one shot.
 */
export function routeOf(
  layups: readonly Layup[],
  wanted: Readonly<Record<string, JointState>>,
): Route {
  const joints: Record<string, JointState> = {};
  const groups: { layups: Layup[]; joints: JointState[] }[] = [];
  const boundaries = boundariesOf(layups);
  layups.forEach((layup) => {
    const boundary = isInLine(layup)
      ? boundaries.find(({ after }) => after === layup.id)
      : undefined;
    const asked = boundary?.free ? (wanted[boundary.id] ?? 'apart') : 'apart';
    const state = boundary?.dry && asked === 'tack' ? 'one-bag' : asked;
    if (boundary) joints[boundary.id] = state;
    const last = groups.at(-1);
    if (!last || state === 'apart') {
      groups.push({ layups: [layup], joints: [] });
    } else {
      last.layups.push(layup);
      last.joints.push(state);
    }
  });
  const cures = groups.map((group) => cureOf(group.layups, group.joints));
  const merging = boundaries.reduce((sum, { id, free, before, after }) => {
    if (!free) return sum;
    const isPlies = layups.find((layup) => layup.id === after)!.partOf === before;
    return sum + (isPlies ? MERGING_OF_PLIES : MERGING)[joints[id]!];
  }, 0);
  return { id: routeId(cures.filter(isInLine).map((cure) => cure.id)), joints, merging, cures };
}

/** Every layup in a bag of its own, but plies that go down wet with the layup before them. */
export const apartRoute = (layups: readonly Layup[]): Route =>
  routeOf(
    layups,
    Object.fromEntries(
      layups.slice(1).flatMap((layup, i) => {
        const before = layups[i]!.id;
        return layup.partOf === before ? [[boundaryId(before, layup.id), 'one-bag']] : [];
      }),
    ),
  );

function cureOf(layups: readonly Layup[], joints: readonly JointState[]): RouteCure {
  const first = layups[0]!;
  const id = chainId(
    layups.map((layup) => layup.id),
    joints,
  );
  const name = cureName(
    layups.map((layup) => layup.name),
    joints,
  );
  return { id, name, layups, joints, place: first.place };
}

/** Layups of a cure that are laid in one go; a joint on tack begins a new stretch with new resin. */
export function stretchesOf(cure: Pick<RouteCure, 'layups' | 'joints'>): Layup[][] {
  const stretches: Layup[][] = [[cure.layups[0]!]];
  cure.layups.slice(1).forEach((layup, i) => {
    if (cure.joints[i] === 'one-bag') stretches.at(-1)!.push(layup);
    else stretches.push([layup]);
  });
  return stretches;
}
