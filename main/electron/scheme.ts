/** Answers requests for our own scheme: the built page, and sheets that wait to be printed. */
import { fileAt, type PageFiles } from '../page/files.ts';
import { PAGE_HEADERS } from '../page/policy.ts';
import { addressOf, PLANNER_HOST, SHEETS_HOST } from './address.ts';

/** What `protocol.registerSchemesAsPrivileged` is told; never `bypassCSP`. */
export const PRIVILEGES = { standard: true, secure: true, supportFetchAPI: true };

/** A sheet is paper: its own styles and drawings, no script, no file, no network. */
const SHEETS_POLICY =
  "default-src 'none'; style-src 'unsafe-inline'; img-src data:; base-uri 'none'; form-action 'none'";

/** Sheets by the path they are served at, as `/0198…`. */
export type WaitingSheets = ReadonlyMap<string, string>;

export function answerRequest(
  files: PageFiles,
  sheets: WaitingSheets,
  request: { readonly url: string; readonly method: string },
): Response {
  const address = addressOf(request.url);
  if (request.method === 'GET' && address?.host === PLANNER_HOST) {
    const file = fileAt(files, address.path);
    if (file) return page(new Uint8Array(file.body), file.type, PAGE_HEADERS);
  }
  if (request.method === 'GET' && address?.host === SHEETS_HOST) {
    const html = sheets.get(address.path);
    const headers = { ...PAGE_HEADERS, 'content-security-policy': SHEETS_POLICY };
    if (html !== undefined) return page(html, 'text/html; charset=utf-8', headers);
  }
  return new Response('No such file.', { status: 404, headers: PAGE_HEADERS });
}

function page(
  body: string | Uint8Array<ArrayBuffer>,
  type: string,
  headers: Readonly<Record<string, string>>,
): Response {
  return new Response(body, { headers: { ...headers, 'content-type': type } });
}
