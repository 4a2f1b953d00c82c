/** Paper, PDF and files, where the runtime can do it itself. */
import { StoreRefusal } from '../store/errors.ts';
import type { Handler } from './types.ts';

export const printSheets: Handler<'print-sheets'> = async (session, sheets) => {
  if (session.print === null) {
    throw new StoreRefusal('not-here', "Print from the browser's own print dialog.");
  }
  return { done: await session.print(sheets) };
};

export const textSave: Handler<'text-save'> = async (session, { name, text }) => {
  if (session.saveText === null) {
    throw new StoreRefusal('not-here', "Save from the browser's own download.");
  }
  return { done: await session.saveText(name, text) };
};
