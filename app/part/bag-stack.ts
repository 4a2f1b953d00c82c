/** What lies on the mould under one bag, from below, for the drawing and the bench. */
import { clothOf, mouldOf, practiceOf, releaseOf } from '../document/library.ts';
import type { ConsumableRow, FullBuild, Library, Process } from '../document/schema.ts';
import { LAYUP_NAMES } from '../messages/layups.ts';
import { exact } from '../units/words.ts';
import { cutList, type CutPly } from './cuts.ts';
import { processBeside, processOf, timesInBag } from './process.ts';
import { isInfused, type Layup, type LayupId, type LayupPlace, type PartResult } from './types.ts';

export interface BagLayer {
  readonly kind:
    | 'mould'
    | 'release'
    | 'cured'
    | 'ply'
    | 'core'
    | 'peel-ply'
    | 'film'
    | 'mesh'
    | 'breather'
    | 'bag';
  readonly name: string;
  /** Numbers in the ply book, for layers of cloth. */
  readonly plies: readonly number[];
}

export interface BagStack {
  /** From the mould up. */
  readonly layers: readonly BagLayer[];
  readonly areaM2: number;
  /** Sealant tape round the bag, m. */
  readonly tapeM: number;
  readonly ports: number;
  /** Where the thermocouple goes. */
  readonly thermocouple: string;
  readonly witness: string;
}

/**
 * The stack under one bag.
 * @param inBag layups cured in it, in chain order
 * @throws MissingRow
 */
export function bagStack(
  build: FullBuild,
  library: Library,
  part: PartResult,
  inBag: readonly LayupId[],
): BagStack {
  const layups = part.layups.filter((layup) => inBag.includes(layup.id));
  const onMould = layups.every((layup) => layup.place === 'chain');
  const cuts = cutList(build, library);
  const areaM2 = Math.max(0, ...layups.map((layup) => layup.areaM2));
  const tape = library.consumables.find((row) => row.use === 'sealant-tape');
  const edgeM = Math.max(0, ...layups.map((layup) => layup.edgeM));
  const process = isInfused(layups) ? 'infused' : processBeside(processOf(build));
  return {
    layers: [
      ...(onMould ? mouldLayers(build, library) : []),
      ...curedLayers(part.layups, layups, onMould),
      ...layups.flatMap((layup) => layupLayers(layup, build, library, cuts)),
      ...bagLayers(process, library),
    ],
    areaM2,
    tapeM: tape ? timesInBag(tape, process) * (tape.perEdgeM * edgeM + tape.fixed) : edgeM,
    ports: Math.max(1, Math.ceil(areaM2 / practiceOf(library)('port-covers-m2'))),
    ...LIES_ON[layups[0]?.place ?? 'chain'],
  };
}

/** Where the probe and the smear go, by what the bag lies on. */
const LIES_ON: Readonly<Record<LayupPlace, { thermocouple: string; witness: string }>> = {
  chain: {
    thermocouple: 'On the flange under the bag, at the coldest corner of the mould.',
    witness: 'A smear of the last cup, 1 to 2 mm, on released film on the flange.',
  },
  beside: {
    thermocouple: 'On the flat under the bag, at its coldest corner.',
    witness: 'A smear of the last cup, 1 to 2 mm, on released film on the flat.',
  },
  'after-demould': {
    thermocouple: 'On the part beside the patch.',
    witness: 'A smear of the last cup, 1 to 2 mm, on released film beside the patch.',
  },
  'after-trim': {
    thermocouple: 'On the part beside the strips, at its coldest corner.',
    witness: 'A smear of the last cup, 1 to 2 mm, on released film beside the strips.',
  },
};

function mouldLayers(build: FullBuild, library: Library): BagLayer[] {
  const layer = (kind: BagLayer['kind'], name: string): BagLayer => ({ kind, name, plies: [] });
  return [
    layer('mould', mouldOf(library, build.mould.material).name),
    layer('release', releaseOf(library, build.mould.release).name),
  ];
}

