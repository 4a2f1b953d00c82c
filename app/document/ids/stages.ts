/** Ids of stages: `order`, `layup:skin`, `outside:paint`. */
import type { StageKind } from '../schema.ts';
import { oneOf } from './oneOf.ts';

/**
 * What stands at the head of a stage's id: its kind, or one of these, where several stages of one kind
 * belong to the same thing.
 */
type IdHead =
  | StageKind
  | 'mould-heat-setup'
  | 'gel-look'
  | 'tent-setup'
  | 'tent-takedown'
  | 'drive-back'
  | 'inserts-fit'
  | 'post-cure-setup'
  | 'post-cure-takedown';

/** Stages that a build has at most once; the id is the name. */
const ONCE = [
  'order',
  'machining',
  'mould',
  'seal',
  'bag-test',
  'test-panel',
  'release',
  'resin-warm',
  'mould-heat-setup',
  'mould-heat',
  'cutting',
  'core-fit',
  'inserts-fit',
  'rehearsal',
  'demould',
  'repair',
  'trim',
  'dry-fit',
  'edge-fill',
  'fit-check',
  'hardware',
  'hand-over',
] as const satisfies readonly IdHead[];

/** Stages that a layup has of its own, or that stand for a whole bag by its first layup. */
const OF_A_LAYUP = [
  'prepare',
  'lay-dry',
  'drop-test',
  'layup',
  'watched-vacuum',
  'gel-look',
  'cure',
  'bag-off',
  'closeout',
  'tent-setup',
  'tent-takedown',
  'release',
] as const satisfies readonly IdHead[];

/** Stages of a post-cure, and lifts of a potted rim. A second one has the number 2 behind its name. */
const OF_A_POST_CURE = [
  'post-cure-setup',
  'post-cure',
  'post-cure-takedown',
  'rim',
] as const satisfies readonly IdHead[];

const OF_A_ROUND = ['fair', 'prime'] as const satisfies readonly IdHead[];

/** Stages of one supplier's delivery. `order` alone, without a supplier, is the one order of builds of before. */
const OF_A_SUPPLIER = ['order', 'arrival'] as const satisfies readonly IdHead[];

/** The part on its way to an outside party, and back. */
const OF_A_PARTY = ['outside', 'wrap', 'drive', 'drive-back'] as const satisfies readonly IdHead[];

const TAP_TESTS = ['core', 'demould'] as const;
export type TapTest = (typeof TAP_TESTS)[number];

export type LayupStage = (typeof OF_A_LAYUP)[number];

/** One stage of a build: what it is, and what it belongs to. */
export type StageRef =
  | { readonly what: (typeof ONCE)[number] }
  | { readonly what: LayupStage; readonly layup: string }
  | { readonly what: (typeof OF_A_POST_CURE)[number]; readonly number: number }
  /** A round of fairing or priming: '1', '2-primer' where a number is used twice, 'edge'. */
  | { readonly what: (typeof OF_A_ROUND)[number]; readonly round: string }
  /** Time that passes: for the sealer, for a coat to dry, for an outside party's weekday. */
  | { readonly what: 'wait'; readonly for: string }
  | { readonly what: (typeof OF_A_PARTY)[number]; readonly party: string }
  /** The order with one supplier, and the check of what it delivered. */
  | { readonly what: (typeof OF_A_SUPPLIER)[number]; readonly supplier: string }
  /** Tapped over for what has not bonded: after the core bond, at demould. */
  | { readonly what: 'tap-test'; readonly at: TapTest }
  | { readonly what: 'sign-off'; readonly question: string };

/** The id of a stage, as pins, records and results name it: `order`, `layup:skin`, `outside:paint`. */
export function stageId(ref: StageRef): string {
  if ('layup' in ref) return `${ref.what}:${ref.layup}`;
  if ('number' in ref) return ref.number === 1 ? ref.what : `${ref.what}:${ref.number}`;
  if ('round' in ref) return `${ref.what}:${ref.round}`;
  if ('for' in ref) return `${ref.what}:${ref.for}`;
  if ('party' in ref) return `${ref.what}:${ref.party}`;
  if ('at' in ref) return `${ref.what}:${ref.at}`;
  if ('supplier' in ref) return `${ref.what}:${ref.supplier}`;
  return 'question' in ref ? `${ref.what}:${ref.question}` : ref.what;
}

/** The id of a stage of a layup, or of the bag that it is the first layup of. */
export const layupStageId = (what: LayupStage, layup: string): string => stageId({ what, layup });

export const outsideStageId = (party: string): string => stageId({ what: 'outside', party });

/** Waits of the build itself, whose ids an outside party of the same name may not share. */
const OWN_WAIT =
  /^(seal|release|edge|edge-fill|inserts|rim-\d+|repair|surface-.*|finish(-.*)?|(fair|prime)-.*|(handle|tape|wrap)-.*)$/;

/** Waits of the edge before it is closed: its filler, the lifts of a potted rim. */
export const isEdgeWait = (what: string): boolean => /^(edge-fill|rim-\d+)$/.test(what);

/** What the wait of a surface that was abraded and washed is for, by the layup that goes on it. */
export const surfaceWait = (layup: string): string => `surface-${layup}`;

/** The layup that waits for a washed surface to dry; null for another wait. */
export const layupOfSurfaceWait = (what: string): string | null =>
  /^surface-(.*)$/.exec(what)?.[1] ?? null;

/** Hours after a paint job, before the part is handled, taped or wrapped. */
export const PAINT_WAITS = ['handle', 'tape', 'wrap'] as const;
export type PaintWait = (typeof PAINT_WAITS)[number];

/** What such a wait is for, by the id of the party. */
export const paintWait = (what: PaintWait, party: string): string => `${what}-${party}`;

/** What the wait for an outside party is for: its id, or `outside:seal` where a wait of the build has that. */
export const waitForParty = (party: string): string =>
  OWN_WAIT.test(party) ? `outside:${party}` : party;

/** The stage that an id names; null for an id that no build gives. */
export function readStageId(text: string): StageRef | null {
  const cut = text.indexOf(':');
  if (cut < 0) {
    const ofPostCure = oneOf(OF_A_POST_CURE, text);
    if (ofPostCure) return { what: ofPostCure, number: 1 };
    const once = oneOf(ONCE, text);
    return once && { what: once };
  }
  const [head, of] = [text.slice(0, cut), text.slice(cut + 1)];
  if (of === '') return null;
  const ofLayup = oneOf(OF_A_LAYUP, head);
  if (ofLayup) return { what: ofLayup, layup: of };
  const ofPostCure = oneOf(OF_A_POST_CURE, head);
  // The first has no number: `post-cure:1` is no id that any build gives.
  if (ofPostCure)
    return /^([2-9]|[1-9]\d+)$/.test(of) ? { what: ofPostCure, number: Number(of) } : null;
  const ofRound = oneOf(OF_A_ROUND, head);
  if (ofRound) return { what: ofRound, round: of };
  const ofSupplier = oneOf(OF_A_SUPPLIER, head);
  if (ofSupplier) return { what: ofSupplier, supplier: of };
  const ofParty = oneOf(OF_A_PARTY, head);
  if (ofParty) return { what: ofParty, party: of };
  if (head === 'tap-test') {
    const at = oneOf(TAP_TESTS, of);
    return at && { what: head, at };
  }
  if (head === 'wait') return { what: head, for: of };
  return head === 'sign-off' ? { what: head, question: of } : null;
}
