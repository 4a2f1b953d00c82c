/** The history of a build: reading it, naming a state, and going back to one. */
import { documentAt, history, nameVersion, returnTo } from '../store/versions.ts';
import type { Handler } from './types.ts';

export const historyList: Handler<'history-list'> = ({ store }, { id }) => history(store.read, id);

export const versionName: Handler<'version-name'> = ({ store, clock }, naming) => {
  nameVersion(store.write, { ...naming, nowMs: clock.now().getTime() });
  return history(store.read, naming.id);
};

export const versionRead: Handler<'version-read'> = ({ store }, { id, revision }) => ({
  document: documentAt(store.read, id, revision),
});

export const versionReturn: Handler<'version-return'> = ({ store, clock }, wanted) =>
  returnTo(store.write, { ...wanted, nowMs: clock.now().getTime() });
