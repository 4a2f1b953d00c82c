import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import {
  plainFileName,
  printSheets,
  saveText,
  type HiddenWindow,
  type PrintShop,
} from '../../../main/electron/print.ts';
import { scratchFolder } from './fixtures.ts';

/** A print shop with a stand-in window, which writes down what it was asked for. */
function shop(answers: {
  printed?: [boolean, string];
  target?: string;
  pdf?: () => Promise<Buffer>;
}) {
  const asked: unknown[] = [];
  const waiting = new Map<string, string>();
  let destroyed = 0;
  const window: HiddenWindow = {
    loadURL: async (url) => void asked.push(url, [...waiting.values()]),
    destroy: () => void (destroyed += 1),
    webContents: {
      print: (options: unknown, done: (ok: boolean, reason: string) => void) => {
        asked.push(options);
        done(...(answers.printed ?? [true, '']));
      },
      printToPDF: async (options: unknown) => {
        asked.push(options);
        return answers.pdf ? answers.pdf() : Buffer.from('%PDF');
      },
    } as HiddenWindow['webContents'],
  };
  const made: PrintShop = {
    waiting,
    newId: () => 'id',
    openHidden: () => window,
    askWhere: async (options) => {
      asked.push(options.defaultPath);
      return { canceled: answers.target === undefined, filePath: answers.target ?? '' };
    },
  };
  return { made, asked, waiting, destroyed: () => destroyed };
}

const week = { html: '<p>Week</p>', name: 'Week 16' };

describe('sheets to the printer', () => {
  it('are laid out at an address of their own and go through the dialog', async () => {
    const { made, asked, waiting, destroyed } = shop({});
    expect(await printSheets(made, { ...week, to: 'dialog' })).toBe(true);
    expect(asked).toEqual([
      'backcure://sheets/id',
      ['<p>Week</p>'],
      { silent: false, printBackground: true },
    ]);
    expect([waiting.size, destroyed()]).toEqual([0, 1]);
  });

  it('that the person cancelled are not done, and no fault', async () => {
    const { made } = shop({ printed: [false, 'Print job canceled'] });
    expect(await printSheets(made, { ...week, to: 'dialog' })).toBe(false);
  });

  it('that the printer refused are a fault, and the window is gone', async () => {
    const { made, waiting, destroyed } = shop({ printed: [false, 'Print job failed'] });
    await expect(printSheets(made, { ...week, to: 'dialog' })).rejects.toThrow('failed');
    expect([waiting.size, destroyed()]).toEqual([0, 1]);
  });
});

describe('sheets as PDF', () => {
  it('are written whole under the name that was picked', async () => {
    const folder = scratchFolder();
    const target = join(folder, 'week.pdf');
    writeFileSync(target, 'older');
    const { made, asked } = shop({ target });
    expect(await printSheets(made, { ...week, to: 'pdf' })).toBe(true);
    expect(asked[0]).toBe('Week 16.pdf');
    expect(asked.at(-1)).toEqual({ printBackground: true, preferCSSPageSize: true });
    expect(readFileSync(target, 'utf8')).toBe('%PDF');
    expect(readdirSync(folder)).toEqual(['week.pdf']);
  });

  it('without a name open no window', async () => {
    const { made, asked, destroyed } = shop({});
    expect(await printSheets(made, { ...week, to: 'pdf' })).toBe(false);
    expect([asked.length, destroyed()]).toEqual([1, 0]);
  });

  it('that fail leave an older file as it was', async () => {
    const folder = scratchFolder();
    const target = join(folder, 'week.pdf');
    writeFileSync(target, 'older');
    const { made } = shop({ target, pdf: () => Promise.reject(new Error('no memory')) });
    await expect(printSheets(made, { ...week, to: 'pdf' })).rejects.toThrow('no memory');
    expect(readFileSync(target, 'utf8')).toBe('older');
    expect(readdirSync(folder)).toEqual(['week.pdf']);
  });
});

it.each([
  ['Week 16', 'Week 16'],
  ['../../etc/passwd', 'etc-passwd'],
  ['C:\\temp\\x', 'C-temp-x'],
  ['a\nb\u0000c', 'a-b-c'],
  ['...', 'sheets'],
  ['', 'sheets'],
  ['Größe 翼', 'Größe 翼'],
])('the name %j becomes the file name %j', (name, plain) => {
  expect(plainFileName(name)).toBe(plain);
});

describe('a text', () => {
  it('is written whole under the name that was picked', async () => {
    const folder = scratchFolder();
    const target = join(folder, 'list.csv');
    const { made, asked } = shop({ target });
    expect(await saveText(made, 'Canopy: list.csv', 'a,b\r\n')).toBe(true);
    expect(asked).toEqual(['Canopy- list.csv']);
    expect(readFileSync(target, 'utf8')).toBe('a,b\r\n');
    expect(readdirSync(folder)).toEqual(['list.csv']);
  });

  it('without a name is not written', async () => {
    expect(await saveText(shop({}).made, 'x.csv', 'a')).toBe(false);
  });
});
