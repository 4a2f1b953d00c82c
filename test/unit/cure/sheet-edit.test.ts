import { describe, expect, it } from 'vitest';
import { initiatorRange } from '../../../app/cure/initiator.ts';
import { practiceOf } from '../../../app/document/library.ts';
import { librarySchema } from '../../../app/document/schema.ts';
import {
  addRow,
  removeRow,
  setHardener,
  setRow,
  sheetInUse,
} from '../../../app/cure/sheet-edit.ts';
import { doseFor, makersDoses, setInitiatorDose } from '../../../app/cure/dose-edit.ts';
import { OWN_RESIN, ownResin, ownRow } from '../../../app/document/edit/resin.ts';
import type { Draft } from '../../../app/document/edit/path.ts';
import { library } from '../../library.ts';

const document: Draft = { name: 'Gull', resin: { system: 'orrin-40', hardener: 'medium' } };
/** What the build works with after an edit: its own rows before the library's. */
const after = (next: Draft) => {
  const own = librarySchema.parse({ resins: next.library?.resins ?? [] }).resins;
  const others = library.resins.filter(({ id }) => !own.some((row) => row.id === id));
  return { ...library, resins: [...own, ...others] };
};
const inUse = (next: Draft) => sheetInUse(next, after(next))!;

describe('an edited data sheet', () => {
  it('is a copy in the build: the library and the other hardeners stay as they were', () => {
    const before = JSON.stringify(library);
    const change = setRow(document, library, 0, { minutes: 33 })!;
    expect(change.label).toMatch(/^Sheet row 1: Pot life, 150 g in a cup at \d+ °C, 33 min$/);
    expect(inUse(change.document).hardener.sheet[0]!.minutes).toBe(33);
    expect(JSON.stringify(library)).toBe(before);
    expect(document.library).toBeUndefined();
    const fast = (rows: typeof library) =>
      rows.resins.find(({ id }) => id === 'orrin-40')!.hardeners.find(({ id }) => id === 'fast');
    expect(fast(after(change.document))).toEqual(fast(library));
  });

  it('says once that it was typed over, and what it was before', () => {
    const first = setRow(document, library, 0, { minutes: 33 })!.document;
    const second = setRow(first, after(first), 1, { minutes: 44 })!.document;
    const { provenance } = inUse(second).hardener;
    expect(provenance.kind).toBe('data-sheet');
    expect(provenance.source.match(/typed into this build/g)).toHaveLength(1);
    expect(provenance.source).toContain('invented');
    expect(provenance.typed).toBe('sheet');
  });

  it('keeps masses for pot lives in a vessel only', () => {
    const gel = setRow(document, library, 0, { what: 'film-gel' })!.document;
    expect(inUse(gel).hardener.sheet[0]).not.toHaveProperty('massG');
    const film = setRow(document, library, 0, { vessel: 'film' })!.document;
    expect(inUse(film).hardener.sheet[0]).not.toHaveProperty('massG');
  });

  it('loses rows down to the last one, and never that', () => {
    let next = document;
    const count = inUse(next).hardener.sheet.length;
    for (let i = 1; i < count; i++) next = removeRow(next, after(next), 0)!.document;
    expect(inUse(next).hardener.sheet).toHaveLength(1);
    expect(removeRow(next, after(next), 0)).toBeNull();
    const row = { what: 'film-gel', temperatureC: 25, minutes: 200 } as const;
    expect(inUse(addRow(next, after(next), row)!.document).hardener.sheet).toHaveLength(2);
  });

  it('can be read back as a build’s library, whatever was taken out', () => {
    const next = setHardener(
      document,
      library,
      { tgFullC: null, heatOfReactionJG: null, partsPer100ByVolume: null },
      'Figures',
      'not given',
    )!.document;
    expect(() => librarySchema.parse(next.library)).not.toThrow();
    expect(inUse(next).hardener.tgFullC).toBeNull();
  });
});

describe('the shop’s own resin', () => {
  const row = { name: 'Tin', massG: 200, temperatureC: 20, minutes: 35, partsPer100ByMass: 30 };

  it('keeps the rows typed into its sheet when its first row is typed again', () => {
    const own = ownResin(document, row).document;
    const gel = { what: 'film-gel', temperatureC: 20, minutes: 400 } as const;
    const more = addRow(own, after(own), gel)!.document;
    const again = ownResin(more, { ...row, minutes: 40 }).document;
    expect(again.resin?.system).toBe(OWN_RESIN);
    expect(inUse(again).hardener.sheet.map(({ what }) => what)).toEqual(['pot-life', 'film-gel']);
    expect(ownRow(again)?.minutes).toBe(40);
  });
});

describe('the dose of initiator', () => {
  const wet: Draft = { name: 'Gull', resin: { system: 'marl-7', hardener: 'medium' } };
  const range = initiatorRange(makersDoses(inUse(wet).resin), 20, practiceOf(library))!;

  it('is the maker’s own sheet where he gives it', () => {
    const next = setInitiatorDose(wet, library, range, 2)!.document;
    expect(next.resin?.hardener).toBe('fast');
    expect(next.library).toBeUndefined();
  });

  it('stretches every time with gel between two of them', () => {
    const next = setInitiatorDose(wet, library, range, 1.25)!.document;
    const { hardener } = inUse(next);
    expect(hardener.partsPer100ByMass).toBe(1.25);
    const gel = (h: typeof hardener) =>
      h.sheet.find((row) => row.what === 'film-gel' && row.temperatureC === 20)!.minutes;
    const maker = (id: string) =>
      inUse({ ...wet, resin: { system: 'marl-7', hardener: id } }).hardener;
    expect(gel(hardener)).toBeGreaterThan(gel(maker('medium')));
    expect(gel(hardener)).toBeLessThan(gel(maker('slow')));
    // A dose read between two is no new point of the maker's.
    expect(makersDoses(inUse(next).resin).hardeners).toHaveLength(3);
  });

  it('is never outside the maker’s range', () => {
    expect(setInitiatorDose(wet, library, range, 2.2)).toBeNull();
    expect(setInitiatorDose(wet, library, range, 0.8)).toBeNull();
    expect(doseFor(range, range.longestGelMinutes * 1.5)).toBeNull();
    expect(doseFor(range, range.shortestGelMinutes)).toBeCloseTo(2, 6);
  });
});
