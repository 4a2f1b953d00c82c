import { describe, expect, it } from 'vitest';
import { migrate } from '../../../app/document/migrate/migrate.ts';
import { POT_LIFE_ROW, typedOf, typedOver } from '../../../app/document/provenance.ts';
import { provenanceWords } from '../../../app/shop/origins/origin.ts';
import { library } from '../../library.ts';

describe('where a row comes from', () => {
  it('stays that of one pot-life row when a figure is typed over', () => {
    expect(typedOver(POT_LIFE_ROW)).toEqual(POT_LIFE_ROW);
    expect(typedOf(library.resins[0]!.provenance)).toBeNull();
  });

  it('of format 1 that only its source calls typed has the field once the document is lifted', () => {
    const { typed: _typed, ...older } = POT_LIFE_ROW;
    const sheet = { kind: 'data-sheet', source: 'typed into this build; before: a sheet' };
    const kept = { kind: 'published', source: 'read off a sheet, typed into this build' };
    const resins = [{ id: 'own', provenance: older, hardeners: [{ provenance: sheet }] }];
    const document = { formatVersion: 1, library: { resins, cloths: [{ provenance: kept }] } };
    expect(migrate(document)).toEqual({
      formatVersion: 2,
      library: {
        resins: [
          {
            id: 'own',
            provenance: POT_LIFE_ROW,
            hardeners: [{ provenance: { ...sheet, typed: 'sheet' } }],
          },
        ],
        cloths: [{ provenance: kept }],
      },
    });
    expect(document.library.resins[0]!.provenance).toBe(older);
  });

  it('keeps what it was before in its words, as far as they fit', () => {
    const long = { kind: 'published' as const, source: 'x'.repeat(300) };
    const { source } = typedOver(long);
    expect(source).toMatch(/^typed into this build; before: x+$/);
    expect(source).toHaveLength(300);
  });

  it('is flagged in every row of the library that quotes a figure from memory', () => {
    const rows = Object.values(library).flatMap((table) => table as { provenance?: object }[]);
    const provenances = rows.flatMap(({ provenance }) => (provenance ? [provenance] : []));
    const said = provenances.filter((one) => JSON.stringify(one).includes('from memory'));
    expect(said.length).toBeGreaterThan(20);
    for (const one of said) expect(one).toHaveProperty('fromMemory', true);
    for (const one of provenances.filter((all) => 'fromMemory' in all)) {
      expect(provenanceWords(one as never)).toContain('from memory');
    }
  });
});
