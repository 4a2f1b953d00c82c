/** The deepest hollow filled: by which filler of the library, in how many lifts, with how many nights. */
import { finishOf } from '../document/finish.ts';
import { practiceIf } from '../document/library.ts';
import type { ConsumableRow, FullBuild, Library } from '../document/schema.ts';

type Filling = NonNullable<ConsumableRow['filling']>;

/** One filler as it would fill the hollow. */
export interface FillWay {
  readonly row: ConsumableRow;
  readonly filling: Filling;
  readonly lifts: number;
  /** Work, material and mass of a later lift against the first. */
  readonly laterShare: number;
  /** Waits at 20 C, all lifts together, h. */
  readonly waitHours: number;
  /** Lifts that need the night to harden. */
  readonly nights: number;
  /** Work and material over those of one lift, minor units. */
  readonly costMinor: number;
  /** What it may not lie under on this part; null: it may be taken. */
  readonly refused: Filling['notUnder'][number] | null;
}

/** A lift that hardens within so many hours is sanded on its own day. */
const SAME_DAY_HOURS = 4;

/** Depth of the deepest hollow to fill, mm; null: the build fills as its rounds say. */
export const deepestFillMm = ({ part }: Pick<FullBuild, 'part'>, library: Library): number | null =>
  part.deepestFillMm ?? practiceIf(library, 'fill-deepest-mm');

/**
 * Every filler with a lift of its own, the one to take first: the least of work, material and nights, those
 * that may not lie under what comes after them last. Empty where the library or the build has none.
 */
export function fillWays(build: FullBuild, library: Library): FillWay[] {
  const deepestMm = deepestFillMm(build, library);
  const share = practiceIf(library, 'fill-later-lift-share');
  const night = practiceIf(library, 'fill-night-minor');
  const hourMinor = practiceIf(library, 'labour-minor-per-h') ?? 0;
  const round = library.finishing.find((row) => row.fills);
  if (deepestMm === null || share === null || night === null || !round) return [];
  const areaM2 = build.part.zones.reduce((sum, zone) => sum + zone.areaM2, 0);
  return library.consumables
    .flatMap((row): FillWay[] => {
      const { filling } = row;
      if (row.use !== 'filler' || !filling) return [];
      const lifts = Math.max(1, Math.ceil(deepestMm / filling.liftMm - 1e-9));
      const waitHours = (lifts - 1) * filling.cureHours + filling.sandAfterHours;
      const nights =
        (lifts - 1) * Number(filling.cureHours > SAME_DAY_HOURS) +
        Number(filling.sandAfterHours > SAME_DAY_HOURS);
      const times = 1 + share * (lifts - 1);
      const hours = ((round.setupMinutes + round.minutesPerM2 * areaM2) / 60) * times;
      const kg = row.perM2 * areaM2 * times;
      const costMinor = hours * hourMinor + kg * (row.priceMinor ?? 0) + nights * night;
      return [
        {
          row,
          filling,
          lifts,
          laterShare: share,
          waitHours,
          nights,
          costMinor,
          refused: refusedBy(filling, row, build),
        },
      ];
    })
    .sort(
      (a, b) =>
        Number(a.refused !== null) - Number(b.refused !== null) ||
        a.costMinor - b.costMinor ||
        (a.row.id < b.row.id ? -1 : 1),
    );
}

/** The way that is planned; null where no filler with a lift may be taken. */
export function fillWayOf(build: FullBuild, library: Library): FillWay | null {
  const [first] = fillWays(build, library);
  return first && first.refused === null ? first : null;
}

/** The first thing after it that it may not lie under. */
function refusedBy(
  { notUnder }: Filling,
  { standsC }: ConsumableRow,
  build: FullBuild,
): Filling['notUnder'][number] | null {
  const baked = build.outside.some(
    ({ kind, bakeC }) => kind !== 'machining' && bakeC !== null && bakeC > (standsC ?? 0),
  );
  const painted = build.part.zones.some((zone) => finishOf(build, zone) === 'painted');
  return (
    notUnder.find((what) => (what === 'bake' && baked) || (what === 'seen-paint' && painted)) ??
    null
  );
}
