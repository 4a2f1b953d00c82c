/**
 * Amounts of many resources in few numbers: each resource has a lane of bits in a 32-bit word, with a
 * guard bit above it. One subtraction then compares all resources of a word; a lane that would go below
 * zero loses its guard bit.
 */
import type { Problem } from './problem.ts';

interface Lane {
  readonly word: number;
  readonly shift: number;
  readonly guard: number;
}

/** How amounts are laid out in words. */
export interface Lanes {
  /** Words that hold one amount of every resource. */
  readonly words: number;
  /** Guard bits and full capacity: nothing is in use. */
  readonly idle: Int32Array;
  readonly of: readonly Lane[];
}

/** What one mode or hold takes, in words; `mask` has the guard bits of the lanes it takes from. */
export interface Need {
  readonly amounts: Int32Array;
  readonly mask: Int32Array;
}

/** Widest lane, guard bit included. */
const WIDEST = 31;

/** Nothing that is counted in a shop comes near. */
const MOST = 0x1fffffff;

const bitsOf = (amount: number): number => 32 - Math.clz32(Math.min(amount, 2 * MOST));

/**
 * Lays out a problem's resources.
 * @param capacity of each resource
 */
export function lanesOf(problem: Problem, capacity: readonly number[]): Lanes {
  const booked = recordedUse(problem, capacity.length);
  const most = capacity.map((amount) => Math.min(amount, MOST));
  const of: Lane[] = [];
  let word = 0;
  let shift = 0;
  for (let k = 0; k < capacity.length; k++) {
    // What was recorded may overbook a resource: its lane then lies below zero and must not borrow.
    const bits = Math.min(WIDEST, bitsOf(most[k]! + booked[k]!) + 1);
    if (shift + bits > 32) {
      word++;
      shift = 0;
    }
    of.push({ word, shift, guard: 1 << (shift + bits - 1) });
    shift += bits;
  }
  const idle = new Int32Array(word + 1);
  of.forEach((lane, k) => (idle[lane.word]! |= lane.guard | (most[k]! << lane.shift)));
  return { words: word + 1, idle, of };
}

/** Most that records, pins and other jobs can take of each resource at once, and all holds with them. */
function recordedUse(problem: Problem, count: number): number[] {
  const booked = new Array<number>(count).fill(0);
  const index = new Map(problem.resources.map((resource, k) => [resource.id, k]));
  const add = (id: string, amount: number): void => {
    const k = index.get(id);
    if (k !== undefined) booked[k]! += amount;
  };
  for (const stage of problem.stages) {
    if (stage.fixedStart === null) continue;
    for (const mode of stage.modes) {
      for (const use of mode.uses) add(use.resource, use.amount);
      for (const { people, count: asked } of mode.anyOf ?? []) {
        for (const id of people) add(id, 1);
        for (let k = problem.resources.length; k < count; k++) booked[k]! += asked;
      }
    }
  }
  for (const hold of problem.holds ?? []) add(hold.resource, hold.amount);
  for (const block of problem.busy ?? []) add(block.resource, block.amount);
  return booked;
}

/** The words of some uses. */
export function needOf(
  lanes: Lanes,
  uses: readonly { readonly resource: number; readonly amount: number }[],
): Need {
  const amounts = new Int32Array(lanes.words);
  const mask = new Int32Array(lanes.words);
  for (const { resource, amount } of uses) {
    const lane = lanes.of[resource]!;
    amounts[lane.word]! += amount << lane.shift;
    mask[lane.word]! |= lane.guard;
  }
  return { amounts, mask };
}
