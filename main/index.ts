/** Electron's main process: one window, one session, nothing from elsewhere. */
import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import {
  app,
  BrowserWindow,
  dialog,
  ipcMain,
  Menu,
  Notification,
  powerMonitor,
  powerSaveBlocker,
  protocol,
  screen,
  session as electronSession,
  type SaveDialogOptions,
  type WebContents,
} from 'electron';
import { MENU_CHANNEL } from '../app/contract/menu.ts';
import { fixedClock, machineClock } from './clock.ts';
import { dataFolder } from './data-folder.ts';
import { alarmKeeper } from './electron/alarms.ts';
import { keeperAwake } from './electron/awake.ts';
import { PLANNER_URL, SCHEME } from './electron/address.ts';
import { openingBounds } from './electron/bounds.ts';
import { sealContents, sealSession } from './electron/deny.ts';
import { menuTemplate } from './electron/menu.ts';
import { guardLeaving } from './electron/leaving.ts';
import { registerChannels } from './electron/messages.ts';
import { fileIn, takeFile } from './electron/openFile.ts';
import { printSheets, saveText } from './electron/print.ts';
import { answerRequest, PRIVILEGES } from './electron/scheme.ts';
import { plannerWindow, sheetsWindow } from './electron/window-settings.ts';
import { createIds } from './ids.ts';
import { ownArguments, readOptions } from './options.ts';
import { readPage } from './page/files.ts';
import { projectRoot } from './root.ts';
import { openSession, type Session } from './session.ts';
import { StoreUnavailable } from './store/errors.ts';
import { noteDeath, readView, saveView } from './store/state.ts';

const root = projectRoot();
const read = readOptions(ownArguments(process.argv, app.isPackaged));
const dataDir = dataFolder(read.ok ? read.options.dataDir : null);
let planner: BrowserWindow | null = null;
/** True while the whole program is asked to end, not its window alone. */
let quitting = false;
/** Takes a build file in once the session is open; before that the last one handed over waits. */
let openFile = (path: string | null): void => void (handedOver = path ?? handedOver);
let handedOver: string | null = null;
/** How long the page may take to store what it still holds before the person is asked. */
const SAVING_MS = 700;

app.enableSandbox();
protocol.registerSchemesAsPrivileged([{ scheme: SCHEME, privileges: PRIVILEGES }]);

if (!read.ok) {
  process.stderr.write(`${read.fault}\n`);
  app.exit(2);
} else if (!keepChromiumIn(join(dataDir, 'window'))) {
  giveUp(new StoreUnavailable(`The data folder cannot be made or written to. (${dataDir})`));
} else if (!app.requestSingleInstanceLock()) {
  app.quit();
} else {
  app.on('second-instance', (_event, argv, cwd) => {
    showPlanner();
    openFile(fileIn(argv, app.isPackaged, cwd));
  });
  // The system may hand a file over before the program is ready.
  app.on('open-file', (event, path) => {
    event.preventDefault();
    openFile(path);
  });
  app.on('web-contents-created', (_event, contents) => sealContents(contents));
  app.on('before-quit', () => {
    quitting = true;
  });
  app.on('window-all-closed', () => {
    if (process.platform !== 'darwin') app.quit();
  });
  app.whenReady().then(begin).catch(giveUp);
}

/** Chromium's own files, and with them the lock for a single instance, belong to the data folder. */
function keepChromiumIn(folder: string): boolean {
  try {
    mkdirSync(folder, { recursive: true, mode: 0o700 });
    app.setPath('userData', folder);
    return true;
  } catch {
    return false;
  }
}

function begin(): void {
  const now = read.ok ? read.options.now : null;
  const waiting = new Map<string, string>();
  const newId = createIds(() => Date.now());
  const askWhere = (options: SaveDialogOptions) =>
    planner ? dialog.showSaveDialog(planner, options) : dialog.showSaveDialog(options);
  const session = openSession({
    runtime: 'electron',
    dataDir,
    clock: now ? fixedClock(now) : machineClock,
    print: (sheets) =>
      printSheets(
        {
          waiting,
          newId,
          openHidden: () => new BrowserWindow(sheetsWindow()),
          askWhere,
        },
        sheets,
      ),
    saveText: (name, text) => saveText({ newId, askWhere }, name, text),
    keepAwake: keeperAwake(powerSaveBlocker),
    setAlarms: alarmKeeper({ nowMs: () => Date.now(), show: callOut, every: onTheClock }),
  });
  const files = readPage(join(root, 'out', 'renderer'));
  sealSession(electronSession.defaultSession, app.isPackaged);
  protocol.handle(SCHEME, (request) => answerRequest(files, waiting, request));
  registerChannels(ipcMain, session, isPlanner);
  Menu.setApplicationMenu(
    Menu.buildFromTemplate(
      menuTemplate(process.platform, app.isPackaged, (command) =>
        planner?.webContents.send(MENU_CHANNEL, command),
      ),
    ),
  );
  app.on('activate', () => {
    if (planner === null) openPlanner(session);
  });
  app.on('will-quit', session.close);
  app.on('child-process-gone', (_event, { type, reason }) => session.report(`${type}: ${reason}`));
  openPlanner(session);
  openFile = (path) => void (path !== null && takeIn(session, path));
  openFile(handedOver ?? fileIn(process.argv, app.isPackaged, process.cwd()));
  if (session.store.notice) dialog.showErrorBox('About the data file', session.store.notice);
}

