/** What hangs on an open question is printed as not released, on every sheet that carries it. */
import { describe, expect, it } from 'vitest';
import type { Build } from '../../../app/document/schema.ts';
import { buildSheets } from '../../../app/shop/sheets.ts';
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
  it('holds the rows of week and day that come after it, and names itself', () => {
    const of = textsOf(asked(null));
    for (const kind of ['week', 'day']) {
      const text = of(kind).join('\n');
      expect(text).toMatch(/Fit, score and drill core ■ NOT RELEASED/);
      // Cutting does not hang on the core's holes.
      expect(text).not.toMatch(/Cut plies, peel ply and bag ■/);
    }
    expect(of('day').join('')).toContain(`${HELD}, waits for: ${TEXT}`);
  });
  it('holds the sheets of every cure that hangs on it', () => {
    const of = textsOf(asked(null));
    for (const kind of ['go', 'mix', 'cure']) {
      expect(of(kind).length).toBeGreaterThan(0);
      for (const text of of(kind)) expect(text).toContain(`${HELD}: nobody mixes`);
    }
  });
  it('holds nothing once it is answered', () => {
    const of = textsOf(asked('Template received'));
    for (const kind of ['week', 'day', 'go', 'mix', 'cure']) {
      expect(of(kind).join('')).not.toContain('NOT RELEASED');
    }
  });
});
