/** A skin whose wet work outlasts its resin or the crew's hours, laid in sections with a cure each. */
import { bagDueOf } from '../cure/bag-due.ts';
import { layupStageId } from '../document/ids.ts';
import { begunStages } from '../document/records.ts';
import { MOST, type FullBuild } from '../document/schema.ts';
import { measurePart } from '../part/measure.ts';
import { coatAgainMinutes, jointMinutes } from '../part/sectionWork.ts';
import {
  isInfused,
  SECTIONED_IDS,
  type Layup,
  type PartResult,
  type SectionedId,
} from '../part/types.ts';
import { apartRoute } from '../route/routes.ts';
import type { PlanContext } from './context.ts';
import type { SettledCure } from './cures.ts';
import type { RoutePlan } from './routePlan.ts';
import { wetMinutesOf, wetWorkOf, type WetWork } from './wetWork.ts';

/** A skin in the fewest sections that hold, and what they cost beside material. */
export interface SkinInSections {
  readonly layup: SectionedId;
  readonly sections: number;
  /** Person-minutes more than by the plan: set-ups, joints, watches, bags off, release. */
  readonly minutes: number;
  /** All joints together, m. */
  readonly jointM: number;
  /** What the overlaps weigh, g. */
  readonly overlapG: number;
}

/**
 * Skins laid on their own, or with local plies that go down with them, that outlast their open time or the crew's
 * hours and have not begun. Where not even the most sections hold there is nothing to offer.
 */
export const skinsInSections = (context: PlanContext, plan: RoutePlan): SkinInSections[] =>
  SECTIONED_IDS.flatMap((skin) => {
    const lacking = plan.cures.filter(
      (settled) => skinOf(settled) === skin && outlasts(plan, settled),
    );
    if (lacking.length === 0 || hasBegun(context, plan, skin)) return [];
    const within = Math.min(...lacking.map((settled) => mostMinutes(context, plan, settled)));
    const now = context.build.part.sections[skin];
    for (let sections = now + 1; sections <= MOST.sections; sections++) {
      const way = inSections(context, plan, { skin, sections, within });
      if (way) return [way];
    }
    return [];
  });

/** The skin that a cure lays alone; null where another layup is merged into its bag. */
function skinOf({ cure: { layups } }: SettledCure): SectionedId | null {
  const [first, ...others] = layups as [Layup, ...Layup[]];
  if (isInfused(layups) || others.some(({ partOf }) => partOf !== first.id)) return null;
  return first.section?.of ?? SECTIONED_IDS.find((id) => id === first.id) ?? null;
}

const stageOf = ({ cure }: SettledCure): string => layupStageId('layup', cure.layups[0]!.id);

function outlasts({ network }: RoutePlan, settled: SettledCure): boolean {
  const stage = stageOf(settled);
  return (
    network.workedThrough[stage] !== undefined ||
    network.leftOff.some((one) => one.stage === stage && one.rule === 'bag-down')
  );
}

function hasBegun({ build }: PlanContext, { cures }: RoutePlan, skin: SectionedId): boolean {
  const begun = begunStages(build);
  return cures.some((settled) => skinOf(settled) === skin && begun.has(stageOf(settled)));
}

/** From first mix to the bag's being down, as its resin and the crew's hours have it. */
function mostMinutes(context: PlanContext, plan: RoutePlan, settled: SettledCure): number {
  const stage = stageOf(settled);
  const mixed = plan.placed.get(stage)?.start ?? context.from;
  const due = bagDueOf(settled.early, context.practice).apply(mixed);
  const longest = plan.network.workedThrough[stage] ?? Infinity;
  return Math.min(
    due === null ? Infinity : due - mixed,
    longest - context.practice('watch-minutes'),
  );
}

interface Wanted {
  readonly skin: SectionedId;
  readonly sections: number;
  readonly within: number;
}

function inSections(
  context: PlanContext,
  plan: RoutePlan,
  { skin, sections, within }: Wanted,
): SkinInSections | null {
  const { library, practice } = context;
  const build: FullBuild = {
    ...context.build,
    part: {
      ...context.build.part,
      sections: { ...context.build.part.sections, [skin]: sections },
    },
  };
  const part = measurePart(build, library);
  const changed: PlanContext = { ...context, build, part };
  const works = curesOf(changed, skin);
  if (works.length < 2) return null;
  if (works.some(({ layup, work }) => wetMinutesOf(changed, [layup], work) > within)) return null;
  const before = plan.cures.filter((settled) => skinOf(settled) === skin);
  const wetBefore = before.map(({ cure, wetMinutes }) => wetMinutes[cure.layups[0]!.id]!);
  const bagOff = (of: PartResult, layups: readonly Layup[]): number =>
    of.workUnder('bag-off', layups).personMinutes;
  const later = works.map(({ layup }) => layup).slice(before.length);
  const minutes =
    sum(works.map(({ layup, work }) => work.wetMinutes[layup.id]! + bagOff(part, [layup]))) -
    sum(wetBefore) -
    sum(before.map(({ cure }) => bagOff(context.part, cure.layups))) +
    later.length * practice('watch-minutes') +
    sum(
      later.map(
        (layup) =>
          jointMinutes(layup.section!, build, library) + coatAgainMinutes(layup, build, library),
      ),
    );
  const shellKg = ({ massKg }: PartResult): number => massKg.fibre + massKg.resin;
  return {
    layup: skin,
    sections,
    minutes,
    jointM: sum(works.map(({ layup }) => layup.section!.jointM)),
    overlapG: (shellKg(part) - shellKg(context.part)) * 1000,
  };
}

/** The sections of a skin with the wet work of each in the hands of the whole crew. */
function curesOf(
  context: PlanContext,
  skin: SectionedId,
): { readonly layup: Layup; readonly work: WetWork }[] {
  return apartRoute(context.part.layups).cures.flatMap((cure) => {
    const [layup] = cure.layups;
    if (layup?.section?.of !== skin) return [];
    return [{ layup, work: wetWorkOf(context, cure)(context.build.crew.length) }];
  });
}

const sum = (values: readonly number[]): number => values.reduce((total, v) => total + v, 0);
