/** Takes what one edit changed over to another document: for an edit whose document has changed since. */

type Fields = Readonly<Record<string, unknown>>;

/**
 * `onto` with everything that differs between `base` and `mine` as it is in `mine`. Objects are taken
 * field by field and lists of one length entry by entry, so that edits of different fields stand side
 * by side; where the same field was changed in both, `mine` holds. A list that grew or shrank in
 * `mine` is matched by the ids of its entries where all have one, and is taken whole where not.
 */
export function rebase<T>(base: T, mine: T, onto: T): T {
  return merge(base, mine, onto) as T;
}

function merge(base: unknown, mine: unknown, onto: unknown): unknown {
  if (mine === base || equal(mine, base)) return onto;
  if (onto === base || equal(onto, base)) return mine;
  if (isFields(base) && isFields(mine) && isFields(onto)) return mergeFields(base, mine, onto);
  if (Array.isArray(base) && Array.isArray(mine) && Array.isArray(onto)) {
    return mergeLists(base, mine, onto);
  }
  return mine;
}

function mergeFields(base: Fields, mine: Fields, onto: Fields): Fields {
  const result: Record<string, unknown> = {};
  for (const key of new Set([...Object.keys(onto), ...Object.keys(mine)])) {
    const value = merge(base[key], mine[key], onto[key]);
    if (value !== undefined) result[key] = value;
  }
  return result;
}

function mergeLists(base: unknown[], mine: unknown[], onto: unknown[]): unknown[] {
  if (base.length === mine.length && base.length === onto.length) {
    return mine.map((entry, i) => merge(base[i], entry, onto[i]));
  }
  const [before, here, there] = [byId(base), byId(mine), byId(onto)];
  if (!before || !here || !there) return mine;
  const merged: unknown[] = [];
  for (const [id, entry] of there) {
    // Removed in `mine`: it stays removed. Unchanged in `mine`: as it is in `onto`.
    if (!here.has(id) && before.has(id)) continue;
    merged.push(here.has(id) ? merge(before.get(id), here.get(id), entry) : entry);
  }
  for (const [id, entry] of here) {
    if (there.has(id)) continue;
    // Removed in `onto` and unchanged in `mine`: it stays removed.
    if (before.has(id) && equal(before.get(id), entry)) continue;
    merged.push(entry);
  }
  return merged;
}

/** Entries by their id; null when one has none or two share one. */
function byId(list: readonly unknown[]): Map<unknown, unknown> | null {
  const entries = new Map<unknown, unknown>();
  for (const entry of list) {
    const id = isFields(entry) ? (entry['id'] ?? entry['stage']) : undefined;
    if (id === undefined || entries.has(id)) return null;
    entries.set(id, entry);
  }
  return entries;
}

const isFields = (value: unknown): value is Fields =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** The same value, whatever the order of its fields; a field that is undefined is as good as none. */
function equal(a: unknown, b: unknown): boolean {
  if (Object.is(a, b)) return true;
  if (Array.isArray(a) && Array.isArray(b)) {
    return a.length === b.length && a.every((entry, i) => equal(entry, b[i]));
  }
  if (!isFields(a) || !isFields(b)) return false;
  return [...new Set([...Object.keys(a), ...Object.keys(b)])].every((key) => equal(a[key], b[key]));
}
