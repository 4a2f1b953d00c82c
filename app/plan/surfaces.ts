/** The face that a cure leaves, by what lies on it: how long it keeps, and what it needs then. */
import { surfaceAir, type SurfaceAir as Air } from '../cure/air.ts';
import { surfaceState, type SurfaceCase, type SurfaceNeed } from '../cure/surface.ts';
import { practiceOf } from '../document/library.ts';
import type { Minute } from '../time/instant.ts';
import { isoToMinute } from '../time/zone.ts';
import type { CureStory } from './cureStory.ts';
import type { PlanDetail, PlanOutcome } from './outcome.ts';

/** What may lie on the face, in the order of the table. */
const FACES = ['peel-ply-on', 'peel-ply-stripped', 'bare', 'release-coated'] as const;
export type Face = (typeof FACES)[number];

export interface SurfaceLine {
  readonly face: Face;
  /** How long it waits; null: not at all. */
  readonly keepsUntil: Minute | null;
  /** What it needs within that time, and after it. */
  readonly within: SurfaceNeed;
  readonly after: SurfaceNeed;
  /** What it needs when the next layup goes on as planned; null when none follows. */
  readonly planned: SurfaceNeed | null;
}

export interface SurfaceTable {
  /** First mix of what goes on next; null when nothing does. */
  readonly next: Minute | null;
  readonly lines: readonly SurfaceLine[];
}

type Cover = Pick<SurfaceCase, 'cover' | 'releaseCoated' | 'strippedAt'>;

/**
 * How long the face of one cure keeps by what may lie on it, and what it needs within that time and after.
 * A peel ply is taken to be stripped at bag-off as planned.
 * @throws MissingRow when the library lacks a practice row
 */
export function surfaceTable(outcome: PlanOutcome, story: CureStory): SurfaceTable {
  const { build, library } = outcome.detail;
  const practice = practiceOf(library);
  const next = nextMix(outcome, story);
  const stripped = strippedAt(outcome, story);
  const at = (cover: Cover, bondAt: Minute) =>
    surfaceState(
      { ...cover, structural: build.part.structural, curedFrom: story.sealed, bondAt },
      story.early,
      practice,
    );
  const lines = FACES.map((face): SurfaceLine => {
    const cover = coverOf(face, stripped);
    const { need: within, keepsUntil } = at(cover, stripped);
    return {
      face,
      keepsUntil,
      within,
      after: at(cover, keepsUntil === null ? stripped : Number.MAX_SAFE_INTEGER).need,
      planned: next === null ? null : at(cover, next).need,
    };
  });
  return { next, lines };
}

const coverOf = (face: Face, stripped: Minute): Cover => ({
  cover: face === 'release-coated' ? 'peel-ply-stripped' : face,
  releaseCoated: face === 'release-coated',
  strippedAt: face === 'peel-ply-stripped' ? stripped : null,
});

/** First mix of the cure that follows on this one. */
function nextMix({ result }: PlanOutcome, story: CureStory): Minute | null {
  const later = result.cures.flatMap(({ id, firstMix }) => {
    const at = firstMix === null ? null : isoToMinute(firstMix);
    return at !== null && id !== story.id && at >= story.sealed ? [at] : [];
  });
  return later.length === 0 ? null : Math.min(...later);
}

function strippedAt({ result, detail }: PlanOutcome, story: CureStory): Minute {
  const bagOff = result.stages.find(({ kind, cure }) => kind === 'bag-off' && cure === story.id);
  const planned = bagOff?.end ? isoToMinute(bagOff.end) : null;
  return planned ?? detail.cures[story.id]?.times.debagFrom ?? story.sealed;
}

export interface SurfaceAir extends Air {
  /** The surface at its coldest, C. */
  readonly surfaceC: number;
}

/**
 * Dew and blush on a surface as cold as the room gets, in the room's air by day.
 * @throws MissingRow when the library lacks a practice row
 */
export function surfaceAirOf({ build, library }: PlanDetail): SurfaceAir {
  const { day, night } = build.room.temperatureC;
  const surfaceC = Math.min(day, night);
  const air = { temperatureC: day, humidityPct: build.room.humidityPct };
  return { ...surfaceAir(air, surfaceC, practiceOf(library)), surfaceC };
}
