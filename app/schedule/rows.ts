/** Relations by stage, sorted by how they bound a stage in a pass to the left or to the right. */
import type { Arc, Compiled } from './compile.ts';
import { plainStages, type PlainStages } from './plain.ts';

/** Plain lags, flat: `from[i]` to `from[i + 1]` are the entries of stage i. */
export interface LagRow {
  readonly from: Int32Array;
  /** Twice the partner's index, plus 1 where its end counts. */
  readonly anchor: Int32Array;
  readonly lag: Int32Array;
  /** 1 where the stage's own end is bound (only to the right). */
  readonly ownEnd: Uint8Array;
}

/** What bounds a stage whose partners already stand. */
export interface Rows {
  /** Unconditional least lags of a number of minutes, from what comes before. */
  readonly left: LagRow;
  /** The same, to what comes after. */
  readonly right: LagRow;
  /** Other relations that bound a start from below, and those that bound it from above. */
  readonly floors: readonly (readonly Arc[])[];
  readonly ceilings: readonly (readonly Arc[])[];
  /** Relations that a pass to the left, placing in order, may find broken at a stage. */
  readonly leftChecks: readonly (readonly Arc[])[];
  /** The same for a pass to the right. */
  readonly rightChecks: readonly (readonly Arc[])[];
  readonly plain: PlainStages;
}

const known = new WeakMap<Compiled, Rows>();

/** The rows of a problem; made once. */
export function rowsOf(compiled: Compiled): Rows {
  const rows = known.get(compiled) ?? makeRows(compiled);
  known.set(compiled, rows);
  return rows;
}

function makeRows(compiled: Compiled): Rows {
  const { stages, arcs, arcsOf, before } = compiled;
  const isFixed = (i: number): boolean => stages[i]!.spec.fixedStart !== null;
  const isPlain = (arc: Arc): boolean =>
    arc.atLeast && arc.map === null && arc.ifStage < 0 && arc.from !== arc.to;
  const inOrder = (arc: Arc): boolean =>
    arc.atLeast &&
    !isFixed(arc.from) &&
    !isFixed(arc.to) &&
    arc.ifStage < 0 &&
    before[arc.to]!.includes(arc.from);
  const plain = arcs.filter(isPlain);
  const floors = arcsOf.map((list, i) =>
    list.filter((arc) => (arc.atLeast ? arc.to === i && !isPlain(arc) : arc.from === i)),
  );
  const ceilings = arcsOf.map((list, i) =>
    list.filter((arc) => (arc.atLeast ? arc.from === i && !isPlain(arc) : arc.to === i)),
  );
  const checks = arcsOf.map((list, i) => list.filter((arc) => !inOrder(arc) || arc.ifStage === i));
  return {
    left: lagRow(stages.length, plain, true),
    right: lagRow(stages.length, plain, false),
    floors,
    ceilings,
    leftChecks: checks,
    rightChecks: checks,
    plain: plainStages(compiled, { left: [floors, checks], right: [ceilings, checks] }),
  };
}

/** The rows of plain lags; `leftward` by target, else by source. */
function lagRow(count: number, arcs: readonly Arc[], leftward: boolean): LagRow {
  const own = (arc: Arc): number => (leftward ? arc.to : arc.from);
  const sorted = [...arcs].sort((a, b) => own(a) - own(b));
  const from = new Int32Array(count + 1);
  for (const arc of sorted) from[own(arc) + 1]!++;
  for (let i = 0; i < count; i++) from[i + 1]! += from[i]!;
  return {
    from,
    anchor: Int32Array.from(sorted, (arc) =>
      leftward ? 2 * arc.from + Number(arc.fromEnd) : 2 * arc.to,
    ),
    // Starts are whole minutes.
    lag: Int32Array.from(sorted, (arc) => Math.ceil(arc.lag)),
    ownEnd: Uint8Array.from(sorted, (arc) => Number(!leftward && arc.fromEnd)),
  };
}
