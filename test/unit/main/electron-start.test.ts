/** Electron's main file over a stand-in of Electron: what it sets up, and in which order. */
import { mkdirSync, readFileSync, symlinkSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { PLANNER_URL } from '../../../main/electron/address.ts';
import { projectRoot } from '../../../main/root.ts';
import { FILE_NAME } from '../../../main/store/open.ts';
import { scratchFolder } from './fixtures.ts';

type Listener = (...args: unknown[]) => unknown;
type Template = readonly { label?: string; click?: () => void; submenu?: Template }[];

/** A window or its contents: keeps its listeners by event. */
class Emitter {
  readonly listeners: Record<string, Listener> = {};
  on(event: string, listener: Listener): void {
    const before = this.listeners[event];
    this.listeners[event] = (...args) => {
      before?.(...args);
      return listener(...args);
    };
  }
  once(event: string, listener: Listener): void {
    this.listeners[event] = listener;
  }
}

const electron = vi.hoisted(() => ({
  log: [] as string[],
  app: {} as Record<string, Listener>,
  windows: [] as unknown[],
  heard: {} as Record<string, Listener>,
  lock: true,
  box: 0,
  menu: [] as Template,
  power: {} as Record<string, Listener>,
}));
const root = vi.hoisted(() => ({ folder: '' }));

vi.mock('../../../main/root.ts', async (original) => ({
  ...(await original<object>()),
  projectRoot: () => root.folder || '/work',
}));

vi.mock('electron', () => {
  const note = (line: string) => void electron.log.push(line);
  class BrowserWindow extends Emitter {
    readonly webContents: Emitter & { mainFrame: { url: string } };
    readonly options: unknown;
    constructor(options: unknown) {
      super();
      this.options = options;
      this.webContents = Object.assign(new Emitter(), {
        mainFrame: { url: PLANNER_URL },
        send: (channel: string, what: string) => note(`${channel} ${what}`),
      });
      note('window made');
      electron.windows.push(this);
    }
    async loadURL(url: string): Promise<void> {
      note(`load ${url}`);
    }
    show = () => note('shown');
    focus = () => note('focused');
    restore = () => note('restored');
    isMinimized = () => true;
    getNormalBounds = () => ({ x: 10, y: 30, width: 900, height: 700 });
  }
  const display = { id: 1, workArea: { x: 0, y: 0, width: 1920, height: 1080 } };
  return {
    app: {
      isPackaged: false,
      enableSandbox: () => note('sandbox'),
      setPath: (name: string, folder: string) => note(`${name} ${folder}`),
      requestSingleInstanceLock: () => {
        note('lock');
        return electron.lock;
      },
      on: (event: string, listener: Listener) => {
        electron.app[event] = listener;
      },
      whenReady: async () => note('ready'),
      quit: () => note('quit'),
      exit: (code: number) => note(`exit ${code}`),
    },
    BrowserWindow,
    dialog: {
      showErrorBox: (title: string, text: string) => note(`box ${title}: ${text}`),
      showMessageBoxSync: () => electron.box,
    },
    ipcMain: {
      handle: (name: string, listener: Listener) => {
        electron.heard[name] = listener;
      },
    },
    Menu: {
      buildFromTemplate: (template: unknown) => template,
      setApplicationMenu: (template: Template) => {
        electron.menu = template;
        note('menu');
      },
    },
    Notification: class {
      static isSupported = () => true;
      on = () => undefined;
      show = () => note('notified');
    },
    powerMonitor: {
      on: (event: string, listener: Listener) => {
        electron.power[event] = listener;
      },
      off: (event: string) => delete electron.power[event],
    },
    powerSaveBlocker: { start: () => 1, stop: () => undefined },
    protocol: {
      registerSchemesAsPrivileged: () => note('scheme registered'),
      handle: () => note('scheme handled'),
    },
    screen: { getPrimaryDisplay: () => display, getAllDisplays: () => [display] },
    session: {
      defaultSession: new Proxy(
        {},
        {
          get: (_target, name) =>
            name === 'webRequest'
              ? { onBeforeRequest: () => note('requests denied') }
              : () => note(`session ${String(name)}`),
        },
      ),
    },
  };
});

interface StandInWindow extends Emitter {
  readonly webContents: Emitter & { readonly mainFrame: { readonly url: string } };
  readonly options: {
    readonly width: number;
    readonly show: boolean;
    readonly webPreferences: object;
  };
}
const window = () => electron.windows.at(-1) as StandInWindow;
/** Modules are read and files opened: on a busy machine that takes a while. */
const eventually = (check: () => void | Promise<void>) => vi.waitFor(check, { timeout: 45_000 });
const settle = () => new Promise((done) => setTimeout(done, 0));

let dataDir: string;
const argv = process.argv;

beforeEach(() => {
  const real = join(import.meta.dirname, '../../..');
  root.folder = scratchFolder();
  mkdirSync(join(root.folder, 'out/renderer'), { recursive: true });
  writeFileSync(join(root.folder, 'out/renderer/index.html'), '<p>');
  symlinkSync(join(real, 'samples'), join(root.folder, 'samples'));
  dataDir = scratchFolder();
  Object.assign(electron, { log: [], app: {}, windows: [], heard: {}, lock: true, box: 0 });
});
afterEach(() => {
  electron.app['will-quit']?.();
  process.argv = argv;
});

async function start(...more: string[]): Promise<void> {
  process.argv = ['electron', '.', '--data', dataDir, '--now', '2027-04-19T08:00Z', ...more];
  vi.resetModules();
  await import('../../../main/index.ts');
  await settle();
}

/** A call as the page's preload would make it. */
const call = (name: string, input: unknown) =>
  electron.heard[name]!(
    { sender: window().webContents, senderFrame: window().webContents.mainFrame },
    input,
  );

describe('Electron starts', () => {
  it('with sandbox, scheme, data folder and lock before it is ready', async () => {
    await start();
    expect(projectRoot()).toBe(root.folder);
    const { log } = electron;
    expect(log.slice(0, 5)).toEqual([
      'sandbox',
      'scheme registered',
      `userData ${join(dataDir, 'window')}`,
      'lock',
      'ready',
    ]);
  });

  it('with everything denied and served before the window is made', async () => {
    await start();
    const made = electron.log.indexOf('window made');
    for (const line of [
      'requests denied',
      'session setPermissionRequestHandler',
      'scheme handled',
    ]) {
      expect(electron.log.indexOf(line)).toBeGreaterThan(0);
      expect(electron.log.indexOf(line)).toBeLessThan(made);
    }
    expect(electron.app['web-contents-created']).toBeDefined();
    expect(window().options).toMatchObject({
      show: false,
      width: 1280,
      webPreferences: { sandbox: true, preload: join(root.folder, 'out/preload/index.cjs') },
    });
    expect(electron.log).toContain(`load ${PLANNER_URL}`);
  });

  it('with a menu that tells the page what was picked', async () => {
    await start();
    const file = electron.menu.find(({ label }) => label === 'File')!.submenu!;
    file.find(({ label }) => label === 'Print sheets…')!.click!();
    expect(electron.log.at(-1)).toBe('menu-command print-sheets');
  });

  it('and answers the page of its window, and no other sender', async () => {
    await start();
    expect(await call('session-start', {})).toMatchObject({
      ok: true,
      value: { runtime: 'electron', now: '2027-04-19T08:00:00.000Z', nowFixed: true },
    });
    const stranger = { sender: {}, senderFrame: { url: PLANNER_URL } };
    expect(await electron.heard['session-start']!(stranger, {})).toMatchObject({ code: 'refused' });
  });

  it('once: a second start focuses the first window and ends', async () => {
    await start();
    electron.app['second-instance']!({}, ['electron', '.', '--some-switch'], '/');
    expect(electron.log.slice(-2)).toEqual(['restored', 'focused']);
    electron.app['will-quit']!();
    electron.app = {};
    electron.lock = false;
    electron.log = [];
    await start();
    expect(electron.log.at(-1)).toBe('quit');
    expect(electron.log).not.toContain('ready');
  });

  it('with a page that is asked before it goes', async () => {
    await start();
    expect(window().webContents.listeners['will-prevent-unload']).toBeDefined();
    expect(electron.app['before-quit']).toBeDefined();
  });

  it('where the window was left', async () => {
    await start();
    window().listeners['close']!();
    electron.app['will-quit']!();
    await start();
    expect(window().options).toMatchObject({ x: 10, y: 30, width: 900, height: 700 });
  });
});

describe('a build file that the system hands over', () => {
  const SAMPLE = join(import.meta.dirname, '../../../samples/harbour-gate-sign.build.json');
  const openName = async () => {
    const answer = (await call('session-start', {})) as {
      value: { open: { document: { name: string } }; builds: unknown[] };
    };
    return [answer.value.open.document.name, answer.value.builds.length] as const;
  };
  const rename = (name: string): string => {
    const file = join(scratchFolder(), 'mine.build.json');
    const text = readFileSync(SAMPLE, 'utf8');
    writeFileSync(file, JSON.stringify({ ...(JSON.parse(text) as object), name }));
    return file;
  };

  it('by a second start lies open in the first window', async () => {
    await start();
    const [, before] = await openName();
    electron.log = [];
    const file = rename('Handed over');
    electron.app['second-instance']!(
      {},
      ['electron', '.', '--x=y', 'mine.build.json'],
      dirname(file),
    );
    await eventually(() => expect(electron.log).toContain(`load ${PLANNER_URL}`));
    expect(await openName()).toEqual(['Handed over', before + 1]);
  });

  it('before the program is ready waits until it is', async () => {
    process.argv = ['electron', '.', '--data', dataDir];
    vi.resetModules();
    const importing = import('../../../main/index.ts');
    await eventually(() => expect(electron.app['open-file']).toBeDefined());
    let prevented = false;
    electron.app['open-file']!({ preventDefault: () => (prevented = true) }, rename('Early'));
    await importing;
    await eventually(async () => expect((await openName())[0]).toBe('Early'));
    expect(prevented).toBe(true);
  });

  it('that is none is said, and what lies open stays', async () => {
    await start();
    const before = await openName();
    const file = join(scratchFolder(), 'x.json');
    writeFileSync(file, '[]');
    electron.app['open-file']!({ preventDefault: () => undefined }, file);
    await eventually(() => expect(electron.log.at(-1)).toContain('x.json was not opened'));
    electron.app['open-file']!({ preventDefault: () => undefined }, '/no/such/file.json');
    await eventually(() => expect(electron.log.at(-1)).toContain('found no such file'));
    expect(await openName()).toEqual(before);
  });
});

it('a page that does not answer is ended only when the person wants another', async () => {
  await start();
  let ended = 0;
  Object.assign(window().webContents, { forcefullyCrashRenderer: () => (ended += 1) });
  electron.box = 0;
  window().listeners['unresponsive']!();
  expect(ended).toBe(0);
  electron.box = 1;
  window().listeners['unresponsive']!();
  expect(ended).toBe(1);
});

it('a process of the engine that dies is reported, and the page is answered as before', async () => {
  const said = vi.spyOn(process.stderr, 'write').mockReturnValue(true);
  await start();
  electron.log = [];
  electron.app['child-process-gone']!({}, { type: 'GPU', reason: 'crashed' });
  expect(said.mock.calls.flat().join('')).toContain('GPU: crashed');
  said.mockRestore();
  expect(electron.log).toEqual([]);
  expect(await call('build-list', {})).toMatchObject({ ok: true });
});

it('an alarm that a sleep leapt over is called out in the moment in which the machine wakes', async () => {
  await start();
  const at = new Date(Date.now() + 3_600_000).toISOString();
  const alarms = [{ id: 'gel', at, title: 'Look at the smear', body: '' }];
  expect(await call('alarms-set', { alarms })).toMatchObject({ ok: true });
  expect(electron.log).not.toContain('notified');
  const woken = Date.now() + 8 * 3_600_000;
  vi.spyOn(Date, 'now').mockReturnValue(woken);
  electron.power['resume']!();
  vi.restoreAllMocks();
  expect(electron.log.at(-1)).toBe('notified');
  await call('alarms-set', { alarms: [] });
  expect(electron.power).toEqual({});
});

it('a message that is too long is refused before it is read', async () => {
  await start();
  const document = { name: 'x'.repeat(17 * 1024 * 1024) };
  expect(await call('draft-create', { document })).toMatchObject({
    ok: false,
    code: 'bad-message',
    detail: 'The message is too long.',
  });
});

describe('Electron says in plain words', () => {
  it('that an argument is not understood', async () => {
    await start('--port', 'x');
    expect(electron.log.at(-1)).toBe('exit 2');
  });

  it('that the data folder cannot be made', async () => {
    dataDir = join(dataDir, 'file');
    writeFileSync(dataDir, '');
    await start();
    expect(electron.log.at(-2)).toContain('box Backcure cannot start: The data folder');
    expect(electron.log.at(-1)).toBe('exit 1');
  });

  it('that a damaged file was kept', async () => {
    writeFileSync(join(dataDir, FILE_NAME), 'noise '.repeat(2000));
    await start();
    expect(electron.log.at(-1)).toContain('It is kept as');
  });

  it('that the page has stopped, and opens it again or ends', async () => {
    await start();
    const gone = window().webContents.listeners['render-process-gone']!;
    electron.log = [];
    gone({}, { reason: 'clean-exit' });
    expect(electron.log).toEqual([]);
    gone({}, { reason: 'crashed' });
    expect(electron.log).toEqual([`load ${PLANNER_URL}`]);
    electron.box = 1;
    gone({}, { reason: 'oom' });
    expect(electron.log.at(-1)).toBe('quit');
  });
});
