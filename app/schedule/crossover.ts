/** How a list is made from two members, and how it is changed a little. */
import { workBetween, type Genes, type Member, type MemberPool, type Places } from './member.ts';
import type { Random } from './random.ts';

/** Stretches looked at for each crossing; the one that gains most work is taken. */
const STRETCHES = 6;
const SHORTEST_SHARE = 0.2;

interface Stretch {
  readonly from: number;
  readonly to: number;
}

/** How a stretch is drawn. */
export interface Draw {
  readonly random: Random;
  /** Longest share of all work. */
  readonly longest: number;
}

/** The stretch of the mother's list in whose time the father does most more work. */
function bestStretch(mother: Places, father: Places, { random, longest }: Draw): Stretch {
  const { list, distance, work } = mother;
  let best = { from: 0, to: 0 };
  let bestGain = -Infinity;
  for (let k = 0; k < STRETCHES; k++) {
    const share = SHORTEST_SHARE + random.next() * (longest - SHORTEST_SHARE);
    // Counted in work, not in minutes: nights and weekends have no share in a stretch.
    const length = work[list.length]! * share;
    const begin = random.next() * (work[list.length]! - length);
    let from = 0;
    while (from < list.length - 1 && work[from]! < begin) from++;
    let to = from + 1;
    while (to < list.length && work[to]! <= begin + length) to++;
    const [near, far] = [distance[from]!, distance[Math.min(to, list.length - 1)]!];
    const gain = workBetween(father, near, far) - workBetween(mother, near, far);
    if (gain > bestGain) {
      bestGain = gain;
      best = { from, to };
    }
  }
  return best;
}

/** Writes a list in the mother's order, but for one stretch in the father's. */
export function cross(
  list: Int32Array,
  genes: Genes | null,
  { mother, father }: { readonly mother: Member; readonly father: Member },
  nursery: MemberPool,
  draw: Draw,
): void {
  const [own, other] = [nursery.loaded(mother), nursery.loaded(father)];
  list.set(own.list);
  if (list.length === 0) return;
  const { from, to } = bestStretch(own, other, draw);
  const { rank } = own;
  let at = from;
  for (let k = 0; k < list.length; k++) {
    const i = other.list[k]!;
    if (rank[i]! >= from && rank[i]! < to) list[at++] = i;
  }
  if (!genes || !mother.genes || !father.genes) return;
  genes.set(mother.genes);
  for (let k = from; k < to; k++) genes[list[k]!] = father.genes[list[k]!]!;
}

/**
 * Moves one stage within the room that its neighbours leave it in the list.
 * @param before stages that come before each one in this list's direction
 */
export function moveOne(
  before: readonly (readonly number[])[],
  after: readonly (readonly number[])[],
  list: Int32Array,
  position: Int32Array,
  random: Random,
): void {
  const count = list.length;
  if (count < 2) return;
  const k = random.below(count);
  const i = list[k]!;
  position.fill(-1);
  for (let p = 0; p < count; p++) position[list[p]!] = p;
  let low = 0;
  let high = count - 1;
  for (const one of before[i]!) if (position[one]! >= 0) low = Math.max(low, position[one]! + 1);
  for (const one of after[i]!) if (position[one]! >= 0) high = Math.min(high, position[one]! - 1);
  if (high <= low) return;
  const to = low + random.below(high - low + 1);
  if (to < k) list.copyWithin(to + 1, to, k);
  else list.copyWithin(k, k + 1, to + 1);
  list[to] = i;
}
