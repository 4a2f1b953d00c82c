/** Which stages a question holds up while nobody has answered it. */
import { memoByObject } from './memo.ts';
import { readStageId } from './ids.ts';
import type { FullBuild, Library, StageKind } from './schema.ts';

interface Stage {
  readonly id: string;
  readonly kind: StageKind;
}

type Asked = Pick<FullBuild['part']['questions'][number], 'before' | 'of'>;
type Rows = Pick<Library, 'resins'>;
type Of = Pick<FullBuild, 'outside' | 'resin'>;

/** Where a build has none of the stages, the next that the same answer can spoil. */
const FALLBACK_STAGES: Readonly<Partial<Record<StageKind, readonly StageKind[]>>> = {
  machining: ['mould', 'cutting'],
  outside: ['hand-over'],
};

/**
 * The stages that wait for the answer. A question about the mould holds up its machining, wherever that is
 * done, and one before an outside job the visits of the part and its wrapping for them; where there is no such stage, what comes next
 * and can be spoilt is held up.
 */
export function heldUp<T extends Stage>(
  asked: Asked,
  stages: readonly T[],
  build: Of,
  library: Rows,
): readonly T[] {
  const answers = answersOf(stages)(build)(library);
  const key = `${asked.before} ${asked.of}`;
  const known = answers.get(key) ?? answer(asked, stages, build, library);
  answers.set(key, known);
  // The list that was asked about is the one that the answers are kept by.
  return known as readonly T[];
}

/** Hundreds of questions ask for a few kinds of stage: each kind is looked for once. */
const answersOf = memoByObject((_stages: readonly Stage[]) =>
  memoByObject((_build: Of) =>
    memoByObject((_library: Rows) => new Map<string, readonly Stage[]>()),
  ),
);

function answer<T extends Stage>(
  { before, of }: Asked,
  stages: readonly T[],
  build: Of,
  library: Rows,
): readonly T[] {
  const machining = new Set(
    build.outside.filter(({ kind }) => kind === 'machining').map(({ id }) => id),
  );
  const resin = resinSuppliers(build, library);
  const waits = ({ id, kind }: T): boolean => {
    const ref = readStageId(id);
    const machines = ref?.what === 'outside' && machining.has(ref.party);
    if (before === 'machining') return kind === before || machines;
    if (before === 'mould') return kind === before || kind === 'machining' || machines;
    if (before === 'outside') return kind === 'wrap' || (kind === before && !machines);
    if (before === 'order' && of === 'resin' && ref !== null && 'supplier' in ref)
      return kind === before && resin.has(ref.supplier);
    return kind === before;
  };
  const held = stages.filter(waits);
  if (held.length > 0) return held;
  // Nothing of it is ordered: it is warmed from the shelf.
  const others = of === 'resin' ? (['resin-warm'] as const) : (FALLBACK_STAGES[before] ?? []);
  const next = others.find((kind) => stages.some((stage) => stage.kind === kind));
  return stages.filter(({ kind }) => kind === next);
}

function resinSuppliers({ resin }: Of, { resins }: Rows): ReadonlySet<string> {
  const row = resins.find(({ id }) => id === resin.system);
  const rows = row ? [row, ...row.hardeners] : [];
  return new Set(rows.map(({ supplier }) => supplier ?? 'other'));
}
