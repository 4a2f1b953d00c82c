/** What is seen of a part: the finish of each zone, and the most demanding one. */
import { FINISHES, type Finish, type FullBuild, type PartZone } from './schema.ts';

type Finished = Pick<FullBuild, 'part'>;

/** A zone that says nothing takes the finish of the part. */
export const finishOf = ({ part }: Finished, zone: Pick<PartZone, 'finish'>): Finish =>
  zone.finish ?? part.finish;

/** Zones with one of these finishes. */
export const zonesFinished = (build: Finished, finishes: readonly Finish[]): PartZone[] =>
  build.part.zones.filter((zone) => finishes.includes(finishOf(build, zone)));

/**
 * The finish that the whole part has to be built for, since its zones share one mould and one bag: the
 * most demanding of its zones, clear before painted before hidden.
 */
export function wantedFinish(build: Finished): Finish {
  const own = build.part.zones.map((zone) => finishOf(build, zone));
  return FINISHES.find((finish) => own.includes(finish)) ?? build.part.finish;
}

/** The less demanding of two finishes; clear demands most, hidden least. */
export const lowerFinish = (a: Finish, b: Finish): Finish =>
  FINISHES[Math.max(FINISHES.indexOf(a), FINISHES.indexOf(b))]!;

/** True when a route that can give `best` can give `wanted`. */
export const finishReaches = (best: Finish, wanted: Finish): boolean =>
  FINISHES.indexOf(best) <= FINISHES.indexOf(wanted);
