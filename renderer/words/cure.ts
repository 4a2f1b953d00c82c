/** A cure in the words of the bench: its moments, its post-cure, the air on its surface. */
import { joinedSteps, type PostCurePlan } from '../../app/cure/tg.ts';
import { riseWords } from '../../app/messages/postCure.ts';
import { tgWords } from '../../app/messages/tg.ts';
import { noPostCureWays, noPostCureWords } from '../../app/messages/tooSoft.ts';
import type { CureGlass } from '../../app/plan/cureGlass.ts';
import type { Milestone } from '../../app/document/schema.ts';
import { dayAndTime, elapsed } from '../../app/messages/words.ts';
import type { CureStory, Moment } from '../../app/plan/cureStory.ts';
import type { Face, SurfaceAir, SurfaceLine } from '../../app/plan/surfaces.ts';
import type { SurfaceNeed } from '../../app/cure/surface.ts';
import { plain } from '../../app/units/words.ts';

export const MOMENT_WORDS: Readonly<Record<Milestone, string>> = {
  open: 'Open until',
  gel: 'Gel from',
  tackFree: 'Tack-free',
  debag: 'Bag off from',
  demould: 'Demould from',
  sand: 'Sand from',
  bondUntil: 'Bonds as one resin until',
  full: 'Full cure',
};

/** What is written where a moment is missing, or after it. */
export function momentNote(
  { milestone, at }: Moment,
  { gelLatest, glass, model }: CureStory,
  say: (minute: number) => string,
  roomC: number,
): string {
  if (milestone === 'bondUntil') return 'abrade after';
  if (milestone === 'gel' && at !== null) {
    return gelLatest === null ? 'latest not known in this cold' : `by ${say(gelLatest)}`;
  }
  if (at !== null) return '';
  return milestone === 'full' && model.kinetics
    ? `stops at a Tg that is ${tgWords(glass.restC, roomC)}`
    : 'never in this room';
}

const STEP_WORDS = { ramp: 'up', hold: 'hold', cool: 'down, under support' } as const;

/**
 * The post-cure in the words of the bench, step by step.
 * @param glass of the cure; its bake says whether anybody could dry without an oven
 * @param room by day, C, and how long after gel heat may begin, h
 */
export function postCureWords(
  plan: PostCurePlan,
  { postCurePlace, bakeC, beginsTgC }: Pick<CureGlass, 'postCurePlace' | 'bakeC' | 'beginsTgC'>,
  { roomC, afterGelHours }: { readonly roomC: number; readonly afterGelHours: number },
): string[] {
  if (!plan.possible) {
    const { reason: limit, wantedC, limitC } = plan;
    const dry = bakeC === null ? '' : ', or ask for an air-dry finish';
    return [noPostCureWords({ limit, wantedC, limitC }), `${noPostCureWays(limit)}${dry}.`];
  }
  const steps = joinedSteps(plan.steps).map(({ kind, fromC, toC, minutes }) =>
    kind === 'hold'
      ? `${plain(toC, 0)} °C, hold ${elapsed(minutes)}`
      : `${plain(fromC, 0)} to ${plain(toC, 0)} °C in ${elapsed(minutes)}, ${STEP_WORDS[kind]}`,
  );
  const where =
    postCurePlace === 'mould' ? 'On the mould, its bag off' : 'On supports, after the last cure';
  const rise = postCurePlace === null ? [] : [riseWords({ beginsTgC, afterGelHours }, roomC)];
  return [...steps, `${where}, before fairing.`, ...rise];
}

/** Air on the surface as it stands at its coldest. */
export function airWords({ dewPointC, surfaceC, nearDew, blush }: SurfaceAir): string {
  const why = blush.map((one) => (one === 'cold' ? 'cold' : 'damp air')).join(' and ');
  const dew = `Dew point ${plain(dewPointC)} °C, surface ${plain(surfaceC)} °C at its coldest`;
  const near = nearDew ? ': near enough to get wet' : ': stays dry';
  const said = why ? ` Amine blush likely (${why}): water and pad before sanding.` : '';
  return `${dew}${near}.${said}`;
}

export const FACE_WORDS: Readonly<Record<Face, string>> = {
  'peel-ply-on': 'Peel ply left on',
  'peel-ply-stripped': 'Peel ply stripped',
  bare: 'Bare, no peel ply',
  'release-coated': 'Release-coated peel ply',
};

export const NEED_WORDS: Readonly<Record<SurfaceNeed, string>> = {
  none: 'nothing',
  strip: 'strip the peel ply',
  'strip-and-scuff': 'strip, scuff lightly, vacuum, wipe',
  scuff: 'scuff lightly, vacuum, wipe',
  'wash-and-abrade': 'water and pad, dry, abrade P80 to P120, vacuum, wipe',
};

/** How long a face waits. */
export function keepsWords({ face, keepsUntil }: SurfaceLine, zone: string): string {
  if (keepsUntil === null) return 'not at all';
  const rider = face === 'peel-ply-stripped' ? ', when stripped at bag-off' : '';
  return `until ${dayAndTime(keepsUntil, zone)}${rider}`;
}
