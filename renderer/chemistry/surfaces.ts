/** The face that a cure leaves, by what lies on it: how long it keeps, and what it needs then. */
import { practiceOf } from '../../app/document/library.ts';
import {
  surfaceState,
  type SurfaceCase,
  type SurfaceNeed,
  type SurfaceState,
} from '../../app/cure/surface.ts';
import { dayAndTime } from '../../app/messages/words.ts';
import type { PlanOutcome } from '../../app/plan/outcome.ts';
import type { Minute } from '../../app/time/instant.ts';
import { isoToMinute } from '../../app/time/zone.ts';
import type { CureStory } from './cureStory.ts';

export interface SurfaceLine {
  readonly name: string;
  /** How long it waits. */
  readonly keeps: string;
  /** What it needs within that time, and after it. */
  readonly within: string;
  readonly after: string;
  /** What it needs when the next layup goes on as planned; empty when none follows. */
  readonly planned: string;
}

export interface SurfaceTable {
  /** First mix of what goes on next; null when nothing does. */
  readonly next: Minute | null;
  readonly lines: readonly SurfaceLine[];
}

const NEEDS: Readonly<Record<SurfaceNeed, string>> = {
  none: 'nothing',
  strip: 'strip the peel ply',
  'strip-and-scuff': 'strip, scuff lightly, vacuum, wipe',
  scuff: 'scuff lightly, vacuum, wipe',
  'wash-and-abrade': 'water and pad, dry, abrade P80 to P120, vacuum, wipe',
};

type Cover = Pick<SurfaceCase, 'cover' | 'releaseCoated' | 'strippedAt'>;

export function surfaceTable(outcome: PlanOutcome, story: CureStory): SurfaceTable {
  const { detail, result } = outcome;
  const practice = practiceOf(detail.library);
  const zone = result.build.zone;
  const next =
    result.cures
      .flatMap(({ id, firstMix }) => {
        const at = firstMix === null ? null : isoToMinute(firstMix);
        return at !== null && id !== story.id && at >= story.sealed ? [at] : [];
      })
      .sort((a, b) => a - b)[0] ?? null;
  const bagOff = result.stages.find(({ kind, cure }) => kind === 'bag-off' && cure === story.id);
  const stripped =
    (bagOff?.end ? isoToMinute(bagOff.end) : null) ??
    story.moments.find(({ key }) => key === 'debag')?.at ??
    story.sealed;
  const at = (cover: Cover, bondAt: Minute): SurfaceState =>
    surfaceState(
      { ...cover, structural: detail.build.part.structural, curedFrom: story.sealed, bondAt },
      story.clock,
      practice,
    );
  const never = Number.MAX_SAFE_INTEGER;
  const line = (name: string, cover: Cover, rider = ''): SurfaceLine => {
    const soon = at(cover, stripped);
    const until = soon.keepsUntil;
    return {
      name,
      keeps: until === null ? 'not at all' : `until ${dayAndTime(until, zone)}${rider}`,
      within: NEEDS[soon.need],
      after: NEEDS[at(cover, until === null ? stripped : never).need],
      planned: next === null ? '' : NEEDS[at(cover, next).need],
    };
  };
  const ply = { releaseCoated: false, strippedAt: null };
  return {
    next,
    lines: [
      line('Peel ply left on', { ...ply, cover: 'peel-ply-on' }),
      line(
        'Peel ply stripped',
        { ...ply, cover: 'peel-ply-stripped', strippedAt: stripped },
        ', when stripped at bag-off',
      ),
      line('Bare, no peel ply', { ...ply, cover: 'bare' }),
      line('Release-coated peel ply', {
        cover: 'peel-ply-stripped',
        releaseCoated: true,
        strippedAt: null,
      }),
    ],
  };
}
