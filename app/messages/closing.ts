/** When a route closes and what is left after it, in words. */
import type { JointState, StageKind } from '../document/schema.ts';
import type { Minute } from '../time/instant.ts';
import { joinWords, type Join } from './joints.ts';
import { withoutLength } from './stages.ts';
import { capital, dayAndTime, listed } from './words.ts';

/** What the words need to know of a route. */
export interface ClosingRoute {
  readonly id: string;
  readonly joints: Readonly<Record<string, JointState>>;
  readonly possible: boolean;
  readonly closes: Minute | null;
}

/** Two neighbouring layups whose joint may be apart, on tack or in one bag. */
export interface NamedBoundary {
  readonly id: string;
  readonly before: { readonly id: string; readonly name: string };
  readonly after: { readonly id: string; readonly name: string };
}

export interface ClosingWords {
  /** 'Separate cures close Thursday 6 May, 14:00.' */
  readonly closes: string;
  /** 'After that the core has to be bonded in the same cure as the outer skin.' */
  readonly after: string;
}

/**
 * The closing of the route `id` in words, or null while no closing time is known.
 * @param routes all routes of the part in order of preference, least merged first
 * @param zone IANA zone in which times are written
 * @param begins when work may begin, now or later: a route that had to begin before has no time
 */
export function closingWords(
  routes: readonly ClosingRoute[],
  id: string,
  boundaries: readonly NamedBoundary[],
  zone: string,
  now: Minute,
  begins: Minute = now,
): ClosingWords | null {
  const route = routes.find((candidate) => candidate.id === id);
  if (!route || route.closes === null) return null;
  const closes = route.closes;
  const past = closes < now;
  const next = routes.find(
    (other) => other.possible && other.closes !== null && other.closes > closes,
  );
  const { subject, plural } = subjectOf(route, boundaries);
  if (!past && closes < begins) {
    const by = `${subject} would have to begin by ${dayAndTime(closes, zone)}`;
    return {
      closes: `${by}; work begins ${dayAndTime(begins, zone)}.`,
      after: next ? `So ${listed(changes(route, next, boundaries, 'has to be'))}.` : NOTHING_FITS,
    };
  }
  const verb = past ? 'closed' : plural ? 'close' : 'closes';
  return {
    closes: `${subject} ${verb} ${dayAndTime(closes, zone)}.`,
    after: past ? changesSince(route, next, boundaries) : changesAfter(route, next, boundaries),
  };
}

const NOTHING_FITS = 'Nothing fits without more time, heat or people.';

function subjectOf(route: ClosingRoute, boundaries: readonly NamedBoundary[]) {
  const merged = boundaries.filter(({ id }) => stateOf(route, id) !== 'apart');
  if (merged.length === 0) return { subject: 'Separate cures', plural: true };
  const words = merged.map((boundary) => joinWords(joinOf(boundary, stateOf(route, boundary.id))));
  return { subject: `The route with the ${listed(words)}`, plural: false };
}

const stateOf = (route: Pick<ClosingRoute, 'joints'>, boundary: string): JointState =>
  route.joints[boundary] ?? 'apart';

const joinOf = ({ before, after }: NamedBoundary, state: JointState): Join => ({
  before: before.name,
  after: after.name,
  state,
});

function changesAfter(
  route: ClosingRoute,
  next: ClosingRoute | undefined,
  boundaries: readonly NamedBoundary[],
): string {
  if (!next) return 'After that nothing fits without more time, heat or people.';
  return `After that ${listed(changes(route, next, boundaries, 'has to be'))}.`;
}

function changesSince(
  route: ClosingRoute,
  next: ClosingRoute | undefined,
  boundaries: readonly NamedBoundary[],
): string {
  if (!next) return 'Since then nothing fits without more time, heat or people.';
  return `Since then ${listed(changes(route, next, boundaries, 'has had to be'))}.`;
}

function changes(
  from: ClosingRoute,
  to: ClosingRoute,
  boundaries: readonly NamedBoundary[],
  must: string,
): string[] {
  return boundaries.flatMap((boundary) => {
    const state = stateOf(to, boundary.id);
    if (state === stateOf(from, boundary.id)) return [];
    const verb = isPlural(boundary.after.name) ? must.replace('has', 'have') : must;
    return [changeWords(boundary, state, verb)];
  });
}

/** 'Local plies ...' are many, a skin is one. */
const isPlural = (name: string): boolean => /\b(plies|strips)\b/.test(name);

function changeWords({ before, after }: NamedBoundary, state: JointState, must: string): string {
  const isCore = after.id === 'core';
  const thing = isCore ? 'the core' : `the ${after.name.toLowerCase()}`;
  const does = isCore ? 'bonded' : 'laid';
  const onto = `the ${state === 'tack' ? 'tacky ' : ''}${before.name.toLowerCase()}`;
  if (state === 'apart')
    return `${thing} ${must} ${does} onto the cured ${before.name.toLowerCase()}`;
  if (state === 'tack') return `${thing} ${must} ${does} onto ${onto}`;
  return `${thing} ${must} ${does} in the same cure as ${onto}`;
}

/** The stage that cannot wait when a route closes. */
export interface Waited {
  readonly kind: StageKind;
  readonly name: string;
}

/** 'the material had to be ordered', or 'the material has to be ordered'. */
export function pendingWords({ kind, name }: Waited, verb: 'had' | 'has'): string {
  switch (kind) {
    case 'order':
      return `the material ${verb} to be ordered`;
    case 'mould':
      return `work on the mould ${verb} to begin`;
    case 'outside':
      return `${withoutLength(name)} ${verb} to begin`;
    default:
      return `'${capital(name)}' ${verb} to begin`;
  }
}
