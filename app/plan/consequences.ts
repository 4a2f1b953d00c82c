/** What the choices at the bench cost later, from the consequence table. */
import { practiceIf, practiceOf, releaseOf } from '../document/library.ts';
import {
  type ConsequenceRow,
  type Finish,
  type FullBuild,
  type JointState,
  type Library,
  type PartZone,
} from '../document/schema.ts';
import { finishOf, lowerFinish } from '../document/finish.ts';
import { isInfused, type PartResult } from '../part/types.ts';
import type { Route, RouteCure } from '../route/types.ts';

/** One line of the price: an event, how sure it is, and what it costs on average. */
export interface ConsequenceLine {
  readonly event: ConsequenceRow['event'];
  readonly name: string;
  /** 0 to 1; minutes and mass below are already multiplied by it. */
  readonly chance: number;
  readonly minutes: number;
  readonly fillerKg: number;
  /** Hours at 20 C that nothing can be done on the part; not weighed by the chance. */
  readonly waitHoursAt20C: number;
  readonly bestFinish: Finish;
}

export interface Consequences {
  readonly lines: readonly ConsequenceLine[];
  /** Person-minutes that are sure to come, worked at the first round of fairing. */
  readonly sureMinutes: number;
  /** Person-minutes to be expected on top, from what happens only sometimes. */
  readonly expectedMinutes: number;
  /** Hours at 20 C that are sure to be waited, added to the drying of the first round of fairing. */
  readonly sureWaitHoursAt20C: number;
  /** Filler to be expected, kg. */
  readonly fillerKg: number;
  /** The best finish that may still be promised. */
  readonly finish: Finish;
}

export interface ConsequenceInput {
  readonly build: FullBuild;
  readonly library: Library;
  readonly part: Pick<PartResult, 'areaM2' | 'edgeM' | 'layups'>;
  readonly route: Route;
}

const EVENT_OF_JOINT: Readonly<Record<JointState, ConsequenceRow['event'] | null>> = {
  apart: null,
  tack: 'joint-tack',
  'one-bag': 'joint-one-bag',
};

/** How often an event strikes this route, and over how much of the part. */
interface Hit {
  readonly event: ConsequenceRow['event'];
  /** Joints: whether the bag holds the outer skin. */
  readonly onFace: boolean;
  readonly chance: number;
  readonly areaM2: number;
  readonly edgeM: number;
  /** The zones it strikes. */
  readonly zones: readonly PartZone[];
}

/**
 * Everything that the route, the release and the shape of the part bring with them later: work, waiting and
 * filler, line by line, and the best finish left.
 * @throws MissingRow when the library lacks the release or a practice row
 */
export function consequencesOf(input: ConsequenceInput): Consequences {
  const lines = hitsOf(input).flatMap((hit) => lineOf(input, hit) ?? []);
  const sum = (value: (line: ConsequenceLine) => number) =>
    lines.reduce((total, line) => total + value(line), 0);
  const sure = lines.filter((line) => line.chance === 1);
  return {
    lines,
    sureMinutes: sure.reduce((total, line) => total + line.minutes, 0),
    sureWaitHoursAt20C: sure.reduce((total, line) => total + line.waitHoursAt20C, 0),
    expectedMinutes: sum((line) => (line.chance === 1 ? 0 : line.minutes)),
    fillerKg: sum((line) => line.fillerKg),
    finish: sure.reduce<Finish>((worst, line) => lowerFinish(worst, line.bestFinish), 'clear'),
  };
}

function hitsOf(input: ConsequenceInput): Hit[] {
  return [
    ...jointHits(input),
    ...releaseHits(input),
    ...coreHits(input),
    ...dullHits(input),
    ...localHits(input),
    ...sectionHits(input),
  ];
}

function jointHits({ build, library, route, part }: ConsequenceInput): Hit[] {
  return route.cures.flatMap((cure) => {
    const onFace = cure.layups.some((layup) => layup.id === 'skin');
    return cure.joints.flatMap((state, i) => {
      const event = eventOf(state, library, isInfused(cure.layups));
      if (!event || isOneLaminate(cure, i)) return [];
      const { areaM2, edgeM } = part;
      return [{ event, onFace, chance: 1, areaM2, edgeM, zones: build.part.zones }];
    });
  });
}

/** Laid dry and filled in one shot nothing slides; a build without that row counts as one bag of wet cloth. */
function eventOf(state: JointState, { consequences }: Library, infused: boolean) {
  const event = EVENT_OF_JOINT[state];
  const shot = infused && event === 'joint-one-bag';
  return shot && consequences.some((row) => row.event === 'joint-one-shot')
    ? 'joint-one-shot'
    : event;
}

/** Local plies that go down wet with the outer skin are plies of it: no merge of two cures. */
const isOneLaminate = ({ layups, joints }: RouteCure, i: number): boolean =>
  joints[i] === 'one-bag' && layups[i + 1]!.partOf === layups[i]!.id;

function releaseHits({ build, library, part }: ConsequenceInput): Hit[] {
  const release = releaseOf(library, build.mould.release);
  const { zones } = build.part;
  const whole = { onFace: true, areaM2: part.areaM2, edgeM: part.edgeM, zones };
  const hard: Hit = { ...whole, event: 'hard-demould', chance: release.hardDemouldChance };
  const wax: Hit = { ...whole, event: 'wax-release', chance: 1 };
  return [...(hard.chance > 0 ? [hard] : []), ...(release.type === 'wax' ? [wax] : [])];
}

