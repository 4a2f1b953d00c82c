/** What the floor's records have settled: a layup that was laid cannot be laid otherwise any more. */
import { stretchesOf } from './routes.ts';
import type { Route } from './types.ts';

/** Kinds whose stage stands once for every stretch that is laid in one go, by its first layup. */
const OF_A_STRETCH: ReadonlySet<string> = new Set(['layup']);
/** Kinds whose stage stands once for every bag, by its first layup. */
const OF_A_BAG: ReadonlySet<string> = new Set([
  'prepare',
  'cure',
  'watched-vacuum',
  'gel-look',
  'bag-off',
]);

/** A boundary that a route would treat otherwise than the floor has. */
export interface Contradiction {
  readonly before: string;
  readonly after: string;
  /** True when the two were laid apart and the route would merge them. */
  readonly apart: boolean;
}

/**
 * What speaks against a route once work has begun; null when it can still be gone on with.
 * @param begun ids of the stages that the floor has written down as begun, as `layup:core`
 * @param chosen the route they were begun by, where the build names one
 */
export function contradictionOf(
  route: Route,
  begun: ReadonlySet<string>,
  chosen: Route | null,
): Contradiction | null {
  return begunOnItsOwn(route, begun) ?? (chosen && begunOtherwise(route, begun, chosen));
}

/** A stage of a layup's own is written down, and the route lays it or bags it with the one before. */
function begunOnItsOwn(route: Route, begun: ReadonlySet<string>): Contradiction | null {
  for (const cure of route.cures) {
    const stretchFirst = new Set(stretchesOf(cure).map((stretch) => stretch[0]!.id));
    for (const [i, layup] of cure.layups.entries()) {
      if (i === 0) continue;
      const before = cure.layups[i - 1]!.id;
      const own = [...begun].filter((stage) => stage.slice(stage.indexOf(':') + 1) === layup.id);
      const kinds = own.map((stage) => stage.slice(0, stage.indexOf(':')));
      const laid = kinds.some((kind) => OF_A_STRETCH.has(kind)) && !stretchFirst.has(layup.id);
      const bagged = kinds.some((kind) => OF_A_BAG.has(kind));
      if (laid || bagged) return { before, after: layup.id, apart: true };
    }
  }
  return null;
}

/** Every joint that the chosen route has already made, against the same joint of another. */
function begunOtherwise(
  route: Route,
  begun: ReadonlySet<string>,
  chosen: Route,
): Contradiction | null {
  for (const { before, after, id } of madeJoints(chosen, begun)) {
    if (route.joints[id] === chosen.joints[id]) continue;
    return { before, after, apart: chosen.joints[id] === 'apart' };
  }
  return null;
}

/** Joints whose upper layup is being laid, or whose lower one is in a bag that has begun to cure. */
function madeJoints(chosen: Route, begun: ReadonlySet<string>) {
  const layups = chosen.cures.flatMap((cure) => {
    const cures = begun.has(`cure:${cure.layups[0]!.id}`);
    return stretchesOf(cure).flatMap((stretch) => {
      const laid = begun.has(`layup:${stretch[0]!.id}`);
      return stretch.map(({ id }) => ({ id, laid, cures }));
    });
  });
  return layups.slice(1).flatMap((after, i) => {
    const before = layups[i]!;
    if (!after.laid && !before.cures) return [];
    return [{ before: before.id, after: after.id, id: `${before.id}-${after.id}` }];
  });
}
