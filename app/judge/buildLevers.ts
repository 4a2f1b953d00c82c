/** Changes of the build that buy time, each as an edit of the document. */
import { leverId } from '../document/ids.ts';
import { practiceOf, resinOf } from '../document/library.ts';
import type { Build, FullBuild, Hours, Library } from '../document/schema.ts';
import { leverWords, type LeverWords } from '../messages/levers.ts';
import type { Lookups } from '../plan/lookups.ts';

/** A lever before it is weighed. */
export interface LeverEdit extends LeverWords {
  readonly id: string;
  readonly document: Build;
  /** What it costs beside material, minor units: wages, heat, hire. */
  readonly addedMinor: number;
}

/** What an offer is made from. */
export interface OfferInput {
  readonly document: Build;
  readonly build: FullBuild;
  readonly library: Library;
  /** Days for which heat and wages run. */
  readonly days: number;
  readonly lookups: Lookups;
}

export type Offer = (input: OfferInput) => LeverEdit[];

/** Other hardeners of the same resin. */
export function hardeners({ document, build, library, lookups }: OfferInput): LeverEdit[] {
  const nowMinutes = lookups.openMinutes(build, library, build.resin.hardener);
  return resinOf(library, build.resin.system)
    .hardeners.filter((row) => row.id !== build.resin.hardener)
    .map((row) => {
      const openMinutes = lookups.openMinutes(build, library, row.id);
      return {
        id: leverId({ lever: 'hardener', hardener: row.id }),
        ...leverWords('hardener', { hardener: row.name, openMinutes, nowMinutes }),
        document: { ...document, resin: { ...document.resin, hardener: row.id } },
        addedMinor: 0,
      };
    });
}

const withRoom = (document: Build, build: FullBuild, day: number, night: number): Build => ({
  ...document,
  room: { ...(document.room ?? {}), temperatureC: { ...build.room.temperatureC, day, night } },
});

/** Half of each day is night. */
const heatMinor = ({ library, days }: OfferInput, dayK: number, nightK: number): number =>
  Math.round(practiceOf(library)('heat-minor-per-k-day') * days * ((dayK + nightK) / 2));

export function warmNights(input: OfferInput): LeverEdit[] {
  const { document, build } = input;
  const { day, night } = build.room.temperatureC;
  if (night >= day) return [];
  return [
    {
      id: leverId({ lever: 'warm-nights' }),
      ...leverWords('warm-nights', { dayC: day }),
      document: withRoom(document, build, day, day),
      addedMinor: heatMinor(input, 0, day - night),
    },
  ];
}

export function warmer(input: OfferInput): LeverEdit[] {
  const { document, build, library } = input;
  const practice = practiceOf(library);
  const { day, night } = build.room.temperatureC;
  const by = practice('warmer-room-k');
  if (day + by > practice('warmest-room-c')) return [];
  return [
    {
      id: leverId({ lever: 'warmer-room' }),
      ...leverWords('warmer-room', { dayC: day + by, nightC: night + by }),
      document: withRoom(document, build, day + by, night + by),
      addedMinor: heatMinor(input, by, by),
    },
  ];
}

export function tent({ document, build, library }: OfferInput): LeverEdit[] {
  const practice = practiceOf(library);
  const maxC = practice('hired-tent-c');
  if (build.room.tent && build.room.tent.maxC >= maxC) return [];
  return [
    {
      id: leverId({ lever: 'heated-tent' }),
      ...leverWords('heated-tent', { maxC }),
      document: {
        ...document,
        room: { ...(document.room ?? {}), tent: { maxC } },
        gear: { ...(document.gear ?? {}), tents: Math.max(1, build.gear.tents) },
      },
      addedMinor: practice('tent-hire-minor'),
    },
  ];
}

const withHours = (document: Build, build: FullBuild, edit: (hours: Hours) => Hours): Build => ({
  ...document,
  crew: build.crew.map((person) => ({ ...person, hours: edit(person.hours) })),
});

/** Wages of so many hours a week of everybody, with the overtime share on top. */
const overtimeMinor = ({ build, library, days }: OfferInput, hoursPerWeek: number): number => {
  const practice = practiceOf(library);
  const rate = practice('labour-minor-per-h') * practice('overtime-share');
  return Math.round((rate * hoursPerWeek * build.crew.length * days) / 7);
};

type Day = 'sat' | 'sun';
const HALF_DAY: [string, string] = ['08:00', '13:00'];
const HALF_DAY_HOURS = 5;

export const saturday = (input: OfferInput): LeverEdit[] => weekend(input, 'saturday', ['sat']);

export const bothWeekendDays = (input: OfferInput): LeverEdit[] =>
  weekend(input, 'weekend', ['sat', 'sun']);

