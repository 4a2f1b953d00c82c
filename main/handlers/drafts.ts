/** Builds that are not complete yet: list, make, open, change, drop. */
import type { Session } from '../session.ts';
import { createDraft, listDrafts, openDraft, removeDraft, saveDraft } from '../store/drafts.ts';
import { write } from '../store/handles.ts';
import { rememberOpenDraft } from '../store/state.ts';
import type { Handler } from './types.ts';

const nowMs = (session: Session): number => session.clock.now().getTime();

export const draftList: Handler<'draft-list'> = (session) => listDrafts(session.store.read);

export const draftCreate: Handler<'draft-create'> = (session, { document }) =>
  write(session.store.write, () => {
    const id = session.newId();
    const draft = createDraft(session.store.write, { id, document, nowMs: nowMs(session) });
    rememberOpenDraft(session.store.write, id);
    return draft;
  });

export const draftOpen: Handler<'draft-open'> = (session, { id }) => {
  const draft = openDraft(session.store.read, id);
  rememberOpenDraft(session.store.write, id);
  return draft;
};

export const draftSave: Handler<'draft-save'> = (session, { id, expects, document }) =>
  saveDraft(session.store.write, { id, expects, document, nowMs: nowMs(session) });

export const draftRemove: Handler<'draft-remove'> = (session, { id, expects }) => {
  const at = expects === undefined ? {} : { expects };
  removeDraft(session.store.write, { id, ...at, nowMs: nowMs(session) });
  return listDrafts(session.store.read);
};
