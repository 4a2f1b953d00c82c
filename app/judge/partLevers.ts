/** Levers of part and mould: release, local plies, the closing of the edge. */
import { leverId, type LeverRef } from '../document/ids.ts';
import { practiceOf } from '../document/library.ts';
import { filledIn } from '../document/assume.ts';
import type { Build } from '../document/schema.ts';
import { leverWords } from '../messages/levers.ts';
import type { LeverEdit, LeverTable, OfferInput } from './lever.ts';

type StiffenLever = Extract<LeverRef, { lever: 'stiffen' }>;

function releases({ document, build, library }: OfferInput): LeverEdit[] {
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
function localBetween({ document, build }: OfferInput): LeverEdit[] {
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
function closeouts({ document, build, library }: OfferInput): LeverEdit[] {
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

/** Local plies of the outer cloth at 0 and 45 in turn; null when it names no zone of the build. */
export function stiffenEdit(
  document: Build,
  ref: StiffenLever,
  place: 'between' | 'after' = 'between',
): LeverEdit | null {
  const { zone: zoneId, plies } = ref;
  const { zones } = filledIn(document).part;
  const zone = zones.find((one) => one.id === zoneId);
  const cloth = zone?.outer.at(-1)?.cloth ?? zone?.inner.at(-1)?.cloth;
  if (!zone || !cloth || !(plies >= 1)) return null;
  const added = Array.from({ length: plies }, (_, i) => ({
    cloth,
    angleDeg: i % 2 === 0 ? 0 : 45,
    place,
  }));
  const changed = document.part.zones.map((one, i) =>
    zones[i] === zone ? { ...one, local: [...(one.local ?? []), ...added] } : one,
  );
  return {
    id: leverId(ref),
    ...leverWords('stiffen', { plies, place, zone: zone.name }),
    document: { ...document, part: { ...document.part, zones: changed } },
    addedMinor: 0,
  };
}

export const PART_LEVERS: LeverTable<'release' | 'local-between' | 'closeout'> = {
  release: { subject: 'release', offer: releases },
  'local-between': { subject: 'local plies', offer: localBetween },
  closeout: { subject: 'closeout', offer: closeouts },
};

/** A finding of a panel that gives names the zone and how many plies hold it. */
export const STIFFEN_LEVERS: LeverTable<'stiffen'> = {
  stiffen: {
    subject: null,
    answers: {
      'panel-soft': (document, { numbers: { zone, plies } }) =>
        typeof plies === 'number'
          ? stiffenEdit(document, { lever: 'stiffen', zone: String(zone), plies })
          : null,
    },
    edit: (document, ref) => stiffenEdit(document, ref),
  },
};
