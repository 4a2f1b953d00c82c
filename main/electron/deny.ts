/** Everything that a page of ours never does, refused where Electron asks. */
import type { Session, WebContents } from 'electron';
import { isOurPage, SCHEME } from './address.ts';

type SealedSession = Pick<
  Session,
  | 'setPermissionRequestHandler'
  | 'setPermissionCheckHandler'
  | 'setDevicePermissionHandler'
  | 'setDisplayMediaRequestHandler'
  | 'on'
  | 'webRequest'
>;

/** Refuses permissions, devices, screen sharing, downloads, and every request to elsewhere. */
export function sealSession(session: SealedSession, packaged: boolean): void {
  session.setPermissionRequestHandler((_contents, _permission, decide) => decide(false));
  session.setPermissionCheckHandler(() => false);
  session.setDevicePermissionHandler(() => false);
  session.setDisplayMediaRequestHandler((_request, decide) => decide({}));
  session.on('will-download', (event) => event.preventDefault());
  // Only the last listener counts, so this is the one place.
  session.webRequest.onBeforeRequest(({ url }, decide) =>
    decide({ cancel: !mayBeAsked(url, packaged) }),
  );
}

/** Our own scheme, what a page makes itself, and the developer tools of an unpackaged program. */
export function mayBeAsked(url: string, packaged: boolean): boolean {
  const protocol = URL.canParse(url) ? new URL(url).protocol : '';
  if (protocol === `${SCHEME}:` || protocol === 'blob:' || protocol === 'data:') return true;
  return protocol === 'devtools:' && !packaged;
}

type SealedContents = Pick<WebContents, 'on' | 'setWindowOpenHandler'>;

/** Keeps a window on the planner's pages. Attached to every one as it is made. */
export function sealContents(contents: SealedContents): void {
  contents.on('will-navigate', (event) => {
    if (!isOurPage(event.url)) event.preventDefault();
  });
  contents.on('will-frame-navigate', (event) => {
    if (!isOurPage(event.url)) event.preventDefault();
  });
  contents.on('will-redirect', (event) => {
    if (!isOurPage(event.url)) event.preventDefault();
  });
  contents.setWindowOpenHandler(() => ({ action: 'deny' }));
  contents.on('will-attach-webview', (event) => event.preventDefault());
}
