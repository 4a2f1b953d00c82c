import { expect, it } from 'vitest';
import { stackOfCure, type StackOfCure } from '../../../app/cure/stack-of-cure.ts';
import type { Layup } from '../../../app/part/types.ts';

const layup = (more: Partial<Layup>): Layup => ({
  id: 'skin',
  name: 'Outer skin',
  place: 'chain',
  areaM2: 2,
  plyAreaM2: 4,
  plies: 2,
  edgeM: 6,
  mixedG: 1200,
  personMinutes: 60,
  peopleMin: 1,
  peopleMax: 2,
  hasCore: false,
  vertical: false,
  thicknessMm: 1,
  ...more,
});
const cure = (more: Partial<StackOfCure>): StackOfCure => ({
  wet: [],
  under: [],
  core: { name: 'foam', thicknessMm: 20, densityKgM3: 80, maxC: 75 },
  mould: { name: 'board', maxC: 70 },
  fibreFraction: 0.45,
  fibreDensityKgM3: 1800,
  resinDensityKgM3: 1200,
  ...more,
});

it('lies from the bag down: last layup, core on its bond line, what had cured before, mould', () => {
  const parts = stackOfCure(
    cure({
      wet: [
        layup({ id: 'core', name: 'Core', hasCore: true }),
        layup({ id: 'inner', name: 'Inner skin' }),
      ],
      under: [layup({})],
    }),
  );
  expect(parts.map((part) => [part.kind, part.name])).toEqual([
    ['laminate', 'Inner skin'],
    ['core', 'foam'],
    ['laminate', 'Core'],
    ['laminate', 'Outer skin'],
    ['mould', 'board'],
  ]);
  // 1200 g over 2 m2 at 1200 kg/m3 is half a millimetre.
  expect(parts[2]).toMatchObject({ thicknessMm: 0.5, fibreFraction: 0, wet: true });
  expect(parts[3]).toMatchObject({ wet: false });
});

it('stands without a mould once it has left it, and leaves empty layups out', () => {
  const parts = stackOfCure(cure({ wet: [layup({ thicknessMm: 0 }), layup({})], mould: null }));
  expect(parts.map((part) => part.kind)).toEqual(['laminate']);
});
