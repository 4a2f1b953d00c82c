/** A field of the document by its path: its words, the panel that edits it, why it was assumed. */
import { FIELDS } from './fieldTable.ts';
import type { FullBuild } from './schema.ts';

/** The panels of the planner on which fields are edited. */
export type FieldPanel = 'job' | 'part' | 'resin' | 'people' | 'mould' | 'outside' | 'questions';

export interface FieldSpec {
  /** Alone, with its unit: 'Free edge, m'. */
  readonly words: string;
  /** On its own panel, where that says less: 'Free edge'. */
  readonly label?: string;
  /** Left out: the panel of the field that it is part of. */
  readonly panel?: FieldPanel;
  /** What is said when nobody gave it and a value was taken; left out: that is no claim about the trade. */
  readonly whyAssumed?: string;
  /** Without it there is no plan: the element of the page that takes it, and what is asked for. */
  readonly needed?: { readonly field: string; readonly what: string };
}

/** What the program keeps in the document for itself. */
export const KEPT = ['formatVersion', 'id', 'library', 'levers', 'printed'] as const;
type Kept = (typeof KEPT)[number];

type Inside<T, P extends string> = T extends readonly (infer Item)[]
  ? Inside<Item, `${P}[]`>
  : T extends object
    ? string extends keyof T
      ? never
      : T extends { mon?: unknown }
        ? never
        : Fields<Omit<T, 'id'>, `${P}.`>
    : never;

type Fields<T, Before extends string> = {
  [K in keyof T & string]: `${Before}${K}` | Inside<NonNullable<T[K]>, `${Before}${K}`>;
}[keyof T & string];

/** Paths of all fields that people fill in, list positions as `[]`: `part.zones[].edgeM`. */
export type FieldPath = Fields<Omit<FullBuild, Kept>, ''>;

/** `part.zones[1].edgeM` -> `part.zones[].edgeM`. */
const patternOf = (path: string): string => path.replace(/\[\d+\]/g, '[]');

const specOf = (path: string): FieldSpec | undefined =>
  (FIELDS as Readonly<Record<string, FieldSpec>>)[patternOf(path)];

/** `part.zones[1].edgeM` -> `Free edge, m (2)`; a path that is no field stays as it is. */
export function fieldWords(path: string): string {
  const words = specOf(path)?.words ?? path;
  const place = /\[(\d+)\]/.exec(path);
  return place && Number(place[1]) > 0 ? `${words} (${Number(place[1]) + 1})` : words;
}

/** What the field is called on its own panel. */
export const fieldLabel = (path: string): string => {
  const spec = specOf(path);
  return spec?.label ?? spec?.words ?? path;
};

export const whyAssumed = (path: string): string | undefined => specOf(path)?.whyAssumed;

/** A field without which there is no plan. */
export interface NeededField {
  readonly path: string;
  /** The element that takes it. */
  readonly field: string;
  readonly what: string;
}

/** In the order of the table. */
export const NEEDED_FIELDS: readonly NeededField[] = Object.entries(FIELDS).flatMap(
  ([path, { needed }]) => (needed ? [{ path, ...needed }] : []),
);

/** The panel of the field itself, or of the nearest field that it is part of. */
export function panelOf(path: string): FieldPanel {
  const panel = specOf(path)?.panel;
  if (panel) return panel;
  const cut = Math.max(path.lastIndexOf('.'), path.lastIndexOf('['));
  return cut <= 0 ? 'job' : panelOf(path.slice(0, cut));
}

/** A value of the document in few words. */
export function valueWords(value: unknown): string {
  if (value === null) return 'none';
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  if (typeof value !== 'object') return String(value).replace('T', ' ');
  if (Array.isArray(value)) {
    return value.length === 0 ? 'none' : value.map((v) => valueWords(v)).join('–');
  }
  return Object.entries(value)
    .map(([key, inner]) => `${key} ${valueWords(inner)}`)
    .join(', ');
}
