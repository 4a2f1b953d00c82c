import { describe, expect, it } from 'vitest';
import { freezeRows, isOwnResin } from '../../../app/document/library.ts';
import { readDocument } from '../../../app/document/read.ts';
import type { Build } from '../../../app/document/schema.ts';
import { shippedLibrary } from '../../../main/library/shipped.ts';
import shell from '../../../samples/shell-6kg.build.json' with { type: 'json' };

const library = shippedLibrary();
const orrin = library.resins.find(({ id }) => id === 'orrin-18')!;
const frozen = (document: unknown): NonNullable<Build['library']> => {
  const read = readDocument(document, library);
  if (!read.ok) throw new Error(read.faults[0]?.expected);
  return freezeRows(read.document, read.build, library).library!;
};

describe('rows frozen into a build', () => {
  const ids = (document: unknown) => frozen(document).resins?.map(({ id }) => id);

  it('are those it uses', () => {
    expect(ids(shell)).toEqual([shell.resin.system]);
    expect(ids({ ...shell, library: { resins: [orrin] } })).toEqual([shell.resin.system]);
  });

  it('and resins that the shop made or changed, used or not', () => {
    const own = { ...orrin, id: 'own-resin-2', name: 'Ours' };
    expect(isOwnResin(own, library)).toBe(true);
    expect(ids({ ...shell, library: { resins: [own] } })).toEqual([
      shell.resin.system,
      'own-resin-2',
    ]);
    const hardener = { ...orrin.hardeners[0]!, id: 'own-hardener' };
    const grown = { ...orrin, hardeners: [...orrin.hardeners, hardener] };
    expect(ids({ ...shell, library: { resins: [grown] } })).toContain('orrin-18');
    const changed = { ...orrin, densityKgM3: orrin.densityKgM3 + 10 };
    expect(ids({ ...shell, library: { resins: [changed] } })).toContain('orrin-18');
  });
});
