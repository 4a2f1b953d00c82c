/** What would make the part lighter, and what each costs in money, hands and stiffness. */
import { practiceOf, resinOf } from '../document/library.ts';
import type { CoreRow, FullBuild, Library, PartZone } from '../document/schema.ts';
import { LIGHTER_WORDS, otherCoreWords } from '../messages/lighter.ts';
import { measurePart } from './measure.ts';
import { processOf } from './process.ts';
import { zoneStiffness } from './panel.ts';
import { stackOf } from './stack.ts';
import type { PartResult } from './types.ts';

export interface LighterOption {
  readonly id: string;
  readonly label: string;
  /** Counted mass less the build's own: below zero is lighter, kg. */
  readonly massKg: number;
  /** Material for the same bags and batches, minor units of currency. */
  readonly costMinor: number;
  readonly personMinutes: number;
  /** Least bending stiffness of any zone against what it was; null when a modulus is unknown. */
  readonly stiffness: number | null;
  readonly sideEffects: readonly string[];
  /** The changed build; null when the change is one of method, not of the document. */
  readonly build: FullBuild | null;
}

interface LighterCandidate {
  readonly id: string;
  readonly label: string;
  readonly build: FullBuild;
  readonly library: Library;
  readonly extraMinutes: number;
  readonly sideEffects: readonly string[];
  readonly ofMethod: boolean;
}

/**
 * Options that really save mass, greatest saving first.
 * @param bags and batches of the chosen route, for the cost
 * @throws MissingRow
 */
export function lighterOptions(
  build: FullBuild,
  library: Library,
  bags: number,
  batches: number,
): LighterOption[] {
  const before = measurePart(build, library);
  const cost = (part: PartResult): number =>
    part.kitFor(bags, batches).reduce((sum, line) => sum + (line.costMinor ?? 0), 0);
  const hands = (part: PartResult): number => part.workFor('layup').personMinutes;
  const ideas = [
    ...lessResin(build, library),
    ...closedCore(build, library),
    ...lighterCores(build, library),
    ...thinnerCore(build, library),
    ...fewerPlies(build, library),
  ];
  return ideas
    .map((idea): LighterOption => {
      const after = measurePart(idea.build, idea.library);
      return {
        id: idea.id,
        label: idea.label,
        massKg: after.countedMassKg - before.countedMassKg,
        // What is bled off was mixed all the same.
        costMinor: idea.id === 'bleed' ? 0 : cost(after) - cost(before),
        personMinutes: hands(after) - hands(before) + idea.extraMinutes,
        stiffness: stiffnessRatio(build, library, idea),
        sideEffects: idea.sideEffects,
        build: idea.ofMethod ? null : idea.build,
      };
    })
    .filter((option) => option.massKg < -0.005)
    .sort((a, b) => a.massKg - b.massKg || (a.id < b.id ? -1 : 1));
}

/** Worst zone, mean of both directions. */
function stiffnessRatio(build: FullBuild, library: Library, idea: LighterCandidate): number | null {
  const bending = (zones: readonly PartZone[], rows: Library): (number | null)[] => {
    const matrix = resinOf(rows, build.resin.system).curedDensityKgM3;
    return zones.map((zone) => {
      const plate = zoneStiffness(stackOf(zone, rows, matrix));
      return plate && (plate.dx + plate.dy) / 2;
    });
  };
  const [was, is] = [
    bending(build.part.zones, library),
    bending(idea.build.part.zones, idea.library),
  ];
  let worst = Infinity;
  for (let i = 0; i < was.length; i++) {
    const [a, b] = [was[i] ?? null, is[i] ?? null];
    if (a === null || b === null) return null;
    worst = Math.min(worst, b / a);
  }
  return worst;
}

const withZones = (build: FullBuild, change: (zone: PartZone) => PartZone): FullBuild => ({
  ...build,
  part: { ...build.part, zones: build.part.zones.map(change) },
});

