/** What is found by what is typed. */
import { describe, expect, it } from 'vitest';
import { called } from '../../../renderer/frame/find.ts';

describe('a name is found', () => {
  it.each([
    ['Harbour gate sign', 'gate'],
    ['Harbour gate sign', 'SIGN harb'],
    ['Façade panel', 'facade'],
    ['Facade panel', 'façade'],
    ['Anything', ''],
  ])('%j by %j', (text, typed) => {
    expect(called(text, typed)).toBe(true);
  });

  it.each([
    ['Harbour gate sign', 'gate pier'],
    ['Harbour gate sign', 'sing'],
  ])('%j not by %j', (text, typed) => {
    expect(called(text, typed)).toBe(false);
  });
});
