import { describe, expect, test } from 'vitest';
import { HAZARDS, STAGE_KINDS } from '../../../app/document/schema.ts';
import { cautionsFor } from '../../../app/messages/safety.ts';

describe('cautions', () => {
  test.each([
    ['layup', 'allergic'],
    ['trim', 'Dust'],
    ['fair', 'Dust'],
    ['demould', 'Lift'],
    ['release', 'Solvent'],
    ['hand-over', 'lifted'],
  ] as const)('%s always warns, whatever the rows say', (kind, word) => {
    expect(cautionsFor(kind, []).join(' ')).toContain(word);
  });

  test('styrene and peroxide are named only where the resin brings them', () => {
    expect(cautionsFor('layup', []).join(' ')).not.toMatch(/Styrene|Peroxide/);
    expect(cautionsFor('layup', ['styrene', 'peroxide']).join(' ')).toMatch(/Peroxide.*Styrene/s);
  });

  test('every hazard is said at some stage, no caution twice at one', () => {
    const all = STAGE_KINDS.map((kind) => cautionsFor(kind, HAZARDS));
    for (const lines of all) expect(new Set(lines).size).toBe(lines.length);
    for (const hazard of HAZARDS.filter((h) => h !== 'lifting')) {
      const said = STAGE_KINDS.some(
        (kind) => cautionsFor(kind, [hazard]).length > cautionsFor(kind, []).length,
      );
      const always = ['dust', 'exotherm', 'skin-sensitiser', 'solvent'].includes(hazard);
      expect(said || always, hazard).toBe(true);
    }
  });
});
