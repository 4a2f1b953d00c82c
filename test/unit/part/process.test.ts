import { describe, expect, it } from 'vitest';
import { filledIn } from '../../../app/document/assume.ts';
import type { Build, Library, Process } from '../../../app/document/schema.ts';
import { bagStack } from '../../../app/part/bag-stack.ts';
import { measurePart } from '../../../app/part/measure.ts';
import { libraryFor } from '../../../app/part/process.ts';
import type { LayupId } from '../../../app/part/types.ts';
import { stackOf } from '../../../app/part/stack.ts';
import { library, smallBuild } from '../../support/builds.ts';

const laid = (process?: Process): Build => {
  const small = smallBuild();
  return process ? { ...small, part: { ...small.part, process } } : small;
};
const partOf = (process?: Process, rows: Library = library()) => {
  const build = filledIn(laid(process));
  const own = libraryFor(build, rows);
  const part = measurePart(build, own);
  return { build, own, part, kit: new Map(part.kitFor(3, 9).map((line) => [line.id, line])) };
};
const bagged = partOf();

describe('how cloth gets its resin', () => {
  it('is wet under a bag where nothing is said, and picking that changes no figure', () => {
    const picked = partOf('bagged');
    expect(picked.part.massKg).toEqual(bagged.part.massKg);
    expect([...picked.kit]).toEqual([...bagged.kit]);
    expect(picked.part.layups).toEqual(bagged.part.layups);
  });

  it('by hand holds more resin, is thicker and heavier, and takes peel ply but no bag', () => {
    const hand = partOf('hand');
    expect(hand.part.massKg.fibre).toBe(bagged.part.massKg.fibre);
    expect(hand.part.massKg.resin).toBeGreaterThan(1.5 * bagged.part.massKg.resin);
    const [thick, thin] = [hand, bagged].map(({ part }) => part.zones[0]!.skinsMm.outer);
    expect(thick! / thin!).toBeCloseTo(1 / 0.667, 3);
    expect(hand.kit.get('peel-ply-85')).toEqual(bagged.kit.get('peel-ply-85'));
    for (const id of ['release-film-p', 'breather-150', 'bag-film-50', 'sealant-tape-12']) {
      expect(bagged.kit.has(id), id).toBe(true);
      expect(hand.kit.has(id), id).toBe(false);
    }
  });

  it('infused takes mesh, lines and two bags, no breather, and the resin that they hold', () => {
    const infused = partOf('infused');
    expect(infused.part.massKg.resin).toBeLessThan(bagged.part.massKg.resin);
    expect(infused.kit.has('breather-150')).toBe(false);
    expect(infused.kit.get('flow-mesh-70')!.quantity).toBeGreaterThan(0);
    expect(infused.kit.get('infusion-lines')!.unit).toBe('m');
    for (const id of ['flow-mesh-70', 'infusion-lines']) expect(bagged.kit.has(id)).toBe(false);
    const film = [infused, bagged].map(({ kit }) => kit.get('bag-film-50')!.quantity);
    expect(film[0]! / film[1]!).toBeCloseTo(2, 1);
    const mixed = ({ part }: typeof bagged) =>
      part.layups.reduce((sum, layup) => sum + layup.mixedG, 0);
    expect(mixed(infused)).toBeGreaterThan(mixed(bagged));
    const setUp = ({ part }: typeof bagged) =>
      part.workUnder('lay-dry', [part.layups[0]!]).personMinutes;
    expect(setUp(infused)).toBeGreaterThan(40);
    expect(infused.part.layups.map(({ id, infused }) => (infused ? id : '')).join('')).toBe(
      'skininner',
    );
    expect(bagged.part.layups.some(({ infused }) => infused)).toBe(false);
  });

  it('bags the strips of an infused part by hand: breather over them, no mesh', () => {
    const small = smallBuild();
    const zone = { ...small.part!.zones[0]!, closeout: { plies: [{ cloth: 'carbon-twill-200' }] } };
    const build = filledIn({ ...small, part: { process: 'infused', zones: [zone] } });
    const own = libraryFor(build, library());
    const part = measurePart(build, own);
    const kinds = (...inBag: LayupId[]) =>
      bagStack(build, own, part, inBag).layers.map(({ kind }) => kind);
    expect(kinds('skin')).toContain('mesh');
    expect(kinds('skin')).not.toContain('breather');
    expect(kinds('closeout')).toContain('breather');
    expect(kinds('closeout')).not.toContain('mesh');
    const kit = new Map(part.kitFor(2, 2).map((line) => [line.id, line.quantity]));
    const strips = part.layups.find(({ id }) => id === 'closeout')!;
    const row = own.consumables.find(({ id }) => id === 'breather-150')!;
    const breatherM2 = row.perM2 * strips.areaM2 + row.perEdgeM * strips.edgeM + row.fixed;
    // Rounded up to a tenth.
    expect(kit.get('breather-150')! - breatherM2).toBeGreaterThanOrEqual(0);
    expect(kit.get('breather-150')! - breatherM2).toBeLessThan(0.1);
    // One bag in the mould, two films over it; one over the strips.
    const film = own.consumables.find(({ id }) => id === 'bag-film-50')!;
    const over = (areaM2: number, edgeM: number) =>
      film.perM2 * areaM2 + film.perEdgeM * edgeM + film.fixed;
    const filmM2 = 2 * over(part.areaM2, part.edgeM) + over(strips.areaM2, strips.edgeM);
    expect(kit.get('bag-film-50')! / filmM2).toBeCloseTo(1, 1);
  });

  it('leaves a fraction that the shop measured, and a mat, as they are', () => {
    const rows: Library = {
      ...library(),
      cloths: library().cloths.map((row) => ({
        ...row,
        ...(row.fibre === 'glass'
          ? { provenance: { kind: 'measured' as const, source: 'test panel' } }
          : { weave: 'chopped mat' }),
      })),
    };
    expect(partOf('hand', rows).own.cloths).toEqual(rows.cloths);
  });

  it('says no panel stiffer by hand for being thicker', () => {
    const skins = (process: Process) => {
      const { build, own } = partOf(process);
      return stackOf(build.part.zones[0]!, own, 1180).plies.map(
        ({ thicknessMm, cloth }) => thicknessMm * (cloth.e1GPa ?? 0),
      );
    };
    const [hand, wet] = [skins('hand'), skins('bagged')];
    hand.forEach((one, i) => expect(one).toBeLessThanOrEqual(wet[i]! * 1.001));
  });
});
