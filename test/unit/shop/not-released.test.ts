/** What depends on an open question is printed as not released, on every sheet that carries it. */
import { describe, expect, it } from 'vitest';
import type { Build } from '../../../app/document/schema.ts';
import { buildSheets } from '../../support/sheets.ts';
import { textOf } from '../../../app/shop/tree.ts';
import { planFor, ROOMY, withPart } from '../judge/builds.ts';

const TEXT = 'Hole pattern of the core?';
const asked = (answer: string | null): Build =>
  withPart(ROOMY, {
    questions: [{ id: 'holes', text: TEXT, answer, before: 'core-fit' }],
  });
const textsOf = (document: Build) => {
  const { sheets } = buildSheets(planFor({ ...document, route: { joints: {} } }));
  return (kind: string) =>
    sheets.filter((sheet) => sheet.kind === kind).map((sheet) => textOf(sheet.body));
};
const HELD = '■ NOT RELEASED';

describe('an open question', () => {
  it('is named once at the head of weeks and days, and marks the rows that wait for it', () => {
    const of = textsOf(asked(null));
    for (const kind of ['week', 'day']) {
      const held = of(kind).filter((text) => text.includes(HELD));
      expect(held.length).toBeGreaterThan(0);
      for (const text of held) {
        expect(text.split('NOT RELEASED')).toHaveLength(2);
        expect(text).toContain(TEXT);
        expect(text).toContain(`${HELD}: what is marked ■ waits for an answer`);
      }
      const text = of(kind).join('\n');
      expect(text).toMatch(/■ Fit core on the mould/);
      // Cutting does not depend on the core's holes.
      expect(text).not.toMatch(/■ Cut plies, peel ply and bag/);
    }
  });
  it('holds the cards of every cure that depends on it, and of the demould', () => {
    const of = textsOf(asked(null));
    for (const kind of ['go', 'mix', 'cure']) {
      expect(of(kind).length).toBeGreaterThan(0);
      for (const text of of(kind)) expect(text).toMatch(/■ NOT RELEASED: nobody (mixes|demoulds)/);
    }
  });
  it('holds nothing once it is answered', () => {
    const of = textsOf(asked('Template received'));
    for (const kind of ['week', 'day', 'go', 'mix', 'cure']) {
      expect(of(kind).join('')).not.toContain('NOT RELEASED');
    }
  });
});
