/** Rates of work that the shop keeps for its next builds. */
import { keepOwnRow } from '../store/library.ts';
import type { Handler } from './types.ts';

export const rateKeep: Handler<'rate-keep'> = (session, { row }) => {
  keepOwnRow(session.store.write, 'labour', row, session.clock.now().getTime());
  return { library: session.library() };
};
