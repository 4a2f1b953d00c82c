import { describe, expect, it } from 'vitest';
import { KeptPieces } from '../../../app/document/keptPieces.ts';
import type { Build } from '../../../app/document/schema.ts';
import { smallBuild } from '../../support/builds.ts';

/** Each call copies the crew anew, as an edit does. */
const withName = (build: Build, name: string): Build => ({
  ...build,
  crew: build.crew.map((person) => ({ ...person, name })),
});

describe('pieces of documents that say the same', () => {
  it('are one object, however often they were copied', () => {
    const base = smallBuild();
    const kept = new KeptPieces(base);
    const one = kept.of(withName(base, 'Ida'));
    const other = kept.of({ ...withName(base, 'Ida'), name: 'Another build' });
    expect(other.crew).toBe(one.crew);
    expect(other.part).toBe(base.part);
    expect(kept.of(structuredClone(base)).crew).toBe(base.crew);
  });

  it('stay apart where they differ, and say what they said', () => {
    const base = smallBuild();
    const kept = new KeptPieces(base);
    const changed = withName(base, 'Ida');
    expect(kept.of(changed)).toEqual(changed);
    expect(kept.of(changed).crew).not.toBe(base.crew);
    expect(kept.of(withName(base, 'Ole')).crew[0]!.name).toBe('Ole');
  });
});
