/** A stored revision that a tightened range refuses: it opens, is mended field by field, and undo works. */
import { describe, expect, it } from 'vitest';
import { readDocument } from '../../../app/document/read.ts';
import { createBuild } from '../../../main/store/builds.ts';
import type { StoredDocument } from '../../../main/store/rows.ts';
import { ask, buildOf, LIBRARY, NOW, scratchSession, tell } from './fixtures.ts';

const withAreas = (document: StoredDocument, areas: readonly number[]): StoredDocument => {
  const { part } = document as unknown as { part: object };
  const zones = areas.map((areaM2, i) => ({ id: `z${i}`, areaM2, outer: [], inner: [] }));
  return { ...document, part: { ...part, zones } } as unknown as StoredDocument;
};

function stored() {
  const session = scratchSession();
  const document = withAreas(buildOf('wide') as unknown as StoredDocument, [5000, 7000, 1]);
  createBuild(session.store.write, {
    id: 'wide',
    document,
    label: 'Old',
    sample: null,
    nowMs: NOW.getTime(),
  });
  return { session, document };
}

describe('a stored revision outside a range', () => {
  it('opens, and its faults are located', async () => {
    const { session } = stored();
    const open = await tell(session, 'build-open', { id: 'wide' });
    const read = readDocument(open.document, LIBRARY);
    expect(read.ok ? [] : read.faults.map(({ path }) => path)).toEqual([
      'part.zones[0].areaM2',
      'part.zones[1].areaM2',
    ]);
  });

  it('is mended one field after the other, and undone', async () => {
    const { session, document } = stored();
    const save = (changed: StoredDocument, expects: number) =>
      tell(session, 'build-save', { id: 'wide', expects, label: 'Area', document: changed });
    const half = await save(withAreas(document, [7000, 1]), 1);
    const whole = await save(withAreas(document, [7, 1]), half.revision);
    expect(readDocument(whole.document, LIBRARY).ok).toBe(true);
    const back = await tell(session, 'build-undo', { id: 'wide', expects: whole.revision });
    expect(back.document).toEqual(half.document);
  });

  it('takes no new fault', async () => {
    const { session, document } = stored();
    const reply = await ask(session, 'build-save', {
      id: 'wide',
      expects: 1,
      label: 'Area',
      document: withAreas(document, [5000, 7000, -1]),
    });
    expect(reply).toMatchObject({ ok: false });
    expect(JSON.stringify(reply)).toContain('part.zones[2].areaM2');
    expect(JSON.stringify(reply)).not.toContain('more)');
  });
});
