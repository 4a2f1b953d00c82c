/** The Pareto front: choices that no other is at least as good as everywhere and better than somewhere. */

/** True when `a` is at least as good everywhere and better somewhere; smaller is better. */
export function paretoDominates(a: readonly number[], b: readonly number[]): boolean {
  let better = false;
  for (let i = 0; i < a.length; i++) {
    if (a[i]! > b[i]!) return false;
    if (a[i]! < b[i]!) better = true;
  }
  return better;
}

/**
 * The Pareto front, in the order given. Of items alike in everything the first is kept.
 * @param measures numbers of an item, all of one length, smaller better
 */
export function paretoFront<T>(items: readonly T[], measures: (item: T) => readonly number[]): T[] {
  const front: { item: T; numbers: readonly number[] }[] = [];
  for (const item of items) {
    const numbers = measures(item);
    if (
      front.some((kept) => paretoDominates(kept.numbers, numbers) || alike(kept.numbers, numbers))
    )
      continue;
    for (let i = front.length - 1; i >= 0; i--) {
      if (paretoDominates(numbers, front[i]!.numbers)) front.splice(i, 1);
    }
    front.push({ item, numbers });
  }
  return front.map(({ item }) => item);
}

const alike = (a: readonly number[], b: readonly number[]): boolean =>
  a.every((value, i) => value === b[i]);

/** Up to `most` items, front after front, each in the order given. */
export function bestLayers<T>(
  items: readonly T[],
  measures: (item: T) => readonly number[],
  most: number,
): T[] {
  const chosen: T[] = [];
  let left = [...items];
  while (chosen.length < most && left.length > 0) {
    const front = paretoFront(left, measures);
    chosen.push(...front.slice(0, most - chosen.length));
    const taken = new Set(front);
    left = left.filter((item) => !taken.has(item));
  }
  return chosen;
}
