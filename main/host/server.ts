/** The loopback host: the built page by GET, the channels by POST, nothing else. */
import { createServer, type IncomingMessage, type Server, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import type { Answer, ErrorCode } from '../../app/contract/channels.ts';
import { answer, isChannel } from '../handlers/answer.ts';
import { fileAt, type PageFiles } from '../page/files.ts';
import { PAGE_HEADERS } from '../page/policy.ts';
import type { Session } from '../session.ts';
import { ONCE_PATH, type Admission } from './admission.ts';
import { crossSite, crossOriginRefusal, unreadable, withoutToken, type Refusal } from './guard.ts';

const LOOPBACK = '127.0.0.1';
/** A build of 12 million characters, the channel's own bound, with room for its wrapping. */
export const MAX_BODY_BYTES = 16 * 1024 * 1024;
const API = '/api/';

export interface ServerOptions {
  readonly session: Session;
  readonly page: PageFiles;
  readonly admission: Admission;
  readonly port: number;
  /** Hears of every call that was let in. */
  readonly called?: () => void;
  /** How long headers may take, in ms. */
  readonly headersMs?: number;
}

/** Far more than the pages of one person need. */
export const MOST_SOCKETS = 200;
/** A connection that has not said what it wants by then is closed. */
const HEADERS_MS = 10_000;

/** A listening server and its address, as in `127.0.0.1:41234`. */
export async function listen(
  options: ServerOptions,
): Promise<{ readonly server: Server; readonly here: string }> {
  const headersTimeout = options.headersMs ?? HEADERS_MS;
  const server = createServer({
    requestTimeout: 60_000,
    headersTimeout,
    // How often slow ones are looked for: by default less often than they are to be closed.
    connectionsCheckingInterval: headersTimeout / 5,
  });
  server.maxConnections = MOST_SOCKETS;
  await new Promise<void>((resolve, reject) => {
    server.once('error', reject);
    server.listen(options.port, LOOPBACK, resolve);
  });
  const here = `${LOOPBACK}:${(server.address() as AddressInfo).port}`;
  server.on('request', (request, response) => {
    respond(options, here, request, response).catch((error: unknown) => {
      options.session.report(`host: ${String(error)}`);
      response.destroy();
    });
  });
  return { server, here };
}

async function respond(
  { session, page, admission, called }: ServerOptions,
  here: string,
  request: IncomingMessage,
  response: ServerResponse,
): Promise<void> {
  const { headers, method } = request;
  const path = request.url ?? '';
  const stranger = crossOriginRefusal(headers, here);
  if (stranger) return refuse(response, stranger);
  if (path.startsWith(`${ONCE_PATH}?`)) {
    const far = crossSite(headers);
    return far ? refuse(response, far) : handOver(admission, method, path, response);
  }
  if (!path.startsWith(API)) return sendFile(page, method, path, response);

  const far = crossSite(headers);
  if (far) return refuse(response, far);
  const closed = withoutToken(headers, admission.token);
  if (closed) return refuseLate(admission, response, closed);
  called?.();
  const name = path.slice(API.length);
  if (!isChannel(name)) return refuse(response, { status: 404, detail: 'No such channel.' });
  if (method !== 'POST') return refuse(response, { status: 405, detail: 'POST is expected.' });
  const odd = unreadable(headers, MAX_BODY_BYTES);
  if (odd) return refuse(response, odd);
  const body = await readBody(request);
  if (body === null) return refuse(response, { status: 413, detail: 'The message is too long.' });
  let message: unknown;
  try {
    message = JSON.parse(new TextDecoder('utf-8', { fatal: true }).decode(body));
  } catch {
    return refuse(response, { status: 400, detail: 'The message is no JSON.' });
  }
  sendJson(response, 200, await answer(session, name, message));
}

/** A link of the program: good once, and only for the address bar or the page itself. */
async function handOver(
  admission: Admission,
  method: string | undefined,
  path: string,
  response: ServerResponse,
): Promise<void> {
  const once = new URLSearchParams(path.slice(path.indexOf('?'))).get('once');
  if (method !== 'GET') return refuse(response, { status: 405, detail: 'GET is expected.' });
  if (!admission.redeem(once)) {
    const detail = 'This link was used before. Open the address that the program printed.';
    return refuseLate(admission, response, { status: 410, detail });
  }
  response.writeHead(303, { ...PAGE_HEADERS, location: `/#token=${admission.token}` });
  response.end();
}

/** A wrong guess is answered later each time; too many at once are cut off. */
async function refuseLate(
  admission: Admission,
  response: ServerResponse,
  refusal: Refusal,
): Promise<void> {
  const waitMs = admission.wrongGuess();
  if (waitMs === null) {
    response.destroy();
    return;
  }
  await new Promise((resolve) => setTimeout(resolve, waitMs));
  admission.answered();
  refuse(response, refusal);
}

function sendFile(
  page: PageFiles,
  method: string | undefined,
  path: string,
  response: ServerResponse,
): void {
  const file = fileAt(page, path);
  if (!file) return refuse(response, { status: 404, detail: 'No such file.' });
  if (method !== 'GET' && method !== 'HEAD') {
    return refuse(response, { status: 405, detail: 'GET is expected.' });
  }
  response.writeHead(200, {
    ...PAGE_HEADERS,
    'content-type': file.type,
    'content-length': file.body.length,
  });
  response.end(method === 'HEAD' ? undefined : file.body);
}

/** The body, or null as soon as it is longer than allowed. */
async function readBody(request: IncomingMessage): Promise<Buffer | null> {
  const chunks: Buffer[] = [];
  let length = 0;
  for await (const chunk of request as AsyncIterable<Buffer>) {
    length += chunk.length;
    if (length > MAX_BODY_BYTES) return null;
    chunks.push(chunk);
  }
  return Buffer.concat(chunks, length);
}

const CODES: Readonly<Record<number, ErrorCode>> = { 400: 'bad-message', 404: 'not-found' };

function refuse(response: ServerResponse, { status, detail }: Refusal): void {
  // The rest of a refused body is not read, so the connection cannot serve another request.
  response.setHeader('connection', 'close');
  sendJson(response, status, { ok: false, code: CODES[status] ?? 'refused', detail });
}

function sendJson(response: ServerResponse, status: number, value: Answer<unknown>): void {
  const body = Buffer.from(JSON.stringify(value));
  response.writeHead(status, {
    ...PAGE_HEADERS,
    'content-type': 'application/json; charset=utf-8',
    'content-length': body.length,
  });
  response.end(body);
}
