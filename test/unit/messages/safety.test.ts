import { describe, expect, test } from 'vitest';
import { HAZARDS, STAGE_KINDS, type Hazard, type StageKind } from '../../../app/document/schema.ts';
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

  test('no caution stands twice at one stage', () => {
    for (const kind of STAGE_KINDS) {
      const lines = cautionsFor(kind, HAZARDS);
      expect(new Set(lines).size).toBe(lines.length);
    }
  });

  /** Where each hazard meets a hand, in words of its caution; a hazard without a line does not compile. */
  const SAID: Readonly<Record<Hazard, readonly [StageKind, string]>> = {
    'skin-sensitiser': ['layup', 'allergic for life: nitrile gloves'],
    corrosive: ['layup', 'Hardener burns skin and eyes: goggles on to pour'],
    peroxide: ['layup', 'Peroxide'],
    styrene: ['layup', 'Styrene'],
    solvent: ['release', 'Solvent vapour burns: air the room, no flame or heater'],
    dust: ['trim', 'extraction at the tool, fitted particle mask'],
    exotherm: ['layup', 'A full cup can melt, smoke and burn: spread it at once.'],
    lifting: ['demould', 'Lift with enough people or a hoist'],
    isocyanate: ['prime', 'trained people only, air-fed mask'],
  };
  test.each(HAZARDS)('%s is said where it meets a hand', (hazard) => {
    const [kind, words] = SAID[hazard];
    expect(cautionsFor(kind, [hazard]).join(' ')).toContain(words);
  });
});
