/** Ways out where a bake or service is hotter than the part will stand. */
import { leverId, type LeverRef } from '../document/ids.ts';
import { practiceOf } from '../document/library.ts';
import { filledIn, partyIdAt } from '../document/assume.ts';
import { HEAT_ALONE, type Build, type Library } from '../document/schema.ts';
import { leverWords } from '../messages/levers.ts';
import type { RoutePlan } from '../plan/routePlan.ts';
import type { LeverEdit, LeverTable, PlanOfferInput } from './lever.ts';
import { heatsAlone } from './programme.ts';

type HeatRef = Extract<LeverRef, { lever: 'post-cure-heat' }>;
type AloneRef = Extract<LeverRef, { lever: 'heat-alone' }>;
type DryRef = Extract<LeverRef, { lever: 'air-dry' }>;

/** Some part of the build is left below what a bake or its service asks for. */
const isShort = ({ tg }: RoutePlan): boolean => tg.members.some(({ short }) => short);

/** Hired heat as hot as the post-cure wants it. */
function hiredHeat({ context, document, plan }: PlanOfferInput): LeverEdit[] {
  const { practice, part } = context;
  const { postCure, blocked } = plan.tg;
  if (!isShort(plan) || !postCure?.possible || !blocked) return [];
  // Tents are hired in steps of five degrees.
  const temperatureC = Math.ceil(postCure.holdC / 5) * 5;
  const edit = heatEdit(document, { lever: 'post-cure-heat', temperatureC });
  if (!edit || temperatureC > practice('hired-heat-most-c')) return [];
  const { minutes } = postCure;
  const handsMinutes =
    part.workFor('heat-setup').personMinutes + part.workFor('heat-takedown').personMinutes;
  return [
    {
      ...edit,
      ...leverWords('post-cure-heat', { temperatureC, minutes, handsMinutes }),
      addedMinor: Math.round(
        practice('tent-hire-minor') +
          (minutes / 60) * practice('tent-heat-minor-per-h') +
          (handsMinutes / 60) * practice('labour-minor-per-h'),
      ),
    },
  ];
}

/** An air-dry finish at each party that bakes. */
function airDried({ context, document, plan }: PlanOfferInput): LeverEdit[] {
  if (!isShort(plan)) return [];
  return context.build.outside
    .filter(({ bakeC }) => bakeC !== null)
    .flatMap(
      (party) => airDryEdit(document, { lever: 'air-dry', party: party.id }, context.library) ?? [],
    );
}

/** Looser rules for heat that runs alone, where a heat of the plan has no start by the present one. */
function looserRules({ document, plan }: PlanOfferInput): LeverEdit[] {
  const blocked = plan.tg.blocked?.why === 'hours' && isShort(plan);
  const warmsAlone = plan.network.warmedAgainstRule;
  if (!blocked && !warmsAlone && !plan.cures.some((cure) => heatsAlone(plan, cure))) return [];
  return HEAT_ALONE.flatMap((rule) => aloneEdit(document, { lever: 'heat-alone', rule }) ?? []);
}

/** Another rule for heat that runs alone. @returns null where it is no looser than the present one */
function aloneEdit(document: Build, ref: AloneRef): LeverEdit | null {
  const { rule } = ref;
  const { heatAlone } = filledIn(document).room;
  if (HEAT_ALONE.indexOf(rule) <= HEAT_ALONE.indexOf(heatAlone)) return null;
  return {
    id: leverId(ref),
    ...leverWords('heat-alone', { rule }),
    document: { ...document, room: { ...(document.room ?? {}), heatAlone: rule } },
    addedMinor: 0,
  };
}

/** Tent or oven that gets so hot. @returns null where the shop has one already */
function heatEdit(document: Build, ref: HeatRef): LeverEdit | null {
  const build = filledIn(document);
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
function airDryEdit(document: Build, ref: DryRef, library: Library): LeverEdit | null {
  const party = filledIn(document).outside.find(({ id }) => id === ref.party);
  if (!party || party.bakeC === null) return null;
  const extraDays = practiceOf(library)('air-dry-extra-days');
  return {
    id: leverId(ref),
    ...leverWords('air-dry', { party: party.name, extraDays }),
    document: {
      ...document,
      outside: (document.outside ?? []).map((one, i) =>
        partyIdAt(one, i) === party.id
          ? { ...one, bakeC: null, workingDays: one.workingDays + extraDays }
          : one,
      ),
    },
    addedMinor: 0,
  };
}

export const HEAT_LEVERS: LeverTable<'post-cure-heat' | 'heat-alone' | 'air-dry'> = {
  'post-cure-heat': { subject: null, offerWithPlan: hiredHeat, edit: heatEdit },
  'heat-alone': { subject: null, offerWithPlan: looserRules, edit: aloneEdit },
  'air-dry': { subject: null, offerWithPlan: airDried, edit: airDryEdit },
};
