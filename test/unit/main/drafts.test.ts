/** Builds that are not complete yet: kept each for itself, never taken over by a window behind. */
import { describe, expect, it } from 'vitest';
import { DOCUMENT_VERSION } from '../../../app/document/schema.ts';
import { ask, buildOf, scratchFolder, scratchSession, tell } from './fixtures.ts';

describe('a build that is not complete yet', () => {
  it('is there again in the next run, and lies open as it did', async () => {
    const dataDir = scratchFolder();
    const first = scratchSession({ dataDir });
    const made = await tell(first, 'draft-create', { document: { name: 'Half a boat' } });
    await tell(first, 'draft-save', {
      id: made.id,
      expects: made.revision,
      document: { formatVersion: DOCUMENT_VERSION, name: 'Half a boat', crew: [] },
    });
    first.close();
    const start = await tell(scratchSession({ dataDir }), 'session-start', {});
    expect(start.draft).toEqual({
      id: made.id,
      revision: 2,
      document: { formatVersion: DOCUMENT_VERSION, name: 'Half a boat', crew: [] },
    });
    expect(start.drafts.map(({ id, name }) => [id, name])).toEqual([[made.id, 'Half a boat']]);
  });

  it('stays on the list while a build lies open', async () => {
    const session = scratchSession();
    const { id } = await tell(session, 'draft-create', { document: {} });
    await tell(session, 'build-open', { id: 'arch' });
    expect(await tell(session, 'session-start', {})).toMatchObject({
      draft: null,
      drafts: [{ id, name: null }],
    });
    await tell(session, 'draft-open', { id });
    expect((await tell(session, 'session-start', {})).draft?.id).toBe(id);
  });

  it('takes nothing from a window that is behind', async () => {
    const session = scratchSession();
    const { id } = await tell(session, 'draft-create', { document: {} });
    const first = { formatVersion: DOCUMENT_VERSION, name: 'First' };
    await tell(session, 'draft-save', { id, expects: 1, document: first });
    const late = { id, expects: 1, document: { currency: 'EUR' } };
    expect(await ask(session, 'draft-save', late)).toMatchObject({ ok: false, code: 'stale' });
    const { document } = await tell(session, 'draft-open', { id });
    expect(document).toEqual(first);
  });

  it('is one of several: another begun takes nothing from it', async () => {
    const session = scratchSession();
    const one = await tell(session, 'draft-create', { document: { name: 'One' } });
    const two = await tell(session, 'draft-create', { document: { name: 'Two' } });
    expect(await tell(session, 'draft-remove', { id: two.id })).toMatchObject([{ id: one.id }]);
    expect(await ask(session, 'draft-open', { id: two.id })).toMatchObject({ code: 'not-found' });
    expect((await tell(session, 'session-start', {})).draft).toBeNull();
  });

  it('becomes one build, once, at the revision that the window has seen', async () => {
    const session = scratchSession();
    const document = buildOf('Whole');
    const { id } = await tell(session, 'draft-create', { document });
    const before = (await tell(session, 'build-list', {})).length;
    const behind = { document, draft: { id, expects: 7 } };
    expect(await ask(session, 'build-create', behind)).toMatchObject({ code: 'stale' });
    await tell(session, 'build-create', { document, draft: { id, expects: 1 } });
    const again = { document, draft: { id, expects: 1 } };
    expect(await ask(session, 'build-create', again)).toMatchObject({ code: 'not-found' });
    const start = await tell(session, 'session-start', {});
    expect(start.builds).toHaveLength(before + 1);
    expect(start).toMatchObject({ drafts: [], draft: null, open: { document: { name: 'Whole' } } });
  });

  it('stays a draft when it is refused as a build', async () => {
    const session = scratchSession();
    const document = buildOf('Whole', { unveiling: '2027-02-30' });
    const { id } = await tell(session, 'draft-create', { document });
    const given = await ask(session, 'build-create', { document, draft: { id, expects: 1 } });
    expect(given).toMatchObject({ code: 'refused', faults: [{ path: 'unveiling' }] });
    expect((await tell(session, 'draft-open', { id })).document['name']).toBe('Whole');
  });
});
