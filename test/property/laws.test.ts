/** The laws of a verdict over a few drawn builds; `npm run bench -- laws` asks them of 300. */
import { describe, expect, it } from 'vitest';
import { librarySchema } from '../../app/document/schema.ts';
import { isoToMinute } from '../../app/time/zone.ts';
import { shippedLibrary } from '../../main/library/shipped.ts';
import { drawnBuilds } from '../laws/builds.ts';
import { countLaws, lawsOf } from '../laws/laws.ts';

const library = librarySchema.parse(shippedLibrary());
const NOW = isoToMinute('2027-04-19T07:00+01:00')!;

describe('a verdict', () => {
  it('keeps its laws, both sides of each asked', { timeout: 300_000 }, () => {
    const asked = drawnBuilds(4, 7).map((document) => ({
      build: document.name,
      verdicts: lawsOf(document, NOW, { library, schedules: 8 }),
    }));
    const laws = countLaws(asked);
    expect(laws.length).toBeGreaterThan(12);
    expect(laws.flatMap(({ law, broken }) => broken.map((one) => ({ law, ...one })))).toEqual([]);
    const sides = new Set(laws.flatMap((one) => Object.keys(one.sides)));
    expect(sides).toContain('fits');
    expect(sides).toContain('does not fit');
  });
});