/**
 * Core bedded upright while the outer skin is wet slides and shows; on a cured skin it only slides. Under the
 * vacuum of an infusion it stays where it was laid dry.
 */
function coreHits({ build, route }: ConsequenceInput): Hit[] {
  const upright = build.part.zones.filter((zone) => zone.core && zone.vertical);
  if (upright.length === 0) return [];
  const bag = route.cures.find((cure) => cure.layups.some((layup) => layup.hasCore));
  if (bag && isInfused(bag.layups)) return [];
  const onFace = bag?.layups.some((layup) => layup.id === 'skin') ?? false;
  const areaM2 = upright.reduce((sum, zone) => sum + zone.areaM2, 0);
  const edgeM = upright.reduce((sum, zone) => sum + zone.edgeM, 0);
  return [{ event: 'vertical-core', onFace, chance: 1, areaM2, edgeM, zones: upright }];
}

/** Spots that sound dull under the tap test after the core bond: drilled and filled before the next layup. */
function dullHits({ build, library, part }: ConsequenceInput): Hit[] {
  const chance = practiceIf(library, 'dull-core-chance') ?? 0;
  const cored = build.part.zones.filter((zone) => zone.core);
  const bonded = part.layups.some((layup) => layup.hasCore);
  if (chance === 0 || !bonded) return [];
  const areaM2 = cored.reduce((sum, zone) => sum + zone.areaM2, 0);
  return [{ event: 'dull-core', onFace: false, chance, areaM2, edgeM: 0, zones: cored }];
}

function localHits({ build, part }: ConsequenceInput): Hit[] {
  const late = part.layups.find((layup) => layup.id === 'local-after');
  if (!late) return [];
  const { areaM2, edgeM } = late;
  const zones = build.part.zones.filter((zone) => zone.local.some((p) => p.place === 'after'));
  return [{ event: 'local-after', onFace: false, chance: 1, areaM2, edgeM, zones }];
}

/** Overlaps between sections of a skin leave a slight step and a line of resin where the face is seen. */
function sectionHits({ build, part }: ConsequenceInput): Hit[] {
  return part.layups.flatMap(({ section }): Hit[] => {
    if (!section || section.number === 1) return [];
    const { bandM2, jointM, of } = section;
    const zones = build.part.zones.filter((zone) =>
      of === 'skin' ? zone.outer.length > 0 : zone.inner.length > 0,
    );
    const onFace = of === 'skin';
    return [{ event: 'section-joint', onFace, chance: 1, areaM2: bandM2, edgeM: jointM, zones }];
  });
}

/** A hidden face is not faired: only the hours of the event itself are left of it. */
function lineOf({ build, library }: ConsequenceInput, hit: Hit): ConsequenceLine | null {
  const row = library.consequences.find((candidate) => candidate.event === hit.event);
  if (!row) return null;
  const counts = row.touches === 'any' || hit.onFace;
  const faired = counts ? seenShare(build, hit.zones) : 0;
  // A joint away from the face costs nothing later unless it carries load; an upright core has to be
  // held either way.
  const carries = build.part.structural && isJoint(hit.event);
  const own = counts || carries || hit.event === 'vertical-core' ? row.extraHours * 60 : 0;
  const times = carries ? practiceOf(library)('structural-merge-factor') : 1;
  const fairing = row.fairMinutesPerM2 * hit.areaM2 + row.fairMinutesPerEdgeM * hit.edgeM;
  const minutes = hit.chance * (faired * fairing + own * times);
  const fillerKg = hit.chance * faired * row.fillerKgM2 * hit.areaM2;
  if (!counts && minutes === 0) return null;
  return {
    event: hit.event,
    name: row.name,
    chance: hit.chance,
    minutes,
    fillerKg,
    waitHoursAt20C: counts ? row.waitHoursAt20C : 0,
    bestFinish: counts ? row.bestFinish : 'clear',
  };
}

const isJoint = (event: ConsequenceRow['event']): boolean =>
  event === 'joint-tack' || event === 'joint-one-bag' || event === 'joint-one-shot';

/** Share of the zones' area that is seen, 0 to 1. */
function seenShare(build: FullBuild, zones: readonly PartZone[]): number {
  const areaOf = (list: readonly PartZone[]) => list.reduce((sum, zone) => sum + zone.areaM2, 0);
  const seen = zones.filter((zone) => finishOf(build, zone) !== 'hidden');
  return zones.length > 0 ? areaOf(seen) / areaOf(zones) : 0;
}

/** What filling the same hollow costs in one heavy go and in several thin ones. */
export interface FillChoice {
  readonly extraMinutes: number;
  readonly extraWaitHoursAt20C: number;
  readonly extraKg: number;
  /** The way that takes less work, or less waiting where the work is the same. */
  readonly better: 'one-heavy' | 'several-thin';
}

/**
 * Weighs several thin fills against one heavy one.
 * @param areaM2 area to be filled, m2
 * @returns null where the table of consequences has no row for many thin fills
 */
export function fillChoice(library: Library, areaM2: number): FillChoice | null {
  const row = library.consequences.find((candidate) => candidate.event === 'many-thin-fills');
  if (!row) return null;
  const extraMinutes = row.fairMinutesPerM2 * areaM2 + row.extraHours * 60;
  const extraWaitHoursAt20C = row.waitHoursAt20C;
  const worse = extraMinutes + extraWaitHoursAt20C * 60 > 0;
  return {
    extraMinutes,
    extraWaitHoursAt20C,
    extraKg: row.fillerKgM2 * areaM2,
    better: worse ? 'one-heavy' : 'several-thin',
  };
}
