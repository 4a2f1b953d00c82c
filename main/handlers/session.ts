/** Start of a session, its clock and what a window keeps. */
import type { BuildSummary, DraftSummary, OpenBuild } from '../../app/contract/channels.ts';
import type { Session } from '../session.ts';
import { listBuilds, openBuild } from '../store/builds.ts';
import { StoreRefusal } from '../store/errors.ts';
import { listDrafts, openDraft } from '../store/drafts.ts';
import { hasDied, lastOpenBuild, lastOpenDraft, readView, saveView } from '../store/state.ts';
import type { Handler } from './types.ts';

export const sessionStart: Handler<'session-start'> = (session) => {
  const builds = listBuilds(session.store.read);
  const drafts = listDrafts(session.store.read);
  const lastDraft = lastOpenDraft(session.store.read);
  const notOpened = hasDied(session.store.read) ? lastOpen(session, builds, drafts) : null;
  const draft = notOpened ? undefined : drafts.find(({ id }) => id === lastDraft);
  const open = notOpened ? null : firstOpen(session, builds);
  const notice = [session.store.notice, draft ? null : open?.notice]
    .filter((words) => Boolean(words))
    .join(' ');
  return {
    runtime: session.runtime,
    now: session.clock.now().toISOString(),
    nowFixed: session.clock.fixed,
    library: session.library(),
    builds,
    open,
    drafts,
    draft: draft ? openDraft(session.store.read, draft.id) : null,
    view: readView(session.store.read, 'planner'),
    ...(notOpened ? { notOpened } : {}),
    ...(notice ? { notice } : {}),
  };
};

/** The build or draft that was open last, where it is still there. */
function lastOpen(
  { store }: Session,
  builds: readonly BuildSummary[],
  drafts: readonly DraftSummary[],
): { readonly id: string; readonly name: string | null; readonly draft: boolean } | null {
  const draft = drafts.find(({ id }) => id === lastOpenDraft(store.read));
  if (draft) return { id: draft.id, name: draft.name, draft: true };
  const build = builds.find(({ id }) => id === lastOpenBuild(store.read));
  return build ? { id: build.id, name: build.name, draft: false } : null;
}

/** The build that was open last; on a first start the roomy sample; else the last changed that opens. */
function firstOpen(session: Session, builds: readonly BuildSummary[]): OpenBuild | null {
  const last = lastOpenBuild(session.store.read);
  const order = [
    ...builds.filter(({ id }) => id === last),
    ...builds.filter(({ id, sample }) => id !== last && sample),
    ...builds.filter(({ id, sample }) => id !== last && !sample),
  ];
  for (const { id } of order) {
    try {
      return openBuild(session.store.read, id);
    } catch (error) {
      // One damaged build must not keep the program from starting.
      session.report(`build ${id}: ${String(error)}`);
    }
  }
  return null;
}

/** Panels, zoom and selection take far less. */
const LONGEST_VIEW = 200_000;

export const viewSave: Handler<'view-save'> = (session, { view }) => {
  const nowMs = session.clock.now().getTime();
  if (
    JSON.stringify(view).length > LONGEST_VIEW ||
    (!session.store.readOnly &&
      !saveView(session.store.write, 'planner', view, nowMs, LONGEST_VIEW))
  ) {
    throw new StoreRefusal('refused', 'The state of the window is too large to be kept.');
  }
  return {};
};