/** Layups that lie cured below, one layer each; the trimmed part is one thing. */
function curedLayers(all: readonly Layup[], inBag: readonly Layup[], onMould: boolean): BagLayer[] {
  const first = inBag[0];
  if (!first) return [];
  if (first.place === 'beside') return [{ kind: 'mould', name: 'Flat, released', plies: [] }];
  if (first.place === 'after-demould') {
    return [{ kind: 'cured', name: 'Part, scarfed and filled', plies: [] }];
  }
  if (!onMould) return [{ kind: 'cured', name: 'Trimmed part, prepared', plies: [] }];
  const below = all.slice(0, all.indexOf(first)).filter((layup) => layup.place === 'chain');
  return curedBelow(below, first).map((name) => ({ kind: 'cured', name, plies: [] }));
}

/** A section lies over the edge of the one before; what comes later lies on all of that skin, whatever its sections. */
function curedBelow(below: readonly Layup[], first: Layup): string[] {
  return below.flatMap(({ name, section }) => {
    if (!section) return [`${name}, cured`];
    if (section.of === first.section?.of) {
      return section.number === first.section.number - 1 ? [`${name}, cured, at the joint`] : [];
    }
    return section.number === 1 ? [`${LAYUP_NAMES[section.of]}, cured`] : [];
  });
}

function layupLayers(
  layup: Layup,
  build: FullBuild,
  library: Library,
  cuts: readonly CutPly[],
): BagLayer[] {
  if (layup.id === 'core') {
    const names = build.part.zones.flatMap((zone) => {
      const row = library.cores.find((core) => core.id === zone.core?.material);
      return zone.core && row ? [`${row.name}, ${exact(zone.core.thicknessMm)} mm`] : [];
    });
    return [...new Set(names)].map((name) => ({ kind: 'core', name, plies: [] }));
  }
  if (layup.id === 'inserts') {
    return build.part.inserts.map(({ name, count, cloth, plies }) => ({
      kind: 'ply',
      name: `${name}, ${count} of ${plies} plies, ${clothOf(library, cloth).name}`,
      plies: [],
    }));
  }
  if (layup.id === 'repair') {
    return [{ kind: 'ply', name: `${layup.plies} plies, each 12 mm over the last`, plies: [] }];
  }
  const layers = new Map<string, { name: string; plies: number[] }>();
  // Plies of one cloth and angle at one depth are one layer, whatever zone they lie in.
  const depth = new Map<string, number>();
  for (const cut of cuts.filter((ply) => ply.layup === layup.id)) {
    const level = depth.get(cut.zoneId) ?? 0;
    depth.set(cut.zoneId, level + 1);
    const key = `${level}/${cut.cloth.id}/${cut.angleDeg}`;
    const layer = layers.get(key) ?? { name: `${cut.cloth.name}, ${cut.angleDeg}°`, plies: [] };
    layer.plies.push(cut.number);
    layers.set(key, layer);
  }
  return [...layers.values()].map((layer) => ({ kind: 'ply', ...layer }));
}

/** In the order in which they go down. */
const BAG_USES = ['peel-ply', 'release-film', 'flow-mesh', 'breather', 'bag-film'] as const;
const KIND_OF_USE = {
  'peel-ply': 'peel-ply',
  'release-film': 'film',
  'flow-mesh': 'mesh',
  breather: 'breather',
  'bag-film': 'bag',
} as const satisfies Partial<Record<ConsumableRow['use'], BagLayer['kind']>>;

function bagLayers(process: Process, library: Library): BagLayer[] {
  return BAG_USES.flatMap((use) => {
    const row = library.consumables.find(
      (one) => one.use === use && one.everyBag && timesInBag(one, process) > 0,
    );
    return row ? [{ kind: KIND_OF_USE[use], name: row.name, plies: [] }] : [];
  });
}
