/**
 * All least lags between starts in one matrix: `d[a * n + b]` is the largest w known, in minutes and
 * whatever the moment, with start(b) >= start(a) + w.
 */

/** No lag known. Sums of two of them stay far from the ends of 32 bits. */
export const NONE = -500_000_000;

/** A matrix in which nothing is known. */
export function emptyClosure(n: number): Int32Array {
  const d = new Int32Array(n * n).fill(NONE);
  for (let i = 0; i < n; i++) d[i * n + i] = 0;
  return d;
}

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
