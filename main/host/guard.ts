/** Who may speak to the loopback host. Every rule is a refusal with its status. */
import { createHash, timingSafeEqual } from 'node:crypto';
import type { IncomingHttpHeaders } from 'node:http';

export interface Refusal {
  readonly status: number;
  readonly detail: string;
}

const refuse = (status: number, detail: string): Refusal => ({ status, detail });

/**
 * A request from elsewhere: under a host name made to resolve to this machine, or by a page of another
 * origin.
 * @param here as in `127.0.0.1:41234`
 */
export function crossOriginRefusal(headers: IncomingHttpHeaders, here: string): Refusal | null {
  if (headers.host !== here) return refuse(403, 'This host answers to its own address alone.');
  const { origin } = headers;
  if (origin !== undefined && origin !== `http://${here}`) {
    return refuse(403, 'A page of another origin has no business here.');
  }
  return null;
}

/** A call by a page of another site, by what the browser itself says in its headers. */
export function crossSite(headers: IncomingHttpHeaders): Refusal | null {
  const site = headers['sec-fetch-site'];
  if (site === undefined || site === 'same-origin') return null;
  return refuse(403, 'A page of another origin has no business here.');
}

/** The session's token as a bearer, compared in constant time. */
export function withoutToken(headers: IncomingHttpHeaders, token: string): Refusal | null {
  const match = /^Bearer ([\w-]+)$/.exec(headers.authorization ?? '');
  const digest = (text: string) => createHash('sha256').update(text).digest();
  if (match && timingSafeEqual(digest(match[1]!), digest(token))) return null;
  return refuse(401, 'Open the address that the program printed.');
}

/** JSON in plain UTF-8, of a bounded size as far as the header says. */
export function unreadable(headers: IncomingHttpHeaders, maxBytes: number): Refusal | null {
  const [type, ...parameters] = (headers['content-type'] ?? '')
    .split(';')
    .map((part) => part.trim().toLowerCase());
  const plain = parameters.every((part) => part === 'charset=utf-8' || part === 'charset="utf-8"');
  const encoding = headers['content-encoding'];
  if (type !== 'application/json' || !plain || (encoding && encoding !== 'identity')) {
    return refuse(415, 'JSON is expected.');
  }
  if (Number(headers['content-length'] ?? 0) > maxBytes)
    return refuse(413, 'The message is too long.');
  return null;
}
