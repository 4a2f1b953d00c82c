import { expect, it } from 'vitest';
import { formOf } from '../../../renderer/state/localNumber.ts';

it('writes a figure as its language does, and goes on where a system names none', () => {
  expect(formOf('de').format(1234.5)).toBe('1234,5');
  expect(formOf('en-GB').format(1234.5)).toBe('1234.5');
  // What a machine without a language of its own tells a page.
  expect(formOf('en-US@posix').format(1234.5)).toBe('1234.5');
});
