/** Reading and writing one field of the sparse document by its path, never changing the original. */
import type { Build } from '../schema.ts';

/** A document as it is stored and typed: fields may be missing until somebody fills them in. */
export type Draft = Partial<Build>;

type Key = string | number;

/** `part.zones[0].areaM2` as keys. */
function keysOf(path: string): Key[] {
  return path
    .split(/[.[\]]+/)
    .filter((key) => key !== '')
    .map((key) => (/^\d+$/.test(key) ? Number(key) : key));
}

/** The value at a path, or undefined when it or anything above it is missing. */
export function getIn(document: unknown, path: string): unknown {
  let current = document;
  for (const key of keysOf(path)) {
    if (typeof current !== 'object' || current === null) return undefined;
    current = (current as Record<Key, unknown>)[key];
  }
  return current;
}

/** The document with one value replaced; `undefined` takes the field out, so that it is assumed. */
export function setIn<T extends object>(document: T, path: string, value: unknown): T {
  return write(document, keysOf(path), value) as T;
}

function write(current: unknown, [key, ...rest]: readonly Key[], value: unknown): unknown {
  if (key === undefined) return value;
  if (typeof key === 'number') {
    const list: unknown[] = Array.isArray(current) ? [...(current as unknown[])] : [];
    list[key] = write(list[key], rest, value);
    return list;
  }
  const record = isRecord(current) ? { ...current } : {};
  const next = write(record[key], rest, value);
  if (next === undefined) delete record[key];
  else record[key] = next;
  return record;
}

/** The document without one entry of a list. */
export function removeAt<T extends object>(document: T, path: string, index: number): T {
  const list = getIn(document, path);
  if (!Array.isArray(list)) return document;
  return setIn(
    document,
    path,
    list.filter((_, i) => i !== index),
  );
}

/** The document with one entry more at the end of a list. */
export function append<T extends object>(document: T, path: string, item: unknown): T {
  const list = getIn(document, path);
  return setIn(document, path, [...(Array.isArray(list) ? (list as unknown[]) : []), item]);
}

const isRecord = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);
