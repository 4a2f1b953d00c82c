/** Where a row of the library comes from, and how it came into a build that carries it. */
import type { Provenance } from './schema.ts';

export type Typed = NonNullable<Provenance['typed']>;

/** The source that is named for figures typed into a build. */
const SHEET = 'typed into this build';
const POT_LIFE = 'typed into this build from one pot-life row';
const SOURCE_LENGTH = 300;

/** A row of the shop's own, all of whose figures were typed in. */
export const TYPED_ROW: Provenance = { kind: 'data-sheet', source: SHEET, typed: 'sheet' };

/** A resin made from one pot-life row that was read off a can or the shop's own cup. */
export const POT_LIFE_ROW: Provenance = { kind: 'measured', source: POT_LIFE, typed: 'pot-life' };

/** How a row was typed into its build; null for one that came from a library as it is. */
export const typedOf = ({ typed }: Provenance): Typed | null => typed ?? null;

/** The row once somebody has typed over a figure of it, and what it was before. */
export function typedOver(provenance: Provenance): Provenance {
  const typed = typedOf(provenance);
  const { kind, source } = provenance;
  if (typed) return { kind, source, typed };
  const whole = `${SHEET}; before: ${source || kind}`;
  return { kind: 'data-sheet', source: whole.slice(0, SOURCE_LENGTH), typed: 'sheet' };
}

/** The row copied: no longer typed, until somebody types over it. */
export const copiedFrom = ({ kind, source }: Provenance, name: string): Provenance => ({
  kind,
  source: `copied from ${name}: ${source}`.slice(0, SOURCE_LENGTH),
});
