/// <reference types="vite/client" />
/** The shipped library for tests that also run in a document, where no file is read. */
import { librarySchema } from '../app/document/schema.ts';

const tables = import.meta.glob<Record<string, unknown[]>>('../samples/library/*.json', {
  eager: true,
  import: 'default',
});

export const library = librarySchema.parse(
  Object.values(tables).reduce((all, table) => {
    for (const [name, rows] of Object.entries(table)) all[name] = [...(all[name] ?? []), ...rows];
    return all;
  }, {}),
);
