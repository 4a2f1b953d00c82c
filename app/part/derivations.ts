/** Where the part's figures come from: formula, inputs with their origin, source of the formula. */
import { DERIVATION_WORDS as W } from '../messages/derivations.ts';
import { mouldOf, practiceOf, releaseOf } from '../document/library.ts';
import type {
  FullBuild,
  Library,
  PartZone,
  PracticeRow,
  Provenance,
  StageKind,
} from '../document/schema.ts';
import { familiarityFactor, finishingRounds } from './labour.ts';
import { panelCheck } from './panel.ts';
import type { PartResult } from './types.ts';

export interface Input {
  readonly name: string;
  readonly value: number;
  readonly unit: string;
  /** null: typed in the document, or worked out from it. */
  readonly provenance: Provenance | null;
}

export interface Derivation {
  readonly formula: string;
  readonly inputs: readonly Input[];
  readonly results: readonly { name: string; value: number; unit: string }[];
  readonly source: string;
}

const typed = (name: string, value: number, unit: string): Input => ({
  name,
  value,
  unit,
  provenance: null,
});

/** @throws MissingRow */
function practiceInput(library: Library, id: string): Input {
  const value = practiceOf(library)(id);
  const { name, unit, provenance }: PracticeRow = library.practice.find((row) => row.id === id)!;
  return { name, value, unit, provenance };
}

/** Person-minutes of a stage kind. @throws MissingRow */
export function explainWork(
  kind: StageKind,
  build: FullBuild,
  library: Library,
  part: PartResult,
): Derivation {
  const work = part.workFor(kind);
  const derived = {
    results: [{ name: W.handsOn, value: work.personMinutes, unit: 'min' }],
    source: work.provenance.source,
  };
  if (kind === 'fair' || kind === 'prime') {
    const rounds = finishingRounds(build, library).filter(({ row }) => row.stage === kind);
    const formula = W.rounds;
    const inputs = rounds.map(({ row, personMinutes }) => ({
      name: row.name,
      value: personMinutes,
      unit: 'min',
      provenance: row.provenance,
    }));
    return { formula, inputs, ...derived };
  }
  if (kind === 'layup') {
    const inputs = part.layups.map((layup) => typed(layup.name, layup.personMinutes, 'min'));
    return { formula: W.layups, inputs, ...derived };
  }
  const formula = W.work;
  const inputs = [
    ...rateInputs(kind, library),
    ...coatInputs(kind, build, library),
    typed(W.area, part.areaM2, 'm²'),
    typed(W.edge, part.edgeM, 'm'),
    typed(W.familiarity, familiarityFactor(build, library), 'times'),
  ];
  return { formula, inputs, ...derived };
}

function rateInputs(kind: StageKind, library: Library): Input[] {
  const row = library.labour.find((one) => one.stage === kind);
  if (!row) return [];
  const { provenance } = row;
  return [
    { name: W.setUp, value: row.setupMinutes, unit: 'min', provenance },
    { name: W.perM2, value: row.minutesPerM2, unit: 'min/m²', provenance },
    { name: W.perPlyM2, value: row.minutesPerPlyM2, unit: 'min/m²', provenance },
    { name: W.perEdgeM, value: row.minutesPerEdgeM, unit: 'min/m', provenance },
  ].filter((input) => input.value > 0);
}

/** Sealing and release go by coats as well. */
function coatInputs(kind: StageKind, build: FullBuild, library: Library): Input[] {
  const coat = (
    name: string,
    coats: number,
    minutesPerM2: number,
    provenance: Provenance,
  ): Input[] => [
    { name: W.coatsOf(name), value: coats, unit: '', provenance },
    { name: W.perCoatM2, value: minutesPerM2, unit: 'min/m²', provenance },
  ];
  if (kind === 'seal') {
    const row = mouldOf(library, build.mould.material);
    return coat(W.sealer, row.sealCoats, row.sealMinutesPerM2, row.provenance);
  }
  if (kind === 'release') {
    const row = releaseOf(library, build.mould.release);
    return coat(W.release, row.coats, row.minutesPerM2, row.provenance);
  }
  return [];
}

/** Deflection of a zone under a hand; null when a modulus is unknown. @throws MissingRow */
export function explainPanel(
  zone: PartZone,
  build: FullBuild,
  library: Library,
): Derivation | null {
  const check = panelCheck(zone, build, library);
  if (!check) return null;
  return {
    formula: W.panel,
    inputs: [
      typed(W.longSide, Math.max(...check.sidesMm), 'mm'),
      typed(W.shortSide, Math.min(...check.sidesMm), 'mm'),
      practiceInput(library, `panel-share-${zone.shape}`),
      practiceInput(library, 'hand-load-n'),
      practiceInput(library, 'hand-side-mm'),
      practiceInput(library, 'block-pressure-kpa'),
      practiceInput(library, 'deflection-limit-mm'),
    ],
    results: [
      ...(check.hand
        ? [
            { name: W.handBending, value: check.hand.bendingMm, unit: 'mm' },
            { name: W.handShear, value: check.hand.shearMm, unit: 'mm' },
          ]
        : []),
      ...(check.block ? [{ name: W.block, value: check.block.totalMm, unit: 'mm' }] : []),
      { name: W.theoryEnds, value: check.theoryMm, unit: 'mm' },
      ...(check.coupling > 1
        ? [
            {
              name: W.coupling,
              value: check.coupling,
              unit: '×',
            },
          ]
        : []),
    ],
    source: W.panelSource,
  };
}
