import { resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { dataFolder } from '../../../main/data-folder.ts';
import { browserCommand } from '../../../main/host/browser.ts';
import { ownArguments, readInstant, readOptions } from '../../../main/options.ts';

describe('the arguments of npm start', () => {
  it('are all optional', () => {
    expect(readOptions([])).toEqual({
      ok: true,
      options: { browser: false, now: null, dataDir: null, port: 0 },
    });
  });

  it('are read', () => {
    const argv = ['--browser', '--data', 'd', '--port=4100', '--now', '2027-04-19T08:00+01:00'];
    expect(readOptions(argv)).toEqual({
      ok: true,
      options: {
        browser: true,
        now: new Date('2027-04-19T07:00:00Z'),
        dataDir: 'd',
        port: 4100,
      },
    });
  });

  it.each([
    [['--colour']],
    [['file.json']],
    [['--port', '70000']],
    [['--port', 'x']],
    [['--data']],
    [['--data', '']],
    [['--now', 'tomorrow']],
    [['--now', '2027-02-30']],
  ])('%j is a fault', (argv) => {
    expect(readOptions(argv)).toMatchObject({ ok: false });
  });

  it('are found among those that Chromium adds', () => {
    const argv = [
      'electron',
      '/p',
      '--no-sandbox',
      '--data',
      '/d',
      '--now=2027-04-19',
      '--lang=pt',
    ];
    expect(ownArguments(argv, false)).toEqual(['--data', '/d', '--now=2027-04-19']);
    expect(ownArguments(['backcure', '--port', '1'], true)).toEqual(['--port', '1']);
  });
});

describe('an instant', () => {
  it.each([
    ['2027-04-19T08:00Z', '2027-04-19T08:00:00.000Z'],
    ['2027-04-19T08:00:30.5-04:30', '2027-04-19T12:30:30.500Z'],
    ['2027-04-19T08:00', '2027-04-19T08:00:00.000Z'],
    ['2027-04-19', '2027-04-19T00:00:00.000Z'],
    ['2028-02-29', '2028-02-29T00:00:00.000Z'],
  ])('%s is %s, whatever the zone of the machine', (text, iso) => {
    expect(readInstant(text)?.toISOString()).toBe(iso);
  });

  it.each([['2027-02-29'], ['2027-13-01'], ['2027-04-19T25:00'], ['19.4.2027'], ['']])(
    '%s is none',
    (text) => {
      expect(readInstant(text)).toBeNull();
    },
  );
});

describe('the data folder', () => {
  const home = '/home/ada';
  const at = (platform: NodeJS.Platform, env: Record<string, string> = {}) =>
    dataFolder(null, { platform, env, home });

  it("is the platform's usual place", () => {
    expect(at('linux')).toBe('/home/ada/.local/share/backcure');
    expect(at('linux', { XDG_DATA_HOME: '/data' })).toBe('/data/backcure');
    expect(at('linux', { XDG_DATA_HOME: 'relative' })).toBe('/home/ada/.local/share/backcure');
    expect(at('darwin')).toBe('/home/ada/Library/Application Support/backcure');
    expect(at('win32', { APPDATA: '/roaming' })).toBe('/roaming/backcure');
  });

  it('is what --data says, then BACKCURE_DATA', () => {
    const env = { BACKCURE_DATA: '/env', XDG_DATA_HOME: '/data' };
    expect(at('linux', env)).toBe('/env');
    expect(dataFolder('own', { platform: 'linux', env, home })).toBe(resolve('own'));
  });
});

describe("the system's browser", () => {
  const url = 'http://127.0.0.1:1/#token=x';
  it('is asked for where there is a screen, and left alone where there is none', () => {
    expect(browserCommand(url, { platform: 'linux', env: {} })).toBeNull();
    expect(browserCommand(url, { platform: 'linux', env: { DISPLAY: ':0' } })).toEqual([
      'xdg-open',
      [url],
    ]);
    expect(browserCommand(url, { platform: 'linux', env: { WAYLAND_DISPLAY: 'w' } })?.[0]).toBe(
      'xdg-open',
    );
    expect(browserCommand(url, { platform: 'darwin', env: {} })?.[0]).toBe('open');
    expect(browserCommand(url, { platform: 'win32', env: {} })?.[1]).toContain(url);
  });
});