function weekend(
  input: OfferInput,
  lever: 'saturday' | 'weekend',
  days: readonly Day[],
): LeverEdit[] {
  const { document, build } = input;
  const works = (day: Day) => build.crew.every((person) => person.hours[day]?.length);
  if (build.crew.length === 0 || days.some(works)) return [];
  const document_ = withHours(document, build, (hours) =>
    days.reduce<Hours>(
      (all, day) => (all[day]?.length ? all : { ...all, [day]: [HALF_DAY] }),
      hours,
    ),
  );
  return [
    {
      id: leverId({ lever }),
      ...leverWords(lever, {}),
      document: document_,
      addedMinor: overtimeMinor(input, days.length * HALF_DAY_HOURS),
    },
  ];
}

const LATEST_END = '20:00';

export function longDay(input: OfferInput): LeverEdit[] {
  const { document, build } = input;
  const ends = build.crew.flatMap((person) =>
    Object.values(person.hours).flatMap((spans) => spans.at(-1)?.[1] ?? []),
  );
  if (ends.every((end) => end >= LATEST_END)) return [];
  const later = (hours: Hours): Hours =>
    Object.fromEntries(
      Object.entries(hours).map(([day, spans]) => {
        const last = spans.at(-1);
        return [day, last ? [...spans.slice(0, -1), [last[0], twoHoursOn(last[1])]] : spans];
      }),
    ) as Hours;
  return [
    {
      id: leverId({ lever: 'longer-day' }),
      ...leverWords('longer-day', {}),
      document: withHours(document, build, later),
      addedMinor: overtimeMinor(input, 10),
    },
  ];
}

function twoHoursOn(wall: string): string {
  if (wall >= LATEST_END) return wall;
  const hour = Number(wall.slice(0, 2)) + 2;
  const later = `${String(hour).padStart(2, '0')}${wall.slice(2)}`;
  return later > LATEST_END ? LATEST_END : later;
}

const LARGEST_CREW = 4;

export function hand({ document, build, library, days }: OfferInput): LeverEdit[] {
  const first = build.crew[0];
  if (build.crew.length >= LARGEST_CREW) return [];
  const extra = {
    id: `extra-${build.crew.length + 1}`,
    name: 'Another pair of hands',
    ...(first ? { hours: first.hours } : {}),
  };
  const practice = practiceOf(library);
  const share = practice('hired-hand-day-share');
  const wage = practice('labour-minor-per-h') * 8 * share;
  return [
    {
      id: leverId({ lever: 'another-hand' }),
      ...leverWords('another-hand', {}),
      document: { ...document, crew: [...build.crew, extra] },
      addedMinor: Math.round((wage * days * 5) / 7),
    },
  ];
}

export function releases({ document, build, library }: OfferInput): LeverEdit[] {
  const shapes = new Set(build.part.zones.map((zone) => zone.shape));
  return library.releases
    .filter((row) => row.id !== build.mould.release)
    .filter((row) => [...shapes].every((shape) => row.shapes.includes(shape)))
    .map(({ id, name, hardDemouldChance }) => ({
      id: leverId({ lever: 'release', release: id }),
      ...leverWords('release', { release: name, hardDemouldChance }),
      document: { ...document, mould: { ...(document.mould ?? {}), release: id } },
      addedMinor: 0,
    }));
}

/** Local plies planned on the demoulded part go between the skins instead. */
export function localBetween({ document, build }: OfferInput): LeverEdit[] {
  const late = (place: string) => place === 'after';
  if (!build.part.zones.some((zone) => zone.local.some((ply) => late(ply.place)))) return [];
  const zones = document.part.zones.map((zone) => ({
    ...zone,
    ...(zone.local
      ? {
          local: zone.local.map((ply) =>
            late(ply.place) ? { ...ply, place: 'between' as const } : ply,
          ),
        }
      : {}),
  }));
  return [
    {
      id: leverId({ lever: 'local-between' }),
      ...leverWords('local-between', {}),
      document: { ...document, part: { ...document.part, zones } },
      addedMinor: 0,
    },
  ];
}

const paints = (party: { readonly kind: string }): boolean => party.kind === 'paint';

/**
 * The visits to a painter that another one follows: the edge may be closed after any of them, or
 * before the first.
 */
export const earlyPaintVisits = <T extends { readonly kind: string }>(outside: readonly T[]): T[] =>
  outside.filter(paints).slice(0, -1);

/** The edge closed before anything leaves the shop, or after a first visit to the painter. */
export function closeouts({ document, build, library }: OfferInput): LeverEdit[] {
  if (!build.part.zones.some((zone) => zone.closeout)) return [];
  const visits = earlyPaintVisits(build.outside);
  const minutesPerM = practiceOf(library)('late-edge-fair-minutes-per-m');
  const later = visits
    .filter((party) => party.id !== build.closeoutAfter)
    .map((party) => ({
      id: leverId({ lever: 'closeout', after: party.id }),
      ...leverWords('closeout', { after: party.name, minutesPerM }),
      document: { ...document, closeoutAfter: party.id },
      addedMinor: 0,
    }));
  if (build.closeoutAfter === null) return later;
  const first = {
    id: leverId({ lever: 'closeout', after: null }),
    ...leverWords('closeout', { after: null, minutesPerM }),
    document: { ...document, closeoutAfter: null },
    addedMinor: 0,
  };
  return [first, ...later];
}
