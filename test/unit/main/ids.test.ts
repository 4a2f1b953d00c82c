import { expect, it } from 'vitest';
import { createIds } from '../../../main/ids.ts';

// Layout: RFC 9562, section 5.7, with the time stamp of its appendix A.6 (0x017F22E279B0).
it('an id carries the milliseconds, version 7 and the variant of the RFC', () => {
  const id = createIds(() => 0x017f22e279b0)();
  expect(id).toMatch(/^017f22e2-79b0-7[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/);
});

it('ids differ and rise in the order they were made, while the clock stands and steps back', () => {
  let ms = 1_800_000_000_000;
  const next = createIds(() => ms);
  const ids: string[] = [];
  for (let i = 0; i < 10_000; i += 1) {
    if (i === 9_000) ms -= 60_000;
    ids.push(next());
  }
  expect(new Set(ids).size).toBe(ids.length);
  expect(ids.toSorted()).toEqual(ids);
});

it('two sources that start in the same millisecond do not agree', () => {
  expect(createIds(() => 5)()).not.toBe(createIds(() => 5)());
});
