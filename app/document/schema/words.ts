/** Words that build, library and result share. */
import { z } from 'zod';

/** What a stage is. Trade words; the order is the order in which a build meets them. */
export const STAGE_KINDS = [
  'sign-off',
  'order',
  'arrival',
  'machining',
  'mould',
  'seal',
  'bag-test',
  'test-panel',
  'release',
  'resin-warm',
  'mould-heat',
  'cutting',
  'core-fit',
  'inserts',
  'rehearsal',
  'prepare',
  'lay-dry',
  'drop-test',
  'layup',
  'watched-vacuum',
  'cure',
  'bag-off',
  'tap-test',
  'heat-setup',
  'post-cure',
  'heat-takedown',
  'demould',
  'repair',
  'trim',
  'dry-fit',
  'closeout',
  'edge-fill',
  'rim',
  'fit-check',
  'fair',
  'prime',
  'wait',
  'wrap',
  'drive',
  'outside',
  'hardware',
  'hand-over',
  'own',
] as const;
export const stageKind = z.enum(STAGE_KINDS);
export type StageKind = z.infer<typeof stageKind>;

export const JOINT_STATES = ['apart', 'tack', 'one-bag'] as const;
export const jointState = z.enum(JOINT_STATES);
export type JointState = z.infer<typeof jointState>;

export const FINISHES = ['clear', 'painted', 'hidden'] as const;
export const finish = z.enum(FINISHES);
export type Finish = z.infer<typeof finish>;

/** How cloth gets its resin: by hand and left open, wet under a bag, or dry under a bag and then filled. */
export const PROCESSES = ['hand', 'bagged', 'infused'] as const;
export const process = z.enum(PROCESSES);
export type Process = z.infer<typeof process>;

/**
 * Room air: two different ones do not share a room, release and spray only where the shop allows it; an hour to
 * clean between.
 */
export const AIR_KINDS = ['dust', 'wet', 'release', 'spray'] as const;
export const airKind = z.enum(AIR_KINDS);
export type AirKind = z.infer<typeof airKind>;

export const MILESTONES = [
  'open',
  'gel',
  'tackFree',
  'debag',
  'demould',
  'sand',
  'bondUntil',
  'full',
] as const;
export type Milestone = (typeof MILESTONES)[number];

export const HAZARDS = [
  'skin-sensitiser',
  'corrosive',
  'peroxide',
  'styrene',
  'solvent',
  'dust',
  'exotherm',
  'lifting',
  'isocyanate',
] as const;
export const hazard = z.enum(HAZARDS);
export type Hazard = z.infer<typeof hazard>;
