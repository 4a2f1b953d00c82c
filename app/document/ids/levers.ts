/** Ids of levers, as documents keep them. */
import type { HeatAlone } from '../schema.ts';
import { oneOf } from './oneOf.ts';

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

/** Who stays for the gel of which bag: its first mix, and until when. */
export interface GelWatchRef {
  readonly layup: string;
  readonly person: string;
  /** Local, YYYY-MM-DDTHH:MM. */
  readonly mix: string;
  readonly until: string;
}

const watchText = ({ layup, person, mix, until }: GelWatchRef): string =>
  [layup, person, mix, until].join('/');

const LOCAL = String.raw`(\d{4}-\d\d-\d\dT\d\d:\d\d)`;
/** A layup has neither sign in its name; a person may. */
const WATCHES = new RegExp(`([^/+]+)/(.+?)/${LOCAL}/${LOCAL}(?:\\+|$)`, 'g');

const readWatches = (text: string): GelWatchRef[] =>
  [...text.matchAll(WATCHES)].map(([, layup, person, mix, until]) => ({
    layup: layup!,
    person: person!,
    mix: mix!,
    until: until!,
  }));

/** A helper at the wet work of a layup, for so many hours; 0 where it is laid with the one before. */
export interface HelpRef {
  readonly layup: string;
  readonly hours: number;
}

const readHelps = (text: string): HelpRef[] =>
  text.split('+').map((one) => {
    const [layup = '', hours] = one.split('/');
    return { layup, hours: Number(hours) };
  });

export type LeverRef =
  | { readonly lever: SingleLever }
  /** Another hardener for the whole build. */
  | { readonly lever: 'hardener'; readonly hardener: string }
  /** Tent or oven hired for a post-cure, as hot as that. */
  | { readonly lever: 'post-cure-heat'; readonly temperatureC: number }
  /** A looser rule of the shop for heat that runs while nobody is there. */
  | { readonly lever: 'heat-alone'; readonly rule: HeatAlone }
  /** Somebody stays for each gel that nobody would see. */
  | { readonly lever: 'gel-watch'; readonly watches: readonly GelWatchRef[] }
  /** A helper by the hour mixes and hands over. */
  | { readonly lever: 'wet-helper'; readonly helps: readonly HelpRef[] }
  /** A skin in so many sections; work of one person, joints, and what their overlaps weigh, more than by the plan. */
  | {
      readonly lever: 'sections';
      readonly layup: 'skin' | 'inner';
      readonly sections: number;
      readonly minutes: number;
      readonly jointMm: number;
      readonly overlapG: number;
    }
  /** Smaller batches than a shop usually mixes, g; so many more than before. */
  | { readonly lever: 'small-batches'; readonly leastG: number; readonly more: number }
  /** The room nowhere colder than that, day and night. */
  | { readonly lever: 'held-room'; readonly temperatureC: number }
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
    case 'gel-watch':
      return `gel-watch:${ref.watches.map(watchText).join('+')}`;
    case 'wet-helper':
      return `wet-helper:${ref.helps.map(({ layup, hours }) => `${layup}/${hours}`).join('+')}`;
    case 'sections':
      return `sections:${ref.layup}:${ref.sections}:${ref.minutes}:${ref.jointMm}:${ref.overlapG}`;
    case 'small-batches':
      return `small-batches:${ref.leastG}:${ref.more}`;
    case 'held-room':
      return `held-room:${ref.temperatureC}`;
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
  [/^gel-watch:(.+)$/, (all) => ({ lever: 'gel-watch', watches: readWatches(all!) })],
  [
    /^wet-helper:([^/+]+\/\d+(?:\+[^/+]+\/\d+)*)$/,
    (all) => ({ lever: 'wet-helper', helps: readHelps(all!) }),
  ],
  [
    /^sections:(skin|inner):([23]):(-?\d+):(\d+):(\d+)$/,
    (layup, sections, minutes, jointMm, overlapG) => ({
      lever: 'sections',
      layup: layup as 'skin' | 'inner',
      sections: Number(sections),
      minutes: Number(minutes),
      jointMm: Number(jointMm),
      overlapG: Number(overlapG),
    }),
  ],
  [
    /^small-batches:(\d+):(\d+)$/,
    (leastG, more) => ({ lever: 'small-batches', leastG: Number(leastG), more: Number(more) }),
  ],
  [/^held-room:(-?[\d.]+)$/, (degrees) => ({ lever: 'held-room', temperatureC: Number(degrees) })],
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

/** No id of a lever holds it: ids have no spaces. */
const AND = ' & ';

/** The id of two levers that are pulled one after the other. */
export const pairOfLevers = (first: string, second: string): string => `${first}${AND}${second}`;

/** The levers that an id names, in the order of pulling. */
export const leversOfId = (id: string): string[] => id.split(AND);