/** Ways of working that leave less resin in the cloth: more fibre by volume, up to what hands reach. */
function lessResin(build: FullBuild, library: Library): LighterCandidate[] {
  if (processOf(build) !== 'bagged') return [];
  const practice = practiceOf(library);
  const most = practice('fibre-fraction-hand-max');
  const plyAreaM2 = measurePart(build, library).layups.reduce((sum, l) => sum + l.plyAreaM2, 0);
  const richer = (gain: number): Library => ({
    ...library,
    cloths: library.cloths.map((cloth) => {
      if (cloth.weave === 'veil' || cloth.fibreFraction >= most) return cloth;
      return { ...cloth, fibreFraction: Math.min(most, cloth.fibreFraction + gain) };
    }),
  });
  return [
    {
      id: 'film-wet-out',
      ...LIGHTER_WORDS.filmWetOut,
      build,
      library: richer(practice('fibre-fraction-film-gain')),
      extraMinutes: plyAreaM2 * practice('film-wet-out-minutes-per-m2'),
      ofMethod: true,
    },
    {
      id: 'bleed',
      ...LIGHTER_WORDS.bleed,
      build,
      library: richer(practice('fibre-fraction-bleed-gain')),
      extraMinutes: 0,
      ofMethod: true,
    },
  ];
}

/** Core without open kerfs. */
function closedCore(build: FullBuild, library: Library): LighterCandidate[] {
  const open = build.part.zones.some(
    ({ core }) => core?.treatment === 'scored' || core?.treatment === 'grooved',
  );
  if (!open) return [];
  return [
    {
      id: 'core-drilled',
      ...LIGHTER_WORDS.drilledCore,
      build: withZones(build, (zone) =>
        zone.core ? { ...zone, core: { ...zone.core, treatment: 'drilled' } } : zone,
      ),
      library,
      extraMinutes: 0,
      ofMethod: false,
    },
  ];
}

/** For the core that weighs most in the part: every lighter one that takes the same use. */
function lighterCores(build: FullBuild, library: Library): LighterCandidate[] {
  const own = heaviestCore(build, library);
  if (!own) return [];
  const replaces = (row: CoreRow): boolean =>
    row.densityKgM3 < own.densityKgM3 &&
    row.maxC >= hottestC(build) &&
    row.maxVacuumKPa >= own.maxVacuumKPa &&
    (row.takesStyrene || !own.takesStyrene);
  return library.cores.filter(replaces).map((row) => ({
    id: `core-${row.id}`,
    ...otherCoreWords(row, own),
    build: withZones(build, (zone) =>
      zone.core?.material === own.id ? { ...zone, core: { ...zone.core, material: row.id } } : zone,
    ),
    library,
    extraMinutes: 0,
    ofMethod: false,
  }));
}

function heaviestCore(build: FullBuild, library: Library): CoreRow | undefined {
  const masses = library.cores.map((row) => ({
    row,
    kg: build.part.zones.reduce((sum, { core, areaM2 }) => {
      const own =
        core?.material === row.id ? (areaM2 * core.thicknessMm * row.densityKgM3) / 1000 : 0;
      return sum + own;
    }, 0),
  }));
  return masses.filter(({ kg }) => kg > 0).toSorted((a, b) => b.kg - a.kg)[0]?.row;
}

function hottestC(build: FullBuild): number {
  return Math.max(build.part.serviceMaxC, ...build.outside.flatMap((party) => party.bakeC ?? []));
}

/** The next thinner core that is stocked. */
function thinnerCore(build: FullBuild, library: Library): LighterCandidate[] {
  const byId = new Map(library.cores.map((row) => [row.id, row]));
  const thinner = (zone: PartZone): PartZone => {
    if (!zone.core) return zone;
    const stocked = byId.get(zone.core.material)?.thicknessesMm ?? [];
    const next = stocked.filter((t) => t < zone.core!.thicknessMm).toSorted((a, b) => b - a)[0];
    return next === undefined ? zone : { ...zone, core: { ...zone.core, thicknessMm: next } };
  };
  const changed = withZones(build, thinner);
  return changed.part.zones.some((zone, i) => zone !== build.part.zones[i])
    ? [
        {
          id: 'core-thinner',
          ...LIGHTER_WORDS.thinnerCore,
          build: changed,
          library,
          extraMinutes: 0,
          ofMethod: false,
        },
      ]
    : [];
}

/** One ply less wherever a skin has more than one. */
function fewerPlies(build: FullBuild, library: Library): LighterCandidate[] {
  const sides = [
    { side: 'outer', said: LIGHTER_WORDS.fewerOuterPlies },
    { side: 'inner', said: LIGHTER_WORDS.fewerInnerPlies },
  ] as const;
  return sides.flatMap(({ side, said }) =>
    build.part.zones.some((zone) => zone[side].length > 1)
      ? [
          {
            id: `fewer-${side}`,
            ...said,
            build: withZones(build, (zone) =>
              zone[side].length > 1 ? { ...zone, [side]: zone[side].slice(0, -1) } : zone,
            ),
            library,
            extraMinutes: 0,
            ofMethod: false,
          },
        ]
      : [],
  );
}
