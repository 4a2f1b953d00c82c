/**
 * All longest lags between starts in one matrix: `d[a * n + b]` is the largest w known with
 * start(b) >= start(a) + w. Activity 0 is the beginning, so its row holds the earliest starts and
 * its column the latest ones, negated.
 */
import type { PlainModel } from './model.ts';

/** No lag known. Sums of two of them stay far from the ends of 32 bits. */
export const NONE = -500_000_000;

/** Adds start(j) >= start(i) + lag with all that follows; false when that closes a cycle. */
export function addLag(d: Int32Array, n: number, i: number, j: number, lag: number): boolean {
  if (d[i * n + j]! >= lag) return true;
  if (d[j * n + i]! + lag > 0) return false;
  const rowJ = j * n;
  for (let a = 0; a < n; a++) {
    const toI = d[a * n + i]!;
    if (toI <= NONE) continue;
    const base = toI + lag;
    const rowA = a * n;
    if (d[rowA + j]! >= base) continue;
    for (let b = 0; b < n; b++) {
      const rest = d[rowJ + b]!;
      if (rest > NONE && base + rest > d[rowA + b]!) d[rowA + b] = base + rest;
    }
  }
  return true;
}

/**
 * Closure of a model's arcs, every activity between the beginning 0 and the end n - 1.
 * @returns null when a cycle of positive length forbids every schedule.
 */
export function closureOf(model: PlainModel): Int32Array | null {
  const n = model.duration.length;
  const d = new Int32Array(n * n).fill(NONE);
  for (let i = 0; i < n; i++) d[i * n + i] = 0;
  for (const { from, to, lag } of model.arcs) {
    if (!addLag(d, n, from, to, lag)) return null;
  }
  for (let i = 0; i < n; i++) {
    if (!addLag(d, n, 0, i, 0)) return null;
    if (!addLag(d, n, i, n - 1, model.duration[i]!)) return null;
  }
  return d;
}
