/** Where each row of the part's weight comes from. */
import { zonesFinished } from '../../document/finish.ts';
import { finishingRounds, type FinishingRound } from '../../part/labour.ts';
import { massByZone, type ZoneMass } from '../../part/measure.ts';
import type { WeightId } from '../../part/weight.ts';
import type { PlanDetail, PlanOutcome } from '../../plan/outcome.ts';
import { massWords } from '../../units/summed.ts';
import { figure } from '../../units/words.ts';
import {
  MIXTURES,
  practiceOrigin,
  provenanceWords,
  type Origin,
  type OriginRow,
} from './origin.ts';

const FORMULAS: Readonly<Record<WeightId, string>> = {
  fibre: 'Cloth weight × area of every ply with its overlaps, added up over the zones and inserts.',
  resin:
    'Resin of a ply = thickness × (1 − fibre fraction) × density of the cured resin; × area, with overlaps.',
  core: 'Density × thickness × area of the core, added up over the zones.',
  coreResin: 'What the bonded faces and open kerfs drink per m² × area of the core.',
  closeout:
    'Strips: width × edge × weight of the laid ply. Edge: filler or potting per metre that is rebated.',
  fairing: 'Weight per m² of each round × area that is faired.',
  routeFiller: 'Filler that prints, slides and ridges of this route ask for, each by its chance.',
  paint: 'Weight per m² of each round and coat × area that is painted.',
};

const isOfShell = (id: WeightId): id is keyof ZoneMass =>
  id === 'fibre' || id === 'resin' || id === 'core' || id === 'coreResin';

/**
 * How a row of the weight comes to what it is.
 * @param route the route that is weighed; its filler is its own
 */
export function weightOrigin(outcome: PlanOutcome, id: WeightId, route: string): Origin {
  const rows = isOfShell(id) ? zoneRows(outcome.detail, id) : OTHERS[id](outcome, route);
  const source = isOfShell(id) || id === 'closeout' ? MIXTURES : 'Common practice, no source.';
  return { formula: FORMULAS[id], rows, source };
}

const kilograms = (massKg: number): string => `= ${massWords(massKg)}`;

const zoneRows = ({ build, library }: PlanDetail, id: keyof ZoneMass): OriginRow[] =>
  massByZone(build, library).map((mass, i) => ({
    name: `${build.part.zones[i]!.name}, ${figure(build.part.zones[i]!.areaM2)} m²`,
    value: kilograms(mass[id]),
  }));

type Rows = (outcome: PlanOutcome, route: string) => OriginRow[];
const OTHERS: Readonly<Record<Exclude<WeightId, keyof ZoneMass>, Rows>> = {
  closeout: ({ detail: { build, library } }) => [
    ...build.part.zones.flatMap(({ name, closeout, edgeM }) =>
      closeout
        ? [
            {
              name,
              value: `${closeout.widthMm} mm × ${figure(edgeM)} m, ${closeout.plies.length} ply`,
            },
          ]
        : [],
    ),
    practiceOrigin(library, build.part.edge?.rim ? 'rim-density' : 'edge-filler-kg-m'),
    practiceOrigin(library, 'closeout-fibre-fraction'),
  ],
  fairing: ({ detail }) => roundRows(detail, 'fair'),
  paint: ({ detail }) => [
    ...roundRows(detail, 'prime'),
    ...(zonesFinished(detail.build, ['painted']).length > 0
      ? [
          practiceOrigin(detail.library, 'paint-kg-m2'),
          practiceOrigin(detail.library, 'surfaces-painted'),
        ]
      : []),
  ],
  routeFiller: ({ detail }, route) =>
    detail.routes[route]!.price.filter(({ fillerKg }) => fillerKg > 0).map(
      ({ name, fillerKg }) => ({ name, value: kilograms(fillerKg) }),
    ),
};

const roundRows = ({ build, library }: PlanDetail, stage: 'fair' | 'prime'): OriginRow[] =>
  finishingRounds(build, library)
    .filter(({ row, massKg }) => row.stage === stage && massKg > 0)
    .map((round) => ({
      name: roundName(round),
      value: kilograms(round.massKg),
      from: provenanceWords(round.row.provenance),
    }));

const roundName = ({ row, lift, lifts }: FinishingRound): string =>
  lifts > 1 ? `${row.name}, lift ${lift}` : row.name;
