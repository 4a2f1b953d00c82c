import { describe, expect, it } from 'vitest';
import { librarySchema, type Library } from '../../../app/document/schema.ts';
import { sheetInUse } from '../../../app/cure/sheet-edit.ts';
import type { Change } from '../../../app/document/edit/change.ts';
import {
  addHardener,
  copyResin,
  isRefusal,
  newResin,
  ownRows,
  removeRow,
  renameRow,
  type Refusal,
} from '../../../app/document/edit/ownResins.ts';
import type { Draft } from '../../../app/document/edit/path.ts';
import { ownResin, ownRow, pickResin } from '../../../app/document/edit/resin.ts';
import { library as shipped } from '../../library.ts';

const start: Draft = { name: 'Gull', resin: { system: 'orrin-40', hardener: 'medium' } };
const rowsOf = (document: Draft): Library => {
  const own = librarySchema.parse({ resins: document.library?.resins ?? [] }).resins;
  const rest = shipped.resins.filter(({ id }) => !own.some((row) => row.id === id));
  return { ...shipped, resins: [...own, ...rest] };
};
const done = (answer: Change | Refusal | null): Draft => {
  if (!answer || isRefusal(answer)) throw new Error(answer?.refused ?? 'nothing to do');
  return answer.document;
};
const refusal = (answer: Change | Refusal): string => (isRefusal(answer) ? answer.refused : '');
const list = (document: Draft) => ownRows(document, rowsOf(document), shipped);
const given = {
  name: 'Brack 12',
  chemistry: 'epoxy',
  hardener: '',
  partsPer100ByMass: 34,
  potLife: { temperatureC: 22, minutes: 40, massG: 200, vessel: 'cup' },
} as const;

describe('resins of the shop’s own', () => {
  const one = done(newResin(start, rowsOf(start), given));
  const two = done(newResin(one, rowsOf(one), given));
  const three = done(copyResin(two, rowsOf(two), 'orrin-18'));

  it('are as many as it likes, each with an id and a name of its own, the last one in use', () => {
    const systems = list(three).filter(({ hardener }) => hardener === null);
    expect(systems.map(({ resin }) => resin.id)).toEqual([
      'own-resin',
      'own-resin-2',
      'own-resin-3',
    ]);
    expect(new Set(systems.map(({ resin }) => resin.name)).size).toBe(3);
    expect(systems.map(({ inUse }) => inUse)).toEqual([false, false, true]);
    expect(() => librarySchema.parse(three.library)).not.toThrow();
    expect(start.library).toBeUndefined();
  });

  it('begin with usual hazards: a peroxide for a polyester, styrene in its resin', () => {
    const wet = done(newResin(start, rowsOf(start), { ...given, chemistry: 'polyester' }));
    const { resin, hardener } = sheetInUse(wet, rowsOf(wet))!;
    expect(resin.hazards).toContain('styrene');
    expect(hardener.hazards).toContain('peroxide');
    expect(hardener.hazards).not.toContain('skin-sensitiser');
  });

  it('are a copy with all hardeners and figures, and leave what was copied alone', () => {
    const copy = sheetInUse(three, rowsOf(three))!;
    const from = shipped.resins.find(({ id }) => id === 'orrin-18')!;
    expect(copy.resin.hardeners).toEqual(from.hardeners);
    expect(copy.hardener.id).toBe('medium');
    expect(copy.resin.provenance.source).toContain(`copied from ${from.name}`);
    expect(shipped.resins).toHaveLength(4);
  });

  it('stay when another is picked, and can be taken up again', () => {
    const back = done(pickResin(three, rowsOf(three), 'own-resin'));
    expect(back.resin).toEqual({ system: 'own-resin', hardener: 'own-hardener' });
    expect(list(back)).toHaveLength(list(three).length);
  });

  it('are named by the shop; two of one name are refused', () => {
    const [first] = list(three);
    const named = done(renameRow(three, rowsOf(three), first!, ' Quay mix '));
    expect(list(named).map(({ resin }) => resin.name)).toContain('Quay mix');
    const taken = list(three).at(-1)!.resin.name;
    expect(refusal(renameRow(three, rowsOf(three), first!, taken))).toMatch(/there already/);
    expect(refusal(renameRow(three, rowsOf(three), first!, '  '))).toMatch(/1 to 120 letters/);
  });

  it('are taken out when nothing uses them, and refused with the reason when something does', () => {
    const used = list(three).find(({ inUse, hardener }) => inUse && !hardener)!;
    expect(refusal(removeRow(three, rowsOf(three), used))).toMatch(
      /^Copy of .* is in use: pick another resin first\.$/,
    );
    const idle = list(three).find(({ resin }) => resin.id === 'own-resin-2')!;
    const left = done(removeRow(three, rowsOf(three), idle));
    expect(left.library!.resins!.map(({ id }) => id)).toEqual(['own-resin', 'own-resin-3']);
  });
});

