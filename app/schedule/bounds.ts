/** The earliest end that lengths, lags and calendars allow, and the work that each resource has to do. */
import type { Compiled, PlanMode } from './compile.ts';
import { endFrom, NEVER } from './length.ts';
import { earliestStarts } from './windows.ts';

/**
 * No plan ends before this minute.
 * @param earliest starts by relations alone from the same moment on
 */
export function leastEnd(compiled: Compiled, from: number, earliest: readonly number[]): number {
  return Math.max(endByRelations(compiled, earliest), endByWork(compiled, from));
}

/** The earliest end of everything if nobody and nothing were scarce. */
export function endByRelations(compiled: Compiled, earliest: readonly number[]): number {
  let last = -Infinity;
  compiled.stages.forEach((stage, i) => {
    if (stage.busy) return;
    let own = stage.spec.fixedEnd ?? Infinity;
    if (stage.spec.fixedEnd === null) {
      for (const mode of stage.modes) {
        const end = endFrom(mode, earliest[i]!);
        if (end !== NEVER && end < own) own = end;
      }
    }
    last = Math.max(last, own === Infinity ? earliest[i]! : own);
  });
  return last;
}

export const earliestEnd = (compiled: Compiled, from: number): number =>
  endByRelations(compiled, earliestStarts(compiled, { from, modeOf: null, order: [] }).earliest);

/** When the busiest resource has done the least work that there is for it. */
function endByWork({ stages, capacity }: Compiled, from: number): number {
  const work = new Float64Array(capacity.length);
  for (const { modes, spec } of stages) {
    if (spec.fixedStart !== null) continue;
    for (let k = 0; k < capacity.length; k++) {
      let least = Infinity;
      for (const mode of modes) least = Math.min(least, workOn(mode, k));
      if (least < Infinity) work[k]! += least;
    }
  }
  return work.reduce(
    (end, minutes, k) => (capacity[k]! > 0 ? Math.max(end, from + minutes / capacity[k]!) : end),
    from,
  );
}

function workOn(mode: PlanMode, resource: number): number {
  const amount = mode.uses.find((use) => use.resource === resource)?.amount ?? 0;
  return mode.kind === 'function' ? 0 : amount * mode.minutes;
}
