/**
 * The only place where the ids of stages, modes, resources, levers and routes are made and read.
 * Everything else passes the typed identity. The strings stand in documents (pins, records, links,
 * levers), in results and on printed plans, so that they must stay the same to the byte.
 */
import type { HeatAlone, JointState, StageKind } from './schema.ts';

// ---------------------------------------------------------------------------------------------
// Stages

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
  'rehearsal',
  'demould',
  'repair',
  'trim',
  'dry-fit',
  'fit-check',
  'hardware',
  'hand-over',
] as const satisfies readonly IdHead[];

/** Stages that a layup has of its own, or that stand for a whole bag by its first layup. */
const OF_A_LAYUP = [
  'prepare',
  'layup',
  'watched-vacuum',
  'gel-look',
  'cure',
  'bag-off',
  'closeout',
  'tent-setup',
  'tent-takedown',
] as const satisfies readonly IdHead[];

/** Stages of a post-cure. A second one has the number 2 behind its name. */
const OF_A_POST_CURE = [
  'post-cure-setup',
  'post-cure',
  'post-cure-takedown',
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
const OWN_WAIT = /^(seal|edge|repair|finish(-.*)?|(handle|tape|wrap)-.*)$/;

/** Hours after a paint job, before the part is handled, taped or wrapped. */
export const PAINT_WAITS = ['handle', 'tape', 'wrap'] as const;
export type PaintWait = (typeof PAINT_WAITS)[number];

/** What such a wait is for, by the id of the party. */
export const paintWait = (what: PaintWait, party: string): string => `${what}-${party}`;

/** What the wait for an outside party is for: its id, or `outside:seal` where a wait of the build has that. */
export const waitForParty = (party: string): string =>
  OWN_WAIT.test(party) ? `outside:${party}` : party;

const oneOf = <T extends string>(names: readonly T[], name: string): T | null =>
  names.find((one) => one === name) ?? null;

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

// ---------------------------------------------------------------------------------------------
// Modes

/** What is done to a cured surface before something is bonded to it. */
export type SurfaceWork = 'scuff' | 'abrade';

/** One way of doing a stage. */
export type ModeRef =
  /** Runs by itself. */
  | { readonly by: 'itself' }
  /** An outside party works. */
  | { readonly by: 'party' }
  /** One of them, then the other. */
  | { readonly by: 'handover'; readonly people: readonly string[] }
  | {
      readonly by: 'team';
      readonly people: readonly string[];
      readonly surface: SurfaceWork | null;
      /** Some of the team stay beyond their hours. */
      readonly stays: boolean;
    };

/** The id of a mode: `runs`, `works`, `handover:ana+ben`, `ana+ben`, `abrade:ana:stays`. */
export function modeId(ref: ModeRef): string {
  switch (ref.by) {
    case 'itself':
      return 'runs';
    case 'party':
      return 'works';
    case 'handover':
      return `handover:${ref.people.join('+')}`;
    case 'team': {
      const work = ref.surface === null ? '' : `${ref.surface}:`;
      return `${work}${ref.people.join('+')}${ref.stays ? ':stays' : ''}`;
    }
  }
}

// ---------------------------------------------------------------------------------------------
// Resources

export const GEAR = ['mould', 'pump', 'tent', 'bench'] as const;
export type Gear = (typeof GEAR)[number];

/** What a stage takes: a person of the crew, or gear of the shop. */
export type ResourceRef =
  { readonly kind: 'person'; readonly person: string } | { readonly kind: Gear };

const PERSON = 'person:';

/** The id of a resource inside a scheduling problem; a person called `mould` is no mould. */
export const resourceId = (ref: ResourceRef): string =>
  ref.kind === 'person' ? PERSON + ref.person : ref.kind;

/** The resource that an id names; null for what is neither a person nor gear, as `air` and `time`. */
export function readResourceId(text: string): ResourceRef | null {
  if (text.startsWith(PERSON)) return { kind: 'person', person: text.slice(PERSON.length) };
  const kind = oneOf(GEAR, text);
  return kind && { kind };
}

/** What the published result calls a resource: the person's own id, or the name of the gear. */
export function publishedResource(text: string): string {
  const ref = readResourceId(text);
  return ref?.kind === 'person' ? ref.person : text;
}

// ---------------------------------------------------------------------------------------------
// Levers

/** Levers that a build has at most once; the id is the name. */
const SINGLE_LEVERS = [
  'warm-nights',
  'warmer-room',
  'heated-tent',
  'saturday',
  'weekend',
  'longer-day',
  'another-hand',
  'local-between',
] as const;

type SingleLever = (typeof SINGLE_LEVERS)[number];

export type LeverRef =
  | { readonly lever: SingleLever }
  /** Another hardener for the whole build. */
  | { readonly lever: 'hardener'; readonly hardener: string }
  /** Tent or oven hired for a post-cure, as hot as that. */
  | { readonly lever: 'post-cure-heat'; readonly temperatureC: number }
  /** A looser rule of the shop for heat that runs while nobody is there. */
  | { readonly lever: 'heat-alone'; readonly rule: HeatAlone }
  /** A finish that dries without an oven at an outside party. */
  | { readonly lever: 'air-dry'; readonly party: string }
  | { readonly lever: 'release'; readonly release: string }
  /** The edge closed after a visit to an outside party; null: before the first. */
  | { readonly lever: 'closeout'; readonly after: string | null }
  | { readonly lever: 'layup-hardener'; readonly layup: string; readonly hardener: string }
  | { readonly lever: 'layup-tent'; readonly layup: string; readonly temperatureC: number }
  | { readonly lever: 'route'; readonly route: string }
  /** Another day, YYYY-MM-DD, for a job of an outside party. */
  | { readonly lever: 'slot'; readonly party: string; readonly day: string }
  | { readonly lever: 'stiffen'; readonly zone: string; readonly plies: number };

export type LeverKind = LeverRef['lever'];

/** The id of a lever, as documents keep it: `weekend`, `hardener-slow`, `tent:core:40`. */
export function leverId(ref: LeverRef): string {
  switch (ref.lever) {
    case 'hardener':
      return `hardener-${ref.hardener}`;
    case 'post-cure-heat':
      return `post-cure-heat:${ref.temperatureC}`;
    case 'heat-alone':
      return `heat-alone:${ref.rule}`;
    case 'air-dry':
      return `air-dry:${ref.party}`;
    case 'release':
      return `release-${ref.release}`;
    case 'closeout':
      return ref.after === null ? 'closeout-first' : `closeout-after-${ref.after}`;
    case 'layup-hardener':
      return `hardener:${ref.layup}:${ref.hardener}`;
    case 'layup-tent':
      return `tent:${ref.layup}:${ref.temperatureC}`;
    case 'route':
      return `route:${ref.route}`;
    case 'slot':
      return `slot:${ref.party}:${ref.day}`;
    case 'stiffen':
      return `stiffen:${ref.zone}:${ref.plies}`;
    default: {
      // A lever with arguments that has no case of its own is no SingleLever, and does not compile.
      const single: SingleLever = ref.lever;
      return single;
    }
  }
}

type LeverForm = readonly [form: RegExp, read: (...parts: string[]) => LeverRef];

/** Where two parts stand, the one that the program names itself holds no colon. */
const LEVER_FORMS: readonly LeverForm[] = [
  [/^hardener-(.+)$/, (hardener) => ({ lever: 'hardener', hardener: hardener! })],
  [/^release-(.+)$/, (release) => ({ lever: 'release', release: release! })],
  [
    /^post-cure-heat:(-?[\d.]+)$/,
    (degrees) => ({ lever: 'post-cure-heat', temperatureC: Number(degrees) }),
  ],
  [
    /^heat-alone:(never|nights|weekends)$/,
    (rule) => ({ lever: 'heat-alone', rule: rule as HeatAlone }),
  ],
  [/^air-dry:(.+)$/, (party) => ({ lever: 'air-dry', party: party! })],
  [/^closeout-first$/, () => ({ lever: 'closeout', after: null })],
  [/^closeout-after-(.+)$/, (after) => ({ lever: 'closeout', after: after! })],
  [
    /^hardener:([^:]+):(.+)$/,
    (layup, hardener) => ({ lever: 'layup-hardener', layup: layup!, hardener: hardener! }),
  ],
  [
    /^tent:([^:]+):(-?[\d.]+)$/,
    (layup, degrees) => ({ lever: 'layup-tent', layup: layup!, temperatureC: Number(degrees) }),
  ],
  [/^route:(.+)$/, (route) => ({ lever: 'route', route: route! })],
  [/^slot:(.+):(\d{4}-\d\d-\d\d)$/, (party, day) => ({ lever: 'slot', party: party!, day: day! })],
  [
    /^stiffen:(.+):(\d+)$/,
    (zone, plies) => ({ lever: 'stiffen', zone: zone!, plies: Number(plies) }),
  ],
];

/** The lever that an id names; null for an id that this version knows no lever for. */
export function readLeverId(text: string): LeverRef | null {
  const single = oneOf(SINGLE_LEVERS, text);
  if (single) return { lever: single };
  for (const [form, read] of LEVER_FORMS) {
    const found = form.exec(text);
    if (found) return read(...found.slice(1));
  }
  return null;
}

/** Levers of a single cure: all others change every cure or none. */
export function leverLayup(ref: LeverRef | null): string | null {
  return ref?.lever === 'layup-hardener' || ref?.lever === 'layup-tent' ? ref.layup : null;
}

// ---------------------------------------------------------------------------------------------
// Lines of the kit

/** What is bought by a row of the library and something more; any other line has its row's id. */
export type KitLineRef =
  | { readonly kind: 'core'; readonly material: string; readonly thicknessMm: number }
  | { readonly kind: 'hardener'; readonly resin: string; readonly hardener: string }
  | { readonly kind: 'mould'; readonly mould: string; readonly of: 'blank' | 'machining' };

/** The id of a line of the kit, as the stock of a document names it. */
export function kitLineId(ref: KitLineRef): string {
  switch (ref.kind) {
    case 'core':
      return `${ref.material}-${ref.thicknessMm}mm`;
    case 'hardener':
      return `${ref.resin}:${ref.hardener}`;
    case 'mould':
      return `${ref.mould}-${ref.of}`;
  }
}

// ---------------------------------------------------------------------------------------------
// Doses of an initiator

const DOSE_BETWEEN = 'dose-between-';

/** The id of a hardener row that was read between two doses of the maker, by parts per 100. */
export const doseBetweenId = (partsPer100: number): string => `${DOSE_BETWEEN}${partsPer100}`;

export const isDoseBetween = (text: string): boolean => text.startsWith(DOSE_BETWEEN);

// ---------------------------------------------------------------------------------------------
// Boundaries, cures, routes

/** The sign of a boundary in the id of a route: `skin/core+inner`. */
const SIGN_OF: Readonly<Record<JointState, string>> = { apart: '/', tack: '~', 'one-bag': '+' };

/** A boundary between two layups, as `skin-core`. */
export const boundaryId = (before: string, after: string): string => `${before}-${after}`;

/** The id of a cure or of a whole route: its layups with the state of each boundary between them. */
export const chainId = (layups: readonly string[], joints: readonly JointState[]): string =>
  layups.map((layup, i) => (i === 0 ? '' : SIGN_OF[joints[i - 1]!]) + layup).join('');

/** The id of a route: its cures in order, each apart from the one before. */
export const routeId = (cures: readonly string[]): string => cures.join(SIGN_OF.apart);

/** Layups in order and the state of each boundary between them; `joints` is one shorter. */
export interface Chain {
  readonly layups: readonly string[];
  readonly joints: readonly JointState[];
}

/** What the id of a cure or of a route says. */
export function readChainId(text: string): Chain {
  const parts = text.split(/([/~+])/);
  return {
    layups: parts.filter((_part, i) => i % 2 === 0),
    joints: parts.filter((_part, i) => i % 2 === 1).map(stateOf),
  };
}

const stateOf = (sign: string): JointState =>
  sign === SIGN_OF.apart ? 'apart' : sign === SIGN_OF.tack ? 'tack' : 'one-bag';
