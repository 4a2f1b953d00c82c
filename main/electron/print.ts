/** Sheets to paper or PDF, through a hidden window that can do nothing else; texts to files. */
import { rename, rm, writeFile } from 'node:fs/promises';
import type { BrowserWindow, SaveDialogOptions, SaveDialogReturnValue } from 'electron';
import type { Sheets } from '../session.ts';
import { SCHEME, SHEETS_HOST } from './address.ts';

interface HiddenContents {
  print: BrowserWindow['webContents']['print'];
  printToPDF: BrowserWindow['webContents']['printToPDF'];
}

/** The few things of a hidden window that printing uses. */
export interface HiddenWindow {
  loadURL(url: string): Promise<void>;
  destroy(): void;
  readonly webContents: HiddenContents;
}

export interface PrintShop {
  /** Sheets that wait, by path; shared with the scheme's handler. */
  readonly waiting: Map<string, string>;
  readonly newId: () => string;
  readonly openHidden: () => HiddenWindow;
  readonly askWhere: (options: SaveDialogOptions) => Promise<SaveDialogReturnValue>;
}

/** False when the person cancelled. @throws Error when the printer or the disk refuses */
export async function printSheets(shop: PrintShop, sheets: Sheets): Promise<boolean> {
  const target = sheets.to === 'pdf' ? await pdfTarget(shop, sheets.name) : null;
  if (sheets.to === 'pdf' && target === null) return false;
  const path = `/${shop.newId()}`;
  shop.waiting.set(path, sheets.html);
  const window = shop.openHidden();
  try {
    await window.loadURL(`${SCHEME}://${SHEETS_HOST}${path}`);
    if (target === null) return await toPrinter(window.webContents);
    await toFile(window.webContents, target, shop.newId());
    return true;
  } finally {
    window.destroy();
    shop.waiting.delete(path);
  }
}

async function pdfTarget(shop: PrintShop, name: string): Promise<string | null> {
  const { canceled, filePath } = await shop.askWhere({
    title: 'Save the sheets as PDF',
    defaultPath: `${plainFileName(name)}.pdf`,
    filters: [{ name: 'PDF', extensions: ['pdf'] }],
  });
  return canceled || !filePath ? null : filePath;
}

function toPrinter(contents: HiddenContents): Promise<boolean> {
  return new Promise((resolve, reject) => {
    contents.print({ silent: false, printBackground: true }, (done, reason) => {
      // Electron has one answer for 'cancelled' and 'failed'; the reason's text tells them apart.
      if (done || /cancel/i.test(reason)) resolve(done);
      else reject(new Error(`The printer did not take the sheets: ${reason}`));
    });
  });
}

async function toFile(contents: HiddenContents, target: string, mark: string): Promise<void> {
  const pdf = await contents.printToPDF({ printBackground: true, preferCSSPageSize: true });
  await writeWhole(target, pdf, mark);
}

/** False when the person cancelled. @throws Error when the disk refuses */
export async function saveText(
  shop: Pick<PrintShop, 'askWhere' | 'newId'>,
  name: string,
  text: string,
): Promise<boolean> {
  const ending = /\.([a-z]{1,8})$/i.exec(name)?.[1]?.toLowerCase() ?? 'txt';
  const { canceled, filePath } = await shop.askWhere({
    title: `Save as ${ending.toUpperCase()}`,
    defaultPath: `${plainFileName(name.replace(/\.[a-z]{1,8}$/i, ''))}.${ending}`,
    filters: [{ name: ending.toUpperCase(), extensions: [ending] }],
  });
  if (canceled || !filePath) return false;
  await writeWhole(filePath, text, shop.newId());
  return true;
}

/** Written beside the target and renamed, so that no half a file is ever left under its name. */
async function writeWhole(
  target: string,
  content: Uint8Array | string,
  mark: string,
): Promise<void> {
  const draft = `${target}.${mark}.part`;
  try {
    await writeFile(draft, content, { flag: 'wx' });
    await rename(draft, target);
  } catch (error) {
    await rm(draft, { force: true });
    throw error;
  }
}

/** A file name on any of the three systems, from a name that may hold anything. */
export function plainFileName(name: string): string {
  const plain = name
    // eslint-disable-next-line no-control-regex -- control characters are what is removed
    .replace(/[\u0000-\u001f\u007f\\/:*?"<>|]+/g, '-')
    .replace(/^[.\s-]+|[.\s]+$/g, '')
    .slice(0, 100);
  return plain || 'sheets';
}
