/** Where the figures of the part come from, for the slip that opens from each. */
import { practiceOf, resinOf } from '../../document/library.ts';
import type { FullBuild, Library } from '../../document/schema.ts';
import type { PlanOutcome } from '../../plan/outcome.ts';
import type { ZoneDetail } from '../../part/detail.ts';
import type { PanelCheck } from '../../part/panel.ts';
import type { PlateStiffness } from '../../part/plate.ts';
import { FIBRE_SHARE, processOf } from '../../part/process.ts';
import { stackOf, type ZoneStack } from '../../part/stack.ts';
import { angleWords } from '../plyDrawing.ts';
import { formatBoth } from '../../units/convert.ts';
import { figure, percent, exact } from '../../units/words.ts';
import type { WeightState } from '../../part/weight.ts';
import { togetherRows, weighedRows } from './totals.ts';
import {
  MIXTURES,
  practiceOrigin,
  provenanceWords,
  type Origin,
  type OriginRow,
} from './origin.ts';
import { decimals } from '../../units/formats.ts';

type CoreShear = NonNullable<PanelCheck['coreShear']>;

export const stackAt = ({ detail }: PlanOutcome, zone: number): ZoneStack => {
  const { build, library } = detail;
  const matrixKgM3 = resinOf(library, build.resin.system).curedDensityKgM3;
  return stackOf(build.part.zones[zone]!, library, matrixKgM3);
};

export function thicknessOrigin(stack: ZoneStack): Origin {
  const plies = stack.plies
    .filter((ply) => ply.whole)
    .map(({ cloth, angleDeg, thicknessMm }) => ({
      name: `${cloth.name}, ${angleWords(angleDeg)}`,
      value: `${decimals(thicknessMm, 2)} mm`,
      from: provenanceWords(cloth.provenance),
    }));
  const core = stack.core
    ? [
        {
          name: stack.core.row.name,
          value: `${figure(stack.core.thicknessMm)} mm`,
          from: 'typed',
        },
      ]
    : [];
  return {
    formula:
      'Ply thickness = cloth weight / (fibre density × fibre fraction); all whole plies and the core added up.',
    rows: [...plies, ...core],
    source: MIXTURES,
  };
}

export function fibreOrigin(stack: ZoneStack, build: FullBuild, library: Library): Origin {
  const process = processOf(build);
  const cloths = new Map(stack.plies.map(({ cloth }) => [cloth.id, cloth]));
  return {
    formula: 'Fibre fraction of a skin = fibre volume / laminate volume, core left out.',
    rows: [
      ...[...cloths.values()].map((cloth) => ({
        name: cloth.name,
        value: percent(cloth.fibreFraction),
        from: provenanceWords(cloth.provenance),
      })),
      ...(process === 'bagged' ? [] : [practiceOrigin(library, FIBRE_SHARE[process])]),
      practiceOrigin(library, 'fibre-fraction-hand-min'),
      practiceOrigin(library, 'fibre-fraction-hand-max'),
    ],
    source: MIXTURES,
  };
}

/** Usual range under a bag by hand, as in `30 to 50 %`. */
export function usualFibre(library: Library): string {
  const practice = practiceOf(library);
  const [low, high] = [practice('fibre-fraction-hand-min'), practice('fibre-fraction-hand-max')];
  return `${Math.round(low * 100)} to ${percent(high)}`;
}

export const COMPONENTS = [
  { key: 'fibre', name: 'Fibre' },
  { key: 'resin', name: 'Resin in plies' },
  { key: 'core', name: 'Core' },
  { key: 'coreResin', name: 'Resin in core' },
] as const;
export type Component = (typeof COMPONENTS)[number]['key'];

/** One component of the areal mass of a zone. */
export function componentOrigin(key: Component, stack: ZoneStack): Origin {
  const { plies, core, zone } = stack;
  const cover = (areaM2: number): string =>
    areaM2 >= zone.areaM2 ? '' : ` on ${percent(areaM2 / zone.areaM2)} of the zone`;
  if (key === 'fibre' || key === 'resin') {
    return {
      formula:
        key === 'fibre'
          ? 'Cloth weight of every ply, by the share of the zone that it covers.'
          : 'Resin of a ply = thickness × (1 − fibre fraction) × density of the cured resin.',
      rows: plies.map((ply) => ({
        name: `${ply.cloth.name}${cover(ply.areaM2)}`,
        value: `${Math.round(key === 'fibre' ? ply.fibreGM2 : ply.resinGM2)} g/m²`,
        from: provenanceWords(ply.cloth.provenance),
      })),
      source: MIXTURES,
    };
  }
  if (!core) return { formula: 'There is no core.', rows: [], source: '' };
  const from = provenanceWords(core.row.provenance);
  if (key === 'core') {
    return {
      formula: 'Core = density × thickness.',
      rows: [
        { name: core.row.name, value: `${core.row.densityKgM3} kg/m³`, from },
        { name: 'Thickness', value: `${figure(core.thicknessMm)} mm`, from: 'typed' },
      ],
      source: 'Definition of density.',
    };
  }
  return {
    formula: 'What the two bonded faces and open kerfs drink, by the treatment of the core.',
    rows: [
      { name: 'Mould side and kerfs', value: `${exact(core.outerUptakeGM2)} g/m²`, from },
      { name: 'Under the inner skin', value: `${exact(core.innerUptakeGM2)} g/m²`, from },
    ],
    source: 'Common practice, no source.',
  };
}

