import type { MenuItemConstructorOptions } from 'electron';
import { describe, expect, it } from 'vitest';
import { openingBounds } from '../../../main/electron/bounds.ts';
import { menuTemplate } from '../../../main/electron/menu.ts';
import { plannerWindow, sheetsWindow } from '../../../main/electron/window-settings.ts';

const CLOSED = {
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
  spellcheck: false,
};

describe('window settings', () => {
  it('of the planner are the closed ones, and nothing else is set', () => {
    const { webPreferences } = plannerWindow('/out/preload/index.cjs', true, {
      width: 1,
      height: 1,
    });
    expect(webPreferences).toEqual({
      ...CLOSED,
      devTools: false,
      preload: '/out/preload/index.cjs',
    });
  });

  it('leave the developer tools to an unpackaged program', () => {
    const { webPreferences } = plannerWindow('/p', false, { width: 1, height: 1 });
    expect(webPreferences?.devTools).toBe(true);
  });

  it('of a sheet are closed, hidden, without script and without a bridge', () => {
    expect(sheetsWindow()).toEqual({
      show: false,
      webPreferences: { ...CLOSED, devTools: false, javascript: false },
    });
  });
});

describe('the place of the window', () => {
  const main = { x: 0, y: 25, width: 1440, height: 875 };
  const left = { x: -1920, y: 0, width: 1920, height: 1080 };

  it('is the usual size on a first start, cut to a small screen', () => {
    expect(openingBounds({}, [main])).toEqual({ width: 1280, height: 860 });
    expect(openingBounds({}, [{ x: 0, y: 0, width: 800, height: 600 }])).toEqual({
      width: 800,
      height: 600,
    });
  });

  it('is kept while its screen is there, also left of the main one', () => {
    const bounds = { x: -1500, y: 100, width: 900, height: 700 };
    expect(openingBounds(bounds, [main, left])).toEqual(bounds);
  });

  it('is given up when the screen is gone or its top edge out of reach', () => {
    const usual = { width: 1280, height: 860 };
    expect(openingBounds({ x: -1500, y: 100, width: 900, height: 700 }, [main])).toEqual(usual);
    expect(openingBounds({ x: 100, y: -500, width: 900, height: 700 }, [main])).toEqual(usual);
    expect(openingBounds({ x: 1430, y: 100, width: 900, height: 700 }, [main])).toEqual(usual);
  });

  it('is cut to its screen', () => {
    expect(openingBounds({ x: 0, y: 25, width: 3000, height: 3000 }, [main])).toEqual({
      x: 0,
      y: 25,
      width: 1440,
      height: 875,
    });
  });

  it.each([[null], ['text'], [{ x: 'a', y: 0, width: 1, height: 1 }], [{ x: 0, y: 0, width: 0 }]])(
    'kept as %j is no place',
    (saved) => {
      expect(openingBounds(saved, [main])).toEqual({ width: 1280, height: 860 });
    },
  );
});

describe('the menu', () => {
  const told: string[] = [];
  const menu = (platform: NodeJS.Platform, packaged = true) =>
    menuTemplate(platform, packaged, (command) => void told.push(command));
  const itemsOf = (label: string) =>
    menu('linux').find((one) => one.label === label)!.submenu as MenuItemConstructorOptions[];

  it('has the usual menus in the usual order', () => {
    const names = (platform: NodeJS.Platform) =>
      menu(platform).map(({ role, label }) => label ?? role);
    expect(names('linux')).toEqual(['File', 'Edit', 'View', 'windowMenu', 'Help']);
    expect(names('darwin')).toEqual(['appMenu', 'File', 'Edit', 'View', 'windowMenu', 'Help']);
  });

  it.each([
    ['File', ['new-build', 'builds', 'duplicate', 'history', 'export', 'print-sheets']],
    ['Edit', ['undo', 'redo', 'find']],
    ['View', ['fold-tray', 'bench', 'theme']],
    ['Help', ['help']],
  ])('%s tells the page the commands of its items', (label, commands) => {
    told.length = 0;
    for (const item of itemsOf(label)) item.click?.({} as never, undefined, {} as never);
    expect(told).toEqual(commands);
  });

  it('shows keys and leaves them to the page', () => {
    const print = itemsOf('File').at(5)!;
    expect(print).toMatchObject({ accelerator: 'CmdOrCtrl+P', registerAccelerator: false });
    expect(itemsOf('Edit').map(({ role }) => role)).toContain('paste');
  });

  it('offers reload and developer tools only before packaging', () => {
    const text = (packaged: boolean) => JSON.stringify(menu('linux', packaged));
    expect(text(true)).not.toContain('toggleDevTools');
    expect(text(false)).toContain('toggleDevTools');
  });
});
