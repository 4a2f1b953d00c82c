/** Every number of a document by its place and range, read off the schema itself: a new field is found too. */
import { z } from 'zod';

export type Path = readonly (string | number)[];

export interface NumberField {
  readonly path: Path;
  readonly least: number;
  readonly most: number;
}

/** A schema behind defaults, nulls, transforms and refinements. */
function bare(schema: z.core.$ZodType): z.core.$ZodType {
  const { def } = schema._zod as unknown as {
    def: { type: string; innerType?: z.core.$ZodType; in?: z.core.$ZodType };
  };
  if (def.innerType) return bare(def.innerType);
  if (def.type === 'pipe' && def.in) return bare(def.in);
  return schema;
}

/**
 * Number fields that `value` has room for: of a list its first entry stands for all. Lists that `value`
 * leaves empty are given to `missed`.
 */
export function numberFields(
  schema: z.core.$ZodType,
  value: unknown,
  missed: (path: Path) => void,
  path: Path = [],
): NumberField[] {
  const plain = bare(schema);
  if (plain instanceof z.ZodNumber) {
    return [{ path, least: plain.minValue ?? -Infinity, most: plain.maxValue ?? Infinity }];
  }
  if (plain instanceof z.ZodObject) {
    const held = value as Readonly<Record<string, unknown>> | null | undefined;
    return Object.entries(plain.shape as Record<string, z.core.$ZodType>).flatMap(([key, inner]) =>
      held || path.length === 0
        ? numberFields(inner, held?.[key], missed, [...path, key])
        : gone(missed, path),
    );
  }
  if (plain instanceof z.ZodArray) {
    const list = value as readonly unknown[] | null | undefined;
    const element = plain.element as z.core.$ZodType;
    if (list && list.length > 0) return numberFields(element, list[0], missed, [...path, 0]);
    return gone(missed, path);
  }
  if (plain instanceof z.ZodTuple) {
    const items = (plain._zod.def as { items: readonly z.core.$ZodType[] }).items;
    if (!value) return gone(missed, path);
    return items.flatMap((item, i) =>
      numberFields(item, (value as unknown[])[i], missed, [...path, i]),
    );
  }
  if (plain instanceof z.ZodRecord) {
    const entries = Object.entries((value ?? {}) as Record<string, unknown>);
    return entries.flatMap(([key, one]) =>
      numberFields(plain.valueType as z.core.$ZodType, one, missed, [...path, key]),
    );
  }
  return [];
}

function gone(missed: (path: Path) => void, path: Path): NumberField[] {
  missed(path);
  return [];
}

/** The document with another value at a place. */
export function withValue<T>(document: T, [key, ...rest]: Path, value: unknown): T {
  if (key === undefined) return value as T;
  const copy = (Array.isArray(document) ? [...(document as unknown[])] : { ...document }) as Record<
    string | number,
    unknown
  >;
  copy[key] = withValue(copy[key], rest, value);
  return copy as T;
}

/** Every list of a schema by its place, with the most entries that it takes; Infinity: no end. */
export function listLengths(
  schema: z.core.$ZodType,
  path = '',
): { readonly path: string; readonly most: number }[] {
  const plain = bare(schema);
  if (plain instanceof z.ZodObject) {
    return Object.entries(plain.shape as Record<string, z.core.$ZodType>).flatMap(([key, inner]) =>
      listLengths(inner, path === '' ? key : `${path}.${key}`),
    );
  }
  if (plain instanceof z.ZodArray) {
    const checks = (plain._zod.def.checks ?? []).map(
      (one) => one._zod.def as { readonly check: string; readonly maximum?: number },
    );
    const longest = checks.find(({ check }) => check === 'max_length');
    const own = { path, most: longest?.maximum ?? Infinity };
    return [own, ...listLengths(plain.element as z.core.$ZodType, `${path}[]`)];
  }
  if (plain instanceof z.ZodRecord) return listLengths(plain.valueType as z.core.$ZodType, path);
  if (plain instanceof z.ZodUnion) {
    return plain.options.flatMap((one) => listLengths(one as z.core.$ZodType, path));
  }
  return [];
}