export const arealOf = (detail: ZoneDetail): number =>
  COMPONENTS.reduce((sum, { key }) => sum + detail.arealGM2[key], 0);

export function arealOrigin(detail: ZoneDetail): Origin {
  return {
    formula: 'Areal mass = fibre + resin + core + resin taken by the core, over the zone’s area.',
    rows: COMPONENTS.map(({ key, name }) => ({
      name,
      value: formatBoth(detail.arealGM2[key], 'arealGM2'),
    })),
    source: `${MIXTURES} Overlaps, closeout, fairing and paint are in the part’s weight, not here.`,
  };
}

/** The part's weight in one of the states in which it can be weighed. */
export function stateOrigin({ detail }: PlanOutcome, state: WeightState): Origin {
  const spreads =
    state === 'shell' ? ['hand-resin-spread'] : ['hand-resin-spread', 'fairing-spread'];
  return {
    formula:
      'The components added up over all zones, overlaps included; the light and heavy end by the ' +
      'spread of hand work, all zones the same way.',
    rows: [
      ...togetherRows(weighedRows(detail.weight, state)),
      ...spreads.map((id) => practiceOrigin(detail.library, id)),
    ],
    source: MIXTURES,
  };
}

const PLATE_SOURCE =
  'Classical laminate theory: Jones, Mechanics of Composite Materials (1999), from memory; core shear ' +
  'after Allen, Analysis and Design of Structural Sandwich Panels (1969).';

/** Bending stiffness by width along and across the 0 line. */
export function bendingOrigin(stack: ZoneStack, plate: PlateStiffness): Origin {
  return {
    formula:
      'D = the plies’ and the core’s stiffness, each by its distance from the neutral plane squared, ' +
      'added up through the thickness.',
    rows: [
      ...stack.plies
        .filter((ply) => ply.whole)
        .map(({ cloth, angleDeg, thicknessMm }) => ({
          name: `${cloth.name}, ${angleWords(angleDeg)}, ${decimals(thicknessMm, 2)} mm`,
          value: `E ${cloth.e1GPa} / ${cloth.e2GPa} GPa`,
          from: provenanceWords(cloth.provenance),
        })),
      ...shearRows(stack),
      { name: 'Along the 0 line', value: `${figure(plate.dx / 1000)} N·m`, from: 'result' },
      { name: 'Across it', value: `${figure(plate.dy / 1000)} N·m`, from: 'result' },
      {
        name: 'Twisting as it bends (D16 / D26)',
        value: `${figure(plate.dxs / 1000)} / ${figure(plate.dys / 1000)} N·m`,
        from: 'result',
      },
    ],
    source: PLATE_SOURCE,
  };
}

function shearRows({ core }: ZoneStack): OriginRow[] {
  if (!core) return [];
  const { shearModulusMPa: modulus } = core.row;
  return [
    {
      name: `${core.row.name}, ${figure(core.thicknessMm)} mm`,
      value: modulus === null ? '–' : `G ${exact(modulus)} MPa`,
      from: provenanceWords(core.row.provenance),
    },
  ];
}

export function shearOrigin(stack: ZoneStack): Origin {
  return {
    formula:
      'Core shear stiffness by width = d² G / c; d between the middles of the skins, c the core.',
    rows: shearRows(stack),
    source: PLATE_SOURCE,
  };
}

export function coreShearOrigin(
  { detail }: PlanOutcome,
  stack: ZoneStack,
  { stressMPa, strengthMPa }: CoreShear,
): Origin {
  const row = stack.core!.row;
  return {
    formula:
      'Shear = load / (4 × side × d): the hand on a square, carried off through the core all round; ' +
      'd between the middles of the skins.',
    rows: [
      practiceOrigin(detail.library, 'hand-load-n'),
      practiceOrigin(detail.library, 'hand-side-mm'),
      {
        name: `${row.name}, shear strength`,
        value: `${figure(strengthMPa)} MPa`,
        from: provenanceWords(row.provenance),
      },
      { name: 'Share of the strength', value: percent(stressMPa / strengthMPa), from: 'result' },
    ],
    source: 'Equilibrium of the loaded square; common practice, no source.',
  };
}
