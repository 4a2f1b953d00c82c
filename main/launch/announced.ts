/**
 * Loaded into Electron's installer before it runs: tells the parent process how many bytes the
 * server announced. Node publishes the headers of every fetch on this channel, so nothing of the
 * installer is changed.
 */
import { subscribe } from 'node:diagnostics_channel';

interface Headers {
  readonly response: { readonly statusCode: number; readonly headers: readonly Buffer[] };
}

subscribe('undici:request:headers', (message) => {
  const { statusCode, headers } = (message as Headers).response;
  const at = headers.findIndex(
    (name, i) => i % 2 === 0 && name.toString().toLowerCase() === 'content-length',
  );
  const bytes = Number(headers[at + 1]?.toString());
  // A redirection announces the length of its own few words.
  if (statusCode === 200 && at >= 0 && bytes > 0) process.send?.(bytes);
});
