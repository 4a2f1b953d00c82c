/**
 * What the window of `npm run dev` may ask for: the dev server on this machine and nothing else. The built
 * program takes none of this in; a test says so.
 */
import { CONTENT_POLICY } from '../page/policy.ts';

/** The origin of a dev server on this machine, `http://127.0.0.1:PORT`; null for any other address. */
export function devOrigin(address: string): string | null {
  if (!URL.canParse(address)) return null;
  const { protocol, hostname, port, origin, username } = new URL(address);
  const here = protocol === 'http:' && hostname === '127.0.0.1' && port !== '' && username === '';
  return here ? origin : null;
}

/** The dev server, its socket for hot reload, what a page makes itself, and the developer tools. */
export function mayBeAskedInDev(url: string, origin: string): boolean {
  if (!URL.canParse(url)) return false;
  const { protocol, host } = new URL(url);
  if (protocol === 'http:' || protocol === 'ws:') return host === new URL(origin).host;
  return protocol === 'blob:' || protocol === 'data:' || protocol === 'devtools:';
}

/** The policy of the page, with the two things that hot reload needs: styles set by script, and its socket. */
export const devPolicy = (origin: string): string =>
  CONTENT_POLICY.replace("style-src 'self'", "style-src 'self' 'unsafe-inline'").replace(
    "connect-src 'self'",
    `connect-src 'self' ws://${new URL(origin).host}`,
  );
