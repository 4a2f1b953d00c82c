import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { rebase } from '../../../app/document/edit/rebase.ts';
import { forAll } from '../../support/draws.ts';

describe('an edit taken over to another document', () => {
  it('stands beside edits of other fields, at any depth', () => {
    const base = { name: 'a', part: { zones: [{ areaM2: 1, edgeM: 2 }] } };
    const mine = { name: 'a', part: { zones: [{ areaM2: 4, edgeM: 2 }] } };
    const onto = { name: 'b', part: { zones: [{ areaM2: 1, edgeM: 3 }] }, currency: 'EUR' };
    expect(rebase<object>(base, mine, onto)).toEqual({
      name: 'b',
      part: { zones: [{ areaM2: 4, edgeM: 3 }] },
      currency: 'EUR',
    });
  });

  it('holds where both changed one field, and a field taken out is out', () => {
    const base = { name: 'a', zone: 'UTC' };
    expect(rebase<object>(base, { name: 'b' }, { name: 'c', zone: 'UTC' })).toEqual({ name: 'b' });
    expect(rebase<object>(base, { name: 'b', zone: 'UTC' }, { zone: 'UTC' })).toEqual({
      name: 'b',
      zone: 'UTC',
    });
  });

  it('keeps what was added to a list in both, and leaves out what was taken out in either', () => {
    const [a, b, c, d] = ['a', 'b', 'c', 'd'].map((id) => ({ id }));
    expect(rebase<unknown>([a, b], [a, b, c], [a, b, d])).toEqual([a, b, d, c]);
    expect(rebase<unknown>([a, b], [b], [a, b, d])).toEqual([b, d]);
    expect(rebase<unknown>([a, b], [a, b, c], [b])).toEqual([b, c]);
    expect(rebase<unknown>([a, b], [a, b, c], [a, { id: 'b', name: 'B' }])).toEqual([
      a,
      { id: 'b', name: 'B' },
      c,
    ]);
  });

  it('takes a list of nameless entries whole', () => {
    expect(rebase<unknown>(['x'], ['x', 'y'], ['z', 'z'])).toEqual(['x', 'y']);
  });

  const value = fc.letrec((tie) => ({
    any: fc.oneof({ depthSize: 'small' }, fc.integer(), fc.string(), tie('list'), tie('fields')),
    list: fc.array(tie('any'), { maxLength: 3 }),
    fields: fc.dictionary(fc.constantFrom('a', 'b', 'c', 'id'), tie('any')),
  }));

  it('gives the edited document on its own ground, and the other one where nothing was edited', () => {
    let differing = 0;
    forAll(
      fc.property(value.any, value.any, (base, other) => {
        if (JSON.stringify(base) !== JSON.stringify(other)) differing += 1;
        expect(rebase(base, other, structuredClone(base))).toEqual(other);
        expect(rebase(base, structuredClone(base), other)).toEqual(other);
      }),
      { seed: 1 },
    );
    expect(differing).toBeGreaterThan(20);
  });
});
