/**
 * What the plan of an incomplete build is drawn with, until the person enters the real thing. A stand-in
 * is shown as one and is never stored, printed or worked from.
 */
import type { Minute } from '../time/instant.ts';
import { dayName, localDayNumber } from '../time/zone.ts';
import { setIn, type Draft } from './edit/path.ts';
import { clothName } from './edit/plies.ts';
import { missingOf } from './edit/start.ts';
import type { Build, Library } from './schema.ts';

/** Far enough for the longest usual build, so that the picture is not one of lateness. */
const DAYS_AHEAD = 84;
const AREA_M2 = 1;
const PLIES = 2;

/** A field that nobody has entered, with what stands in for it, for the words beside it. */
export type StandIn =
  | { readonly path: 'name' | 'crew' }
  | { readonly path: 'unveiling'; readonly day: string }
  | { readonly path: 'part.zones[].areaM2'; readonly areaM2: number }
  | { readonly path: 'part.zones[].outer'; readonly plies: number; readonly cloth: string }
  | { readonly path: 'resin.system'; readonly resin: string };

/** What is called by a name until it has one. */
export interface Unnamed {
  readonly build: string;
  readonly person: string;
}

interface Around {
  /** Its first row of each kind stands in. */
  readonly library: Library;
  /** Days since 1970 of the plan's day where the build is. */
  readonly today: number;
  readonly unnamed: Unnamed;
}

interface Placed {
  readonly standIn: StandIn;
  readonly put: (document: Draft) => Draft;
}

/** By the path of the needed field. */
const STAND_INS: Readonly<Record<StandIn['path'], (around: Around) => Placed | null>> = {
  name: ({ unnamed }) => ({
    standIn: { path: 'name' },
    put: (document) => setIn(document, 'name', unnamed.build),
  }),
  unveiling: ({ today }) => {
    const day = dayName(today + DAYS_AHEAD);
    return {
      standIn: { path: 'unveiling', day },
      put: (document) => setIn(document, 'unveiling', day),
    };
  },
  'part.zones[].areaM2': () => ({
    standIn: { path: 'part.zones[].areaM2', areaM2: AREA_M2 },
    put: (document) => withStacks(setIn(document, 'part.zones[0].areaM2', AREA_M2)),
  }),
  'part.zones[].outer': ({ library: { cloths } }) => {
    const [cloth] = cloths;
    if (!cloth) return null;
    const outer = Array.from({ length: PLIES }, () => ({ cloth: cloth.id }));
    return {
      standIn: { path: 'part.zones[].outer', plies: PLIES, cloth: clothName(cloth) },
      put: (document) => withStacks(setIn(document, 'part.zones[0].outer', outer)),
    };
  },
  'resin.system': ({ library: { resins } }) => {
    const [resin] = resins;
    const hardener = resin?.hardeners[0];
    if (!resin || !hardener) return null;
    return {
      standIn: { path: 'resin.system', resin: resin.name },
      put: (document) => setIn(document, 'resin', { system: resin.id, hardener: hardener.id }),
    };
  },
  crew: ({ unnamed }) => ({
    standIn: { path: 'crew' },
    put: (document) => setIn(document, 'crew', [{ name: unnamed.person }]),
  }),
};

/** A zone as the schema wants it: both stacks are there, if only empty. */
function withStacks(document: Draft): Draft {
  const zone = document.part?.zones?.[0];
  const stacks = { outer: zone?.outer ?? [], inner: zone?.inner ?? [] };
  return setIn(document, 'part.zones[0]', { ...zone, ...stacks });
}

/**
 * @param document a build that lacks some of what nobody can assume
 * @param library rows that may stand in
 * @param now minute of the plan
 * @param unnamed names for a build and a crew that have none yet
 * @returns the document that is drawn, and what in it stands in, in the order of the job card
 */
export function withStandIns(
  document: Draft,
  library: Library,
  now: Minute,
  unnamed: Unnamed,
): { readonly document: Build; readonly standIns: readonly StandIn[] } {
  const around = { library, unnamed, today: localDayNumber(now, document.zone ?? 'UTC') };
  const placed = missingOf(document).flatMap(
    ({ path }) => STAND_INS[path as StandIn['path']](around) ?? [],
  );
  const drawn = placed.reduce((next, { put }) => put(next), document);
  return { document: drawn as Build, standIns: placed.map(({ standIn }) => standIn) };
}
