/** Where a figure comes from: formula, inputs and their origin, for the slip that opens from it. */
import type { Library, Provenance } from '../../document/schema.ts';
import type { Derivation } from '../../part/derivations.ts';
import { figure } from '../../units/words.ts';

export type OriginRow = Origin['rows'][number];

export interface Origin {
  readonly formula: string;
  readonly rows: readonly { name: string; value: string; from?: string }[];
  readonly source: string;
}

export const MIXTURES =
  'Rule of mixtures by volume, as in ASTM D3171 method II (from memory); no voids.';

/** `data-sheet` as it is said. */
export const kindWords = (kind: Provenance['kind']): string => kind.replace('-', ' ');

/** Where a row of the library comes from, in words. */
export function provenanceWords({ kind, source }: Provenance): string {
  const word = kindWords(kind);
  return source.startsWith(word) ? source : source ? `${word}: ${source}` : word;
}

/** A derivation of the part as a slip. */
export const originOf = ({ formula, inputs, results, source }: Derivation): Origin => ({
  formula,
  rows: [
    ...inputs.map(({ name, value, unit, provenance }) => ({
      name,
      value: `${figure(value)} ${unit}`.trim(),
      from: provenance ? provenanceWords(provenance) : 'typed, or worked out from it',
    })),
    ...results.map(({ name, value, unit }) => ({
      name,
      value: `= ${figure(value)} ${unit}`.trim(),
      from: 'result',
    })),
  ],
  source,
});

/** A row of trade practice as a line of a slip. */
export const practiceOrigin = (library: Library, id: string): OriginRow => {
  const row = library.practice.find((one) => one.id === id);
  return {
    name: row?.name ?? id,
    value: row ? `${row.value} ${row.unit}`.trim() : '–',
    from: row ? provenanceWords(row.provenance) : '',
  };
};

/** What comes out, as the last line of a slip. */
export const result = (name: string, value: string): OriginRow => ({
  name,
  value: `= ${value}`,
  from: 'result',
});
