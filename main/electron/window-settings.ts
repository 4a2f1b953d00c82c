/** How windows are made. Written out in full, also where Electron's default is the same. */
import type { BrowserWindowConstructorOptions, WebPreferences } from 'electron';
import type { Bounds } from './bounds.ts';

const CLOSED: WebPreferences = {
  contextIsolation: true,
  sandbox: true,
  nodeIntegration: false,
  nodeIntegrationInWorker: false,
  nodeIntegrationInSubFrames: false,
  webSecurity: true,
  allowRunningInsecureContent: false,
  webviewTag: false,
  navigateOnDragDrop: false,
  plugins: false,
  // Dictionaries would be fetched from the network.
  spellcheck: false,
};

/** @param preload absolute path of the bundled CommonJS script */
export function plannerWindow(
  preload: string,
  packaged: boolean,
  bounds: Bounds,
): BrowserWindowConstructorOptions {
  return {
    ...bounds,
    minWidth: 720,
    minHeight: 480,
    show: false,
    title: 'Backcure',
    backgroundColor: '#f4f1ea',
    webPreferences: { ...CLOSED, devTools: !packaged, preload },
  };
}

/** A sheet needs no script: it is laid out and printed. */
export function sheetsWindow(): BrowserWindowConstructorOptions {
  return {
    show: false,
    webPreferences: { ...CLOSED, devTools: false, javascript: false },
  };
}
