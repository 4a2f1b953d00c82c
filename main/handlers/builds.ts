/** Builds: list, make, open, change, undo, remove, read from a file. */
import { readBuild } from '../../app/document/read.ts';
import type { ChannelOutput, OpenBuild } from '../../app/contract/channels.ts';
import { accept, acceptFromPage } from '../documents.ts';
import type { Session } from '../session.ts';
import {
  bringBack,
  createBuild,
  listBuilds,
  listRemoved,
  openBuild,
  redo,
  removeBuild,
  sampleOf,
  saveEdit,
  undo,
} from '../store/builds.ts';
import { StoreRefusal } from '../store/errors.ts';
import { removeDraft } from '../store/drafts.ts';
import { importShop, isShopText } from '../store/everything.ts';
import { finishedBuilds } from '../store/lessons.ts';
import { rememberOpenBuild } from '../store/state.ts';
import type { StoredDocument } from '../store/rows.ts';
import { write } from '../store/handles.ts';
import type { Handler } from './types.ts';

const nowMs = (session: Session): number => session.clock.now().getTime();

export const buildList: Handler<'build-list'> = (session) => listBuilds(session.store.read);

export const lessonsRead: Handler<'lessons-read'> = (session) => finishedBuilds(session.store.read);

export const buildCreate: Handler<'build-create'> = (session, { document, draft }) => {
  const id = session.newId();
  const accepted = acceptFromPage(document, session.library(), id);
  return write(session.store.write, () => {
    // Refused when another window went on typing, or was first to make the build.
    if (draft) removeDraft(session.store.write, { ...draft, nowMs: nowMs(session) });
    return begin(session, id, accepted, 'New build');
  });
};

export const buildOpen: Handler<'build-open'> = (session, { id }) => {
  const open = openBuild(session.store.read, id);
  rememberOpenBuild(session.store.write, id, nowMs(session));
  return open;
};

export const buildSave: Handler<'build-save'> = (session, { id, expects, label, document }) =>
  saveEdit(session.store.write, {
    id,
    expects,
    label,
    document: acceptFromPage(
      document,
      session.library(),
      id,
      openBuild(session.store.read, id).document,
    ),
    nowMs: nowMs(session),
  });

export const buildUndo: Handler<'build-undo'> = (session, { id, expects }) =>
  undo(session.store.write, { id, expects, nowMs: nowMs(session) });

export const buildRedo: Handler<'build-redo'> = (session, { id, expects }) =>
  redo(session.store.write, { id, expects, nowMs: nowMs(session) });

export const sampleReset: Handler<'sample-reset'> = (session, { id, expects }) => {
  const name = sampleOf(session.store.read, id);
  const sample = session.samples.find((candidate) => candidate.name === name);
  if (!sample) throw new StoreRefusal('refused', 'This build is none of the samples.');
  const library = session.library();
  const read = readBuild(sample.text(), library);
  if (!read.ok) throw new StoreRefusal('refused', 'The sample as shipped cannot be read.');
  return saveEdit(session.store.write, {
    id,
    expects,
    label: 'Sample put back as shipped',
    document: accept(read, library, id),
    nowMs: nowMs(session),
    replacesRecords: true,
  });
};

export const buildRemove: Handler<'build-remove'> = (session, { id }) => {
  removeBuild(session.store.write, id, nowMs(session));
  return listBuilds(session.store.read);
};

export const removedList: Handler<'removed-list'> = (session) => listRemoved(session.store.read);

export const buildBringBack: Handler<'build-bring-back'> = (session, { id }) => {
  const open = bringBack(session.store.write, id);
  rememberOpenBuild(session.store.write, id, nowMs(session));
  return open;
};

export const buildImport: Handler<'build-import'> = (session, { fileName, text }) => {
  if (isShopText(text)) return importedShop(session, text);
  const library = session.library();
  const read = readBuild(text, library);
  if (!read.ok) return { faults: [...read.faults] };
  const id = session.newId();
  const label = `Opened from ${fileName}`.slice(0, 120);
  return { opened: begin(session, id, accept(read, library, id), label) };
};

/** Opens the build of a whole shop that was used last. */
function importedShop(session: Session, text: string): ChannelOutput<'build-import'> {
  const taken = new Set(importShop(session.store.write, text, session.newId));
  const [first] = listBuilds(session.store.read).filter(({ id }) => taken.has(id));
  if (first) return { opened: openBuild(session.store.read, first.id) };
  const found = 'no build that is not here already';
  return { faults: [{ path: '(file)', found, expected: 'a whole shop with builds that are new' }] };
}

/** Stores a new build and makes it the open one. */
function begin(session: Session, id: string, document: StoredDocument, label: string): OpenBuild {
  return write(session.store.write, () => {
    const open = createBuild(session.store.write, {
      id,
      document,
      label,
      sample: null,
      nowMs: nowMs(session),
    });
    rememberOpenBuild(session.store.write, id, nowMs(session));
    return open;
  });
}
