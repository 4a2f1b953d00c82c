/**
 * The window of `npm run dev`: Electron on the page of the dev server. Store and handlers are those of the
 * loopback host, as for a browser, so that it has no preload and no channels. It is bundled by
 * `main/dev.ts` alone and is no part of the program.
 */
import { app, BrowserWindow, session, type Session, type WebContents } from 'electron';
import { devOrigin, devPolicy, mayBeAskedInDev } from './devRules.ts';
import { sheetsWindow } from './window-settings.ts';

const [address = '', folder = ''] = process.argv.slice(-2);
const origin = devOrigin(address);

if (origin === null || folder === '') {
  process.stderr.write('dev: expected the address of a dev server and a folder\n');
  app.exit(2);
} else {
  app.enableSandbox();
  app.setPath('userData', folder);
  app.on('web-contents-created', (_event, contents) => keepOn(contents, origin));
  app.on('window-all-closed', () => app.quit());
  app
    .whenReady()
    .then(async () => {
      sealFor(session.defaultSession, origin);
      const closed = sheetsWindow();
      const window = new BrowserWindow({
        width: 1280,
        height: 860,
        title: 'Backcure, in development',
        webPreferences: { ...closed.webPreferences, devTools: true, javascript: true },
      });
      await window.loadURL(address);
    })
    .catch((error: unknown) => {
      process.stderr.write(`dev: ${String(error)}\n`);
      app.exit(1);
    });
}

/** Keeps a window on the dev server. */
function keepOn(contents: WebContents, allowed: string): void {
  contents.on('will-navigate', (event) => {
    if (devOrigin(event.url) !== allowed) event.preventDefault();
  });
  contents.setWindowOpenHandler(() => ({ action: 'deny' }));
  contents.on('will-attach-webview', (event) => event.preventDefault());
}

/** Refuses permissions, downloads and every request to elsewhere, and gives the page its policy. */
function sealFor(page: Session, allowed: string): void {
  page.setPermissionRequestHandler((_contents, _permission, decide) => decide(false));
  page.setPermissionCheckHandler(() => false);
  page.on('will-download', (event) => event.preventDefault());
  page.webRequest.onBeforeRequest(({ url }, decide) =>
    decide({ cancel: !mayBeAskedInDev(url, allowed) }),
  );
  page.webRequest.onHeadersReceived(({ responseHeaders }, decide) =>
    decide({
      responseHeaders: { ...responseHeaders, 'content-security-policy': [devPolicy(allowed)] },
    }),
  );
}
