/** Kept copies of the data, and everything as one text. */
import { listCopies } from '../store/copies.ts';
import { exportShop } from '../store/everything.ts';
import type { Handler } from './types.ts';

export const copyList: Handler<'copy-list'> = (session) => listCopies(session.store.dataDir);

export const copyRestore: Handler<'copy-restore'> = (session, { name }) => {
  session.restore(name);
  return {};
};

export const shopExport: Handler<'shop-export'> = (session) => ({
  text: exportShop(session.store.read),
});
