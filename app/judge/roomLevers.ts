/** Levers of resin and room: another hardener, more heat. */
import { filledIn } from '../document/assume.ts';
import { leverId, type LeverRef } from '../document/ids.ts';
import { practiceOf, resinOf } from '../document/library.ts';
import type { Build, FullBuild, Library } from '../document/schema.ts';
import { leverWords } from '../messages/levers.ts';
import type { LeverEdit, LeverTable, OfferInput, PlanOfferInput } from './lever.ts';

/** Other hardeners of the same resin. */
function hardeners({ document, build, library, lookups }: OfferInput): LeverEdit[] {
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
const heatMinor = (
  { library, days }: Pick<OfferInput, 'library' | 'days'>,
  dayK: number,
  nightK: number,
): number => Math.round(practiceOf(library)('heat-minor-per-k-day') * days * ((dayK + nightK) / 2));

function warmNights(input: OfferInput): LeverEdit[] {
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

function warmer(input: OfferInput): LeverEdit[] {
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

type HeldRef = Extract<LeverRef, { lever: 'held-room' }>;

/** The room as warm as the cures take that it never brings to an end. */
function heldRoom({ context, document, plan, days }: PlanOfferInput): LeverEdit[] {
  const asIf = plan.cures.flatMap(({ asIfHeldC }) => asIfHeldC ?? []);
  if (asIf.length === 0) return [];
  const ref: HeldRef = { lever: 'held-room', temperatureC: Math.max(...asIf) };
  const edit = heldEdit(document, ref, context.library);
  if (!edit) return [];
  const { day, night } = context.build.room.temperatureC;
  const { library } = context;
  const warmerK = (nowC: number): number => Math.max(0, ref.temperatureC - nowC);
  return [{ ...edit, addedMinor: heatMinor({ library, days }, warmerK(day), warmerK(night)) }];
}

/** @returns null where nobody could work in it, or it is as warm already */
function heldEdit(document: Build, ref: HeldRef, library: Library): LeverEdit | null {
  const build = filledIn(document);
  const { temperatureC } = ref;
  const { day, night } = build.room.temperatureC;
  if (temperatureC > practiceOf(library)('warmest-room-c')) return null;
  if (Math.min(day, night) >= temperatureC) return null;
  const atLeast = (nowC: number): number => Math.max(nowC, temperatureC);
  return {
    id: leverId(ref),
    ...leverWords('held-room', { temperatureC }),
    document: withRoom(document, build, atLeast(day), atLeast(night)),
    addedMinor: 0,
  };
}

function tent({ document, build, library }: OfferInput): LeverEdit[] {
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

export const ROOM_LEVERS: LeverTable<
  'hardener' | 'warm-nights' | 'warmer-room' | 'held-room' | 'heated-tent'
> = {
  hardener: { subject: 'hardener', offer: hardeners },
  'warm-nights': { subject: 'room', offer: warmNights },
  'warmer-room': { subject: 'room', offer: warmer },
  'held-room': { subject: 'room', offerWithPlan: heldRoom, edit: heldEdit },
  'heated-tent': { subject: 'tent', offer: tent },
};