describe('a second hardener', () => {
  const two = done(addHardener(start, rowsOf(start)));

  it('goes with the resin in use and is picked; the library keeps its three', () => {
    expect(two.resin).toEqual({ system: 'orrin-40', hardener: 'own-hardener' });
    expect(sheetInUse(two, rowsOf(two))!.resin.hardeners).toHaveLength(4);
    expect(list(two).map(({ hardener }) => hardener?.id)).toEqual(['own-hardener']);
    const three = done(addHardener(two, rowsOf(two)));
    expect(three.resin?.hardener).toBe('own-hardener-2');
    expect(new Set(list(three).map(({ hardener }) => hardener!.name)).size).toBe(2);
  });

  it('is not removed while a layup is laid with it, nor the only one of its resin', () => {
    expect(refusal(removeRow(two, rowsOf(two), list(two)[0]!))).toMatch(/pick another hardener/);
    const single: Draft = {
      ...two,
      resin: { system: 'orrin-40', hardener: 'slow', hardenerFor: { core: 'own-hardener' } },
    };
    expect(refusal(removeRow(single, rowsOf(single), list(single)[0]!))).toMatch(/single layup/);
    const idle: Draft = { ...two, resin: { system: 'orrin-40', hardener: 'slow' } };
    const left = done(removeRow(idle, rowsOf(idle), list(idle)[0]!));
    expect(sheetInUse(left, rowsOf(left))!.resin.hardeners).toHaveLength(3);
    const own = done(newResin(start, rowsOf(start), given));
    const away = done(pickResin(own, rowsOf(own), 'orrin-40'));
    const only = list(away).find(({ hardener }) => hardener)!;
    expect(refusal(removeRow(away, rowsOf(away), only))).toMatch(/only hardener/);
  });

  it('of single layups stays with a resin that has it too', () => {
    const single: Draft = {
      ...start,
      resin: { system: 'orrin-40', hardener: 'medium', hardenerFor: { a: 'slow', b: 'odd' } },
    };
    expect(done(pickResin(single, rowsOf(single), 'orrin-18')).resin).toEqual({
      system: 'orrin-18',
      hardener: 'medium',
      hardenerFor: { a: 'slow' },
    });
  });
});

describe('a resin from one row', () => {
  const row = { name: 'Tin', massG: 200, temperatureC: 20, minutes: 35, partsPer100ByMass: 30 };

  it('keeps its second hardener when its row is typed again', () => {
    const own = ownResin(start, row).document;
    const two = done(addHardener(own, rowsOf(own)));
    const again = ownResin(two, { ...row, minutes: 50 }).document;
    const { resin, hardener } = sheetInUse(again, rowsOf(again))!;
    expect(resin.hardeners).toHaveLength(2);
    expect(hardener.sheet[0]!.minutes).toBe(50);
    expect(resin.hardeners[0]!.sheet[0]!.minutes).toBe(35);
  });

  it('may be a second one, and is no row of a resin that was copied', () => {
    const own = ownResin(start, row).document;
    const second = ownResin(own, { ...row, name: 'Drum' }, 'own-resin-2').document;
    expect(second.resin?.system).toBe('own-resin-2');
    expect(ownRow(second, 'own-resin')?.name).toBe('Tin');
    const copy = done(copyResin(start, rowsOf(start), 'orrin-40'));
    expect(ownRow(copy, 'own-resin')).toBeNull();
  });
});
