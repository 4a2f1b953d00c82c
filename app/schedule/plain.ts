/**
 * Stages whose place needs no more than a look at one word of the timeline: one mode of a fixed length
 * at any time, no condition, no hold, nothing of the room's air. What they need lies ready in flat arrays.
 */
import type { Arc, Compiled, PlanMode, PlanStage } from './compile.ts';
import type { Demand } from './timeline.ts';

export interface PlainStages {
  /** 1 where a pass to the left, or one to the right, may place the stage so. */
  readonly left: Uint8Array;
  readonly right: Uint8Array;
  /** What it takes; null: nothing, or no time. */
  readonly take: readonly (Demand | null)[];
  readonly minutes: Int32Array;
}

type ByStage = readonly (readonly Arc[])[];

/**
 * @param bounds relations but plain least lags that bound a stage, or that a pass checks afterwards
 */
export function plainStages(
  { stages, holds }: Compiled,
  bounds: { readonly left: readonly ByStage[]; readonly right: readonly ByStage[] },
): PlainStages {
  const held = new Set(holds.flatMap(({ from, to }) => [from, to]));
  const isFree = (i: number, lists: readonly ByStage[]): number =>
    Number(isPlain(stages[i]!) && !held.has(i) && lists.every((list) => list[i]!.length === 0));
  return {
    left: Uint8Array.from(stages, ({ index }) => isFree(index, bounds.left)),
    right: Uint8Array.from(stages, ({ index }) => isFree(index, bounds.right)),
    take: stages.map((stage) => (isPlain(stage) ? demandOf(stage.modes[0]!) : null)),
    minutes: Int32Array.from(stages, (stage) => (isPlain(stage) ? stage.modes[0]!.minutes : 0)),
  };
}

function demandOf({ need, minutes }: PlanMode): Demand | null {
  const word = need.mask.findIndex((guards) => guards !== 0);
  if (word < 0 || minutes <= 0) return null;
  return { minutes, word, amount: need.amounts[word]!, mask: need.mask[word]!, need };
}

function isPlain({ modes, spec }: PlanStage): boolean {
  const [mode, more] = modes;
  if (!mode || more || spec.fixedStart !== null) return false;
  if (mode.kind !== 'elapsed' || mode.table !== null || mode.air >= 0) return false;
  return (
    Number.isInteger(mode.minutes) && mode.need.mask.filter((guards) => guards !== 0).length < 2
  );
}
