/** Which modes of a stage are worth a choice of the search, and how long a stage takes as a rule. */
import type { Compiled, PlanMode, PlanStage } from './compile.ts';
import { endFrom, NEVER, startFrom } from './length.ts';

/** Moments at which two modes are compared. */
const SAMPLE_MOMENTS = 24;

/**
 * Modes that the search may choose against the rule 'the one that ends first', by stage. A mode that is
 * no cheaper than another, takes no less of anything, and at none of the moments looked at ends sooner
 * is left to the rule, which never takes it without need.
 */
export function genesOf(
  compiled: Compiled,
  earliest: ArrayLike<number>,
  until: number,
): number[][] {
  return compiled.stages.map((stage, i) => {
    const { modes, spec } = stage;
    if (modes.length < 2 || spec.fixedStart !== null) return [];
    if (compiled.arcsOf[i]!.some((arc) => arc.ifStage === i)) return modes.map((_, m) => m);
    const useful = modes
      .map((_, m) => m)
      .filter(
        (m) => !modes.some((_, n) => n !== m && isAtLeastAsGood(stage, n, m, earliest[i]!, until)),
      );
    return useful.length < 2 ? [] : useful;
  });
}

/** True when mode a serves wherever mode b does, as far as looked at. */
function isAtLeastAsGood(
  { modes }: PlanStage,
  a: number,
  b: number,
  from: number,
  until: number,
): boolean {
  const [one, other] = [modes[a]!, modes[b]!];
  if (one.warnings > other.warnings) return false;
  if (one.overtimeMinutes > other.overtimeMinutes) return false;
  if (one.air >= 0 && one.air !== other.air) return false;
  if (!takesNoMore(one, other)) return false;
  let strictly = a < b;
  const step = Math.max(1, Math.ceil((until - from) / SAMPLE_MOMENTS));
  for (let t = from; t <= until; t += step) {
    const [x, y] = [firstEnd(one, t), firstEnd(other, t)];
    if (x > y) return false;
    if (x < y) strictly = true;
  }
  return strictly;
}

function firstEnd(mode: PlanMode, minute: number): number {
  const start = startFrom(mode, minute);
  const end = start === NEVER ? NEVER : endFrom(mode, start);
  return end === NEVER ? Infinity : end;
}

const takesNoMore = (a: PlanMode, b: PlanMode): boolean =>
  a.uses.every((use) =>
    b.uses.some((other) => other.resource === use.resource && other.amount >= use.amount),
  );

/**
 * Minutes that each stage takes at its shortest, as far as looked at: what it takes longer for a night or
 * a cool room is no work of its own.
 */
export function nominalMinutes(
  compiled: Compiled,
  earliest: ArrayLike<number>,
  until: number,
): Float64Array {
  return Float64Array.from(compiled.stages, ({ modes }, i) => {
    let least = Infinity;
    const step = Math.max(1, Math.ceil((until - earliest[i]!) / SAMPLE_MOMENTS));
    for (const mode of modes) {
      for (let t = earliest[i]!; t <= Math.max(until, earliest[i]!); t += step) {
        const start = startFrom(mode, t);
        const end = start === NEVER ? NEVER : endFrom(mode, start);
        if (end !== NEVER) least = Math.min(least, end - start);
        if (mode.kind !== 'function' && mode.kind !== 'work') break;
      }
    }
    return least === Infinity ? 0 : least;
  });
}
