import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { applied, difference } from '../../main/store/delta.ts';

const longText = fc
  .array(fc.constantFrom('{"area":', '12.5,', 'zone', '\u{1f6a4}', '\ud83d'), {
    maxLength: 300,
  })
  .map((parts) => parts.join(''));

describe('a text as a difference', () => {
  it('comes back exactly, whatever it differs from', () => {
    fc.assert(
      fc.property(longText, longText, (base, text) => {
        const pieces = JSON.parse(JSON.stringify(difference(base, text))) as never;
        expect(applied(base, pieces)).toBe(text);
      }),
    );
  });

  it('is small where little was changed in several places', () => {
    const base = Array.from({ length: 5000 }, (_, i) => `row ${i * 37}`).join(';');
    const text = base
      .replace('row 3700;', 'row three;')
      .replace('row 74000;', '')
      .replace('row 148000;', 'row 148000;a new one;');
    const pieces = difference(base, text);
    expect(applied(base, pieces)).toBe(text);
    expect(JSON.stringify(pieces).length).toBeLessThan(300);
  });

  it('is refused on a base that it was not made of', () => {
    const base = 'a long enough text to be copied from '.repeat(20);
    const pieces = difference(base, `${base}!`);
    expect(() => applied(base.slice(0, 40), pieces)).toThrow(RangeError);
  });
});
