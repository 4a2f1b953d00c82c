/** What the floor's records have fixed: a layup that was laid one way cannot be laid in another. */
import { boundaryId, layupStageId, readStageId, type LayupStage } from '../document/ids.ts';
import { isInLine } from '../part/types.ts';
import { stretchesOf } from './routes.ts';
import type { Route } from './types.ts';

/** What a stage stands once for, by its first layup: a stretch laid in one go, a whole bag. */
const STAGE_SCOPE: Readonly<Record<LayupStage, 'stretch' | 'bag' | 'edge'>> = {
  layup: 'stretch',
  prepare: 'bag',
  'lay-dry': 'bag',
  'drop-test': 'bag',
  cure: 'bag',
  'watched-vacuum': 'bag',
  'gel-look': 'bag',
  'bag-off': 'bag',
  closeout: 'edge',
  'tent-setup': 'bag',
  'tent-takedown': 'bag',
  release: 'bag',
};

/** Stages in which the layups of a stretch are laid together: wet, or dry before they are filled. */
const LAID_BY = ['layup', 'lay-dry'] as const;

/** A boundary that a route would treat otherwise than the floor has. */
export interface Contradiction {
  readonly before: string;
  readonly after: string;
  /** True when the two were laid apart and the route would merge them. */
  readonly apart: boolean;
}

/**
 * Why a route is no longer possible once work has begun; null while it still is.
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
  const stages = [...begun].flatMap((id) => readStageId(id) ?? []);
  for (const cure of route.cures) {
    const stretchFirst = new Set(stretchesOf(cure).map((stretch) => stretch[0]!.id));
    for (const [i, layup] of cure.layups.entries()) {
      if (i === 0) continue;
      const before = cure.layups[i - 1]!.id;
      const own = stages.flatMap((ref) =>
        'layup' in ref && ref.layup === layup.id ? STAGE_SCOPE[ref.what] : [],
      );
      const laid = own.includes('stretch') && !stretchFirst.has(layup.id);
      const bagged = own.includes('bag');
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
  for (const { before, after, id } of settledJoints(chosen, begun)) {
    if (route.joints[id] === chosen.joints[id]) continue;
    return { before, after, apart: chosen.joints[id] === 'apart' };
  }
  return null;
}

/** Joints whose upper layup is being laid, or whose lower one is in a bag that has begun to cure. */
function settledJoints(chosen: Route, begun: ReadonlySet<string>) {
  const layups = chosen.cures.filter(isInLine).flatMap((cure) => {
    const cures = begun.has(layupStageId('cure', cure.layups[0]!.id));
    return stretchesOf(cure).flatMap((stretch) => {
      const first = stretch[0]!.id;
      const laid = LAID_BY.some((what) => begun.has(layupStageId(what, first)));
      return stretch.map(({ id }) => ({ id, laid, cures }));
    });
  });
  return layups.slice(1).flatMap((after, i) => {
    const before = layups[i]!;
    if (!after.laid && !before.cures) return [];
    return [{ before: before.id, after: after.id, id: boundaryId(before.id, after.id) }];
  });
}
