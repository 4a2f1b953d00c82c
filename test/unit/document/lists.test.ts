/** Every list of a document and of the library has a greatest length. */
import { describe, expect, it } from 'vitest';
import { buildSchema, librarySchema } from '../../../app/document/schema.ts';
import { listLengths } from '../../support/number-fields.ts';

describe('a list', () => {
  const lists = [...listLengths(buildSchema), ...listLengths(librarySchema)];

  it('of a document or the library has an end', () => {
    expect(lists.filter(({ most }) => most === Infinity).map(({ path }) => path)).toEqual([]);
    expect(lists.length).toBeGreaterThan(40);
    expect(lists).toContainEqual({ path: 'heat[].steps', most: 12 });
  });
});
