/** Paper and PDF, where the runtime can do it itself. */
import { StoreRefusal } from '../store/errors.ts';
import type { Handler } from './types.ts';

export const printSheets: Handler<'print-sheets'> = async (session, sheets) => {
  if (session.print === null) {
    throw new StoreRefusal('not-here', "Print from the browser's own print dialog.");
  }
  return { done: await session.print(sheets) };
};
