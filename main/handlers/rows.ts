/** Rates and odds that the shop keeps for its next builds. */
import { keepOwnRow } from '../store/library.ts';
import type { Handler } from './types.ts';

export const rowKeep: Handler<'row-keep'> = (session, { table, row }) => {
  keepOwnRow(session.store.write, table, row, session.clock.now().getTime());
  return { library: session.library() };
};