/** Opens a build file in the window, or says why not. */
async function takeIn(session: Session, path: string): Promise<void> {
  const fault = await takeFile(session, path);
  if (fault !== null) dialog.showErrorBox('The file was not opened', fault);
  else if (planner === null) openPlanner(session);
  else planner.loadURL(PLANNER_URL).catch(giveUp);
}

/** Shown by the system; a click on it brings the window back. */
function callOut(title: string, body: string): void {
  if (!Notification.isSupported()) return;
  const note = new Notification({ title, body, urgency: 'critical', timeoutType: 'never' });
  note.on('click', showPlanner);
  note.show();
}

function onTheClock(ms: number, call: () => void): () => void {
  const timer = setInterval(call, ms);
  powerMonitor.on('resume', call);
  return () => {
    clearInterval(timer);
    powerMonitor.off('resume', call);
  };
}

const isPlanner = (contents: WebContents): boolean => planner?.webContents === contents;

function showPlanner(): void {
  if (planner?.isMinimized()) planner.restore();
  planner?.focus();
}

function openPlanner(session: Session): void {
  const screens = [
    screen.getPrimaryDisplay(),
    ...screen.getAllDisplays().filter(({ id }) => id !== screen.getPrimaryDisplay().id),
  ];
  const bounds = openingBounds(
    readView(session.store.read, 'window'),
    screens.map((display) => display.workArea),
  );
  const preload = join(root, 'out', 'preload', 'index.cjs');
  const window = new BrowserWindow(plannerWindow(preload, app.isPackaged, bounds));
  planner = window;
  window.once('ready-to-show', () => window.show());
  window.on('close', () => {
    try {
      saveView(session.store.write, 'window', { ...window.getNormalBounds() }, Date.now());
    } catch (error) {
      // A full disk must not keep the window open.
      session.report(`window: ${String(error)}`);
    }
  });
  guardLeaving(window, {
    ask: async (options) => (await dialog.showMessageBox(window, options)).response,
    pause: () => new Promise((done) => setTimeout(done, SAVING_MS)),
    close: () => (quitting ? app.quit() : window.close()),
    stayed: () => {
      quitting = false;
    },
  });
  window.on('closed', () => {
    planner = null;
  });
  window.webContents.on('render-process-gone', (_event, { reason }) => {
    if (reason === 'clean-exit') return;
    noteDeath(session.store.write);
    offerToReopen(window, reason);
  });
  window.on('unresponsive', () => {
    if (wantsAnother(window)) window.webContents.forcefullyCrashRenderer();
  });
  window.loadURL(PLANNER_URL).catch(giveUp);
}

/** Asked when the page does not answer; a page that is ended is opened again by what follows that. */
const wantsAnother = (window: BrowserWindow): boolean =>
  dialog.showMessageBoxSync(window, {
    type: 'warning',
    message: "The planner's page does not answer.",
    detail: 'Wait for it, or open it again: what the bar called saved is safe.',
    buttons: ['Wait', 'Open again'],
    defaultId: 0,
    cancelId: 0,
  }) === 1;

function offerToReopen(window: BrowserWindow, reason: string): void {
  const choice = dialog.showMessageBoxSync(window, {
    type: 'error',
    message: "The planner's page has stopped.",
    detail: `What the bar called saved is safe. (${reason})`,
    buttons: ['Open again', 'Quit'],
    defaultId: 0,
    cancelId: 1,
  });
  if (choice === 0) window.loadURL(PLANNER_URL).catch(giveUp);
  else app.quit();
}

function giveUp(error: unknown): void {
  const plain = error instanceof StoreUnavailable;
  const detail = plain
    ? error.message
    : error instanceof Error
      ? (error.stack ?? '')
      : String(error);
  process.stderr.write(`${detail}\n`);
  dialog.showErrorBox('Backcure cannot start', detail);
  app.exit(1);
}
