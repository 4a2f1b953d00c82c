/** What lies over the mould while one cure runs, from the bag down. */
import type { Layup } from '../part/types.ts';
import type { StackPart } from './stack.ts';

export interface StackOfCure {
  /** Layups of this cure, in the order in which they were laid. */
  readonly wet: readonly Layup[];
  /** Layups that had cured under them before, in the same order. */
  readonly under: readonly Layup[];
  readonly core: {
    readonly name: string;
    readonly thicknessMm: number;
    readonly densityKgM3: number;
    readonly maxC: number;
  } | null;
  /** Null for a part that has left its mould. */
  readonly mould: { readonly name: string; readonly maxC: number } | null;
  readonly fibreFraction: number;
  readonly fibreDensityKgM3: number;
  readonly resinDensityKgM3: number;
}

/** A layup with core is the core on a bond line as thick as the resin mixed for it. */
export function stackOfCure(cure: StackOfCure): StackPart[] {
  const downwards = [
    ...[...cure.wet].reverse().flatMap((layup) => partsOf(layup, true, cure)),
    ...[...cure.under].reverse().flatMap((layup) => partsOf(layup, false, cure)),
  ];
  return cure.mould ? [...downwards, { kind: 'mould', ...cure.mould }] : downwards;
}

function partsOf(layup: Layup, wet: boolean, cure: StackOfCure): StackPart[] {
  const { fibreFraction, fibreDensityKgM3, resinDensityKgM3, core } = cure;
  const laminate = (thicknessMm: number, fraction: number): StackPart => ({
    kind: 'laminate',
    name: layup.name,
    thicknessMm,
    fibreFraction: fraction,
    fibreDensityKgM3,
    resinDensityKgM3,
    wet,
  });
  if (!layup.hasCore || !core) {
    return layup.thicknessMm > 0 ? [laminate(layup.thicknessMm, fibreFraction)] : [];
  }
  const bondMm = layup.areaM2 > 0 ? layup.mixedG / layup.areaM2 / resinDensityKgM3 : 0;
  const foam: StackPart = { kind: 'core', ...core };
  return bondMm > 0 ? [foam, laminate(bondMm, 0)] : [foam];
}
