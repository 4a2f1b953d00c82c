/** Ways out where a bake or service is hotter than the part will stand. */
import { leverId, type LeverRef } from '../document/ids.ts';
import { practiceOf } from '../document/library.ts';
import { buildSchema, type Build } from '../document/schema.ts';
import { leverWords } from '../messages/levers.ts';
import type { PlanContext } from '../plan/context.ts';
import type { RoutePlan } from '../plan/routePlan.ts';
import type { LeverEdit } from './buildLevers.ts';

type HeatRef = Extract<LeverRef, { lever: 'post-cure-heat' }>;
type DryRef = Extract<LeverRef, { lever: 'air-dry' }>;

/** Hired heat as hot as the post-cure wants it, and an air-dry finish at each party that bakes. */
export function heatLevers(context: PlanContext, document: Build, plan: RoutePlan): LeverEdit[] {
  const { practice, build, library } = context;
  const { members, postCure, blocked } = plan.tg;
  if (!members.some(({ short }) => short)) return [];
  const edits: LeverEdit[] = [];
  if (postCure?.possible && blocked) {
    // Tents are hired in steps of five degrees.
    const temperatureC = Math.ceil(postCure.holdC / 5) * 5;
    const edit = heatEdit(document, { lever: 'post-cure-heat', temperatureC });
    const heated = edit && temperatureC <= practice('hired-heat-most-c');
    if (heated) {
      const hands =
        context.part.workFor('heat-setup').personMinutes +
        context.part.workFor('heat-takedown').personMinutes;
      edits.push({
        ...edit,
        ...leverWords('post-cure-heat', {
          temperatureC,
          minutes: postCure.minutes,
          handsMinutes: hands,
        }),
        addedMinor: Math.round(
          practice('tent-hire-minor') +
            (postCure.minutes / 60) * practice('tent-heat-minor-per-h') +
            (hands / 60) * practice('labour-minor-per-h'),
        ),
      });
    }
  }
  const days = practiceOf(library)('air-dry-extra-days');
  for (const party of build.outside.filter(({ bakeC }) => bakeC !== null)) {
    const edit = airDryEdit(document, { lever: 'air-dry', party: party.id }, days);
    if (edit) edits.push(edit);
  }
  return edits;
}

/** Tent or oven that gets so hot. @returns null where the shop has one already */
export function heatEdit(document: Build, ref: HeatRef): LeverEdit | null {
  const build = buildSchema.parse(document);
  const { temperatureC } = ref;
  if (build.room.tent && build.room.tent.maxC >= temperatureC) return null;
  return {
    id: leverId(ref),
    ...leverWords('post-cure-heat', { temperatureC, minutes: null, handsMinutes: null }),
    document: {
      ...document,
      room: { ...(document.room ?? {}), tent: { maxC: temperatureC } },
      gear: { ...(document.gear ?? {}), tents: Math.max(1, build.gear.tents) },
    },
    addedMinor: 0,
  };
}

/** A finish that dries without an oven. @returns null where that party does not bake */
export function airDryEdit(document: Build, ref: DryRef, extraDays: number): LeverEdit | null {
  const { outside } = buildSchema.parse(document);
  const at = outside.findIndex(({ id, bakeC }) => id === ref.party && bakeC !== null);
  const party = outside[at];
  if (!party) return null;
  return {
    id: leverId(ref),
    ...leverWords('air-dry', { party: party.name, extraDays }),
    document: {
      ...document,
      outside: (document.outside ?? []).map((one, i) =>
        i === at ? { ...one, bakeC: null, workingDays: one.workingDays + extraDays } : one,
      ),
    },
    addedMinor: 0,
  };
}
