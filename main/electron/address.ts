/** Addresses inside Electron: a scheme of our own, so that nothing is ever read from elsewhere. */

export const SCHEME = 'backcure';
export const PLANNER_HOST = 'planner';
/** Sheets to be printed, one address each, in a hidden window. */
export const SHEETS_HOST = 'sheets';
export const PLANNER_URL = `${SCHEME}://${PLANNER_HOST}/index.html`;

/**
 * True for the planner's own pages. Protocol and host are compared, never `origin`: for a scheme of
 * our own Node answers the text `null`, as it does for `data:` and `file:`.
 */
export function isOurPage(address: string): boolean {
  return addressOf(address)?.host === PLANNER_HOST;
}

/** Host and path of an address of our scheme, or null. */
export function addressOf(address: string): { host: string; path: string } | null {
  let url: URL;
  try {
    url = new URL(address);
  } catch {
    return null;
  }
  if (url.protocol !== `${SCHEME}:` || url.username !== '' || url.port !== '') return null;
  return { host: url.host, path: url.pathname };
}
