/** Changes of the build that buy time, each as an edit of the document. */
import { hardenerOf, mergeLibraries, practiceOf, resinOf } from '../build/library.ts';
import {
  buildSchema,
  type Build,
  type FullBuild,
  type Hours,
  type Library,
} from '../build/schema.ts';
import { rateFactor } from '../cure/arrhenius.ts';
import { fitSheet } from '../cure/fit.ts';
import { elapsed } from '../messages/words.ts';

/** A lever before it is weighed. */
export interface LeverEdit {
  readonly id: string;
  readonly label: string;
  readonly document: Build;
  readonly sideEffects: readonly string[];
}

type Offer = (document: Build, build: FullBuild, library: Library) => LeverEdit[];

const OFFERS: readonly Offer[] = [
  hardeners,
  warmNights,
  warmer,
  tent,
  saturday,
  longDay,
  hand,
  releases,
];

/** Every lever that this build leaves open. */
export function leverEdits(document: Build, shipped: Library): LeverEdit[] {
  const build = buildSchema.parse(document);
  const library = mergeLibraries(build.library, shipped);
  return OFFERS.flatMap((offer) => offer(document, build, library));
}

/** The document with the lever pulled and noted; null when the lever is not open for this build. */
export function applyLever(document: Build, leverId: string, shipped: Library): Build | null {
  const edit = leverEdits(document, shipped).find((candidate) => candidate.id === leverId);
  if (!edit) return null;
  const pulled = [...(document.levers ?? []), { id: edit.id, label: edit.label }];
  return { ...edit.document, levers: pulled };
}

function hardeners(document: Build, build: FullBuild, library: Library): LeverEdit[] {
  const now = openMinutes(build, library, build.resin.hardener);
  return resinOf(library, build.resin.system)
    .hardeners.filter((row) => row.id !== build.resin.hardener)
    .map((row) => {
      const then = openMinutes(build, library, row.id);
      return {
        id: `hardener-${row.id}`,
        label: `Use ${row.name}`,
        document: { ...document, resin: { system: build.resin.system, hardener: row.id } },
        sideEffects: [`The film stays open ${elapsed(then)} in place of ${elapsed(now)}.`],
      };
    });
}

/** Open time of the film at the day temperature of the room, minutes. */
function openMinutes(build: FullBuild, library: Library, hardener: string): number {
  const row = hardenerOf(library, { system: build.resin.system, hardener });
  const model = fitSheet(row, practiceOf(library));
  const factor = rateFactor(
    model.activationEnergyJMol,
    build.room.temperatureC.day,
    model.referenceC,
  );
  return ((model.doseHours.open ?? 0) * 60) / factor;
}

const withRoom = (document: Build, build: FullBuild, day: number, night: number): Build => ({
  ...document,
  room: { ...(document.room ?? {}), temperatureC: { ...build.room.temperatureC, day, night } },
});

function warmNights(document: Build, build: FullBuild): LeverEdit[] {
  const { day, night } = build.room.temperatureC;
  if (night >= day) return [];
  return [
    {
      id: 'warm-nights',
      label: `Hold ${day} °C through the night`,
      document: withRoom(document, build, day, day),
      sideEffects: ['Heating runs all night; an unvented gas heater invites blush.'],
    },
  ];
}

const WARMER_C = 5;
const WARMEST_C = 28;

function warmer(document: Build, build: FullBuild): LeverEdit[] {
  const { day, night } = build.room.temperatureC;
  if (day + WARMER_C > WARMEST_C) return [];
  return [
    {
      id: 'warmer-room',
      label: `Heat the room to ${day + WARMER_C} °C, night ${night + WARMER_C} °C`,
      document: withRoom(document, build, day + WARMER_C, night + WARMER_C),
      sideEffects: ['Pot life and open time shrink as well: check that the layup still fits.'],
    },
  ];
}

const TENT_C = 60;

function tent(document: Build, build: FullBuild): LeverEdit[] {
  if (build.room.tent && build.room.tent.maxC >= TENT_C) return [];
  return [
    {
      id: 'heated-tent',
      label: `Put up a heated tent, up to ${TENT_C} °C`,
      document: {
        ...document,
        room: { ...(document.room ?? {}), tent: { maxC: TENT_C } },
        gear: { ...(document.gear ?? {}), tents: Math.max(1, build.gear.tents) },
      },
      sideEffects: ['Makes the post-cure possible; it takes its own day or night.'],
    },
  ];
}

type CrewEdit = (hours: Hours) => Hours;

const withHours = (document: Build, build: FullBuild, edit: CrewEdit): Build => ({
  ...document,
  crew: build.crew.map((person) => ({ ...person, hours: edit(person.hours) })),
});

function saturday(document: Build, build: FullBuild): LeverEdit[] {
  if (build.crew.length === 0 || build.crew.every((person) => person.hours.sat?.length)) return [];
  return [
    {
      id: 'saturday',
      label: 'Work Saturdays 08:00 to 13:00',
      document: withHours(document, build, (hours) =>
        hours.sat?.length ? hours : { ...hours, sat: [['08:00', '13:00']] },
      ),
      sideEffects: ['Overtime; no day of rest if Sunday goes as well.'],
    },
  ];
}

const LATEST_END = '20:00';

function longDay(document: Build, build: FullBuild): LeverEdit[] {
  const later = (hours: Hours): Hours =>
    Object.fromEntries(
      Object.entries(hours).map(([day, spans]) => {
        const last = spans.at(-1);
        if (!last) return [day, spans];
        const end = twoHoursOn(last[1]);
        return [day, [...spans.slice(0, -1), [last[0], end]]];
      }),
    ) as Hours;
  if (
    build.crew.every((p) =>
      Object.values(p.hours).every((s) => (s.at(-1)?.[1] ?? '') >= LATEST_END),
    )
  )
    return [];
  return [
    {
      id: 'longer-day',
      label: 'Work two hours longer each day',
      document: withHours(document, build, later),
      sideEffects: ['Overtime; tired hands mix badly.'],
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

function hand(document: Build, build: FullBuild): LeverEdit[] {
  const first = build.crew[0];
  if (build.crew.length >= LARGEST_CREW) return [];
  const extra = {
    id: `extra-${build.crew.length + 1}`,
    name: 'Another pair of hands',
    ...(first ? { hours: first.hours } : {}),
  };
  return [
    {
      id: 'another-hand',
      label: 'Bring in another pair of hands',
      document: { ...document, crew: [...build.crew, extra] },
      sideEffects: ['Wages; somebody new needs the dry rehearsal most.'],
    },
  ];
}

function releases(document: Build, build: FullBuild, library: Library): LeverEdit[] {
  const shapes = new Set(build.part.zones.map((zone) => zone.shape));
  return library.releases
    .filter((row) => row.id !== build.mould.release)
    .filter((row) => [...shapes].every((shape) => row.shapes.includes(shape)))
    .map((row) => ({
      id: `release-${row.id}`,
      label: `Release with ${row.name}`,
      document: { ...document, mould: { ...(document.mould ?? {}), release: row.id } },
      sideEffects: [
        `A hard demould in about ${Math.round(row.hardDemouldChance * 100)} % of jobs.`,
      ],
    }));
}
