/**
 * Finds a Chromium to print with (and to run the end-to-end tests in): one the system has, else the
 * one inside the npm package @sparticuz/chromium, unpacked once into node_modules/.cache.
 */
import { constants, createReadStream, createWriteStream, existsSync } from 'node:fs';
import { access, chmod, mkdir, mkdtemp, readFile, rename, rm, writeFile } from 'node:fs/promises';
import { delimiter, dirname, join, resolve } from 'node:path';
import { pipeline } from 'node:stream/promises';
import { fileURLToPath } from 'node:url';
import { brotliDecompressSync, createBrotliDecompress } from 'node:zlib';
import { untar } from './untar.ts';

export interface Chromium {
  readonly executablePath: string;
  /** Complete environment to start it with. */
  readonly env: Readonly<Record<string, string>>;
  /** Flags that this machine needs. */
  readonly args: readonly string[];
  readonly from: 'asked' | 'system' | 'package';
}

/** No browser on this machine; the message is one plain sentence. */
export class NoChromium extends Error {}

const NAMES_ON_PATH = [
  'google-chrome-stable',
  'google-chrome',
  'chromium',
  'chromium-browser',
  'microsoft-edge-stable',
  'microsoft-edge',
];
const MAC_APPS = ['Google Chrome', 'Chromium', 'Microsoft Edge'].map(
  (name) => `/Applications/${name}.app/Contents/MacOS/${name}`,
);
const WINDOWS_APPS = [
  'Google\\Chrome\\Application\\chrome.exe',
  'Microsoft\\Edge\\Application\\msedge.exe',
];

/** Libraries that a bare machine lacks and the package brings along. */
const PACKED_LIBRARIES = ['libnss3.so', 'libnspr4.so', 'libexpat.so.1'];
const LIBRARY_FOLDERS = [
  '/lib/x86_64-linux-gnu',
  '/usr/lib/x86_64-linux-gnu',
  '/lib64',
  '/usr/lib64',
  '/usr/lib',
];

/**
 * The Chromium to use. `BACKCURE_CHROMIUM` names one outright.
 * @throws NoChromium when the system has none and the package does not suit it.
 */
export async function findChromium(): Promise<Chromium> {
  const asked = process.env['BACKCURE_CHROMIUM'];
  if (asked) {
    if (!(await runs(asked))) throw new NoChromium(`BACKCURE_CHROMIUM: no program at ${asked}`);
    return describe(asked, 'asked', {});
  }
  for (const path of systemPaths()) {
    if (await runs(path)) return describe(path, 'system', {});
  }
  return packaged();
}

function systemPaths(): string[] {
  if (process.platform === 'darwin') return MAC_APPS;
  if (process.platform === 'win32') {
    const roots = ['ProgramFiles', 'ProgramFiles(x86)', 'LocalAppData'].map((k) => process.env[k]);
    return roots.flatMap((root) => (root ? WINDOWS_APPS.map((app) => join(root, app)) : []));
  }
  const folders = (process.env['PATH'] ?? '').split(delimiter).filter((f) => f !== '');
  return NAMES_ON_PATH.flatMap((name) => folders.map((folder) => join(folder, name)));
}

const runs = (path: string): Promise<boolean> =>
  access(path, constants.X_OK).then(
    () => true,
    () => false,
  );

function describe(
  executablePath: string,
  from: Chromium['from'],
  extra: Record<string, string>,
): Chromium {
  const env: Record<string, string> = { ...extra };
  for (const [key, value] of Object.entries(process.env)) {
    if (value !== undefined && !(key in env)) env[key] = value;
  }
  return { executablePath, env, from, args: ['--disable-gpu'] };
}

async function packaged(): Promise<Chromium> {
  const bin = packageFolder();
  if (!bin || process.platform !== 'linux' || process.arch !== 'x64') {
    throw new NoChromium('no browser found: install Chrome, Chromium or Edge');
  }
  const { version } = JSON.parse(await readFile(join(bin, '../package.json'), 'utf8')) as {
    version: string;
  };
  const home = resolve(bin, '../../../.cache', `chromium-${version}`);
  if (!existsSync(home)) await unpack(bin, home);
  const env: Record<string, string> = { FONTCONFIG_FILE: join(home, 'fonts.conf') };
  if (!PACKED_LIBRARIES.every(hasLibrary)) env['LD_LIBRARY_PATH'] = join(home, 'lib');
  return describe(join(home, 'chromium'), 'package', env);
}

const hasLibrary = (name: string): boolean =>
  LIBRARY_FOLDERS.some((folder) => existsSync(join(folder, name)));

function packageFolder(): string | null {
  try {
    const entry = fileURLToPath(import.meta.resolve('@sparticuz/chromium'));
    return join(dirname(entry), '..', 'bin');
  } catch {
    return null;
  }
}

/** Unpacks beside the final place and renames, so that an interrupted run leaves nothing half done. */
async function unpack(bin: string, home: string): Promise<void> {
  await mkdir(dirname(home), { recursive: true });
  const draft = await mkdtemp(`${home}-`);
  try {
    for (const name of ['al2023', 'fonts']) {
      await untar(brotliDecompressSync(await readFile(join(bin, `${name}.tar.br`))), draft);
    }
    await writeFile(join(draft, 'fonts.conf'), fontsConf(home));
    await pipeline(
      createReadStream(join(bin, 'chromium.br')),
      createBrotliDecompress({ chunkSize: 1 << 20 }),
      createWriteStream(join(draft, 'chromium')),
    );
    await chmod(join(draft, 'chromium'), 0o755);
    await rename(draft, home).catch((error: unknown) => {
      // Another run has unpacked the same files meanwhile.
      if (!existsSync(join(home, 'chromium'))) throw error;
    });
  } finally {
    await rm(draft, { recursive: true, force: true });
  }
}

/** The packed font first, so that text has the same widths everywhere; the system's fill gaps. */
const fontsConf = (home: string): string => `<?xml version="1.0"?>
<!DOCTYPE fontconfig SYSTEM "fonts.dtd">
<fontconfig>
  <dir>${join(home, 'fonts')}</dir>
  <dir>/usr/share/fonts</dir>
  <cachedir>${join(home, 'font-cache')}</cachedir>
  <match target="pattern">
    <test qual="any" name="family"><string>sans-serif</string></test>
    <edit name="family" mode="prepend" binding="strong"><string>Open Sans</string></edit>
  </match>
  <match target="pattern">
    <test qual="any" name="family"><string>system-ui</string></test>
    <edit name="family" mode="prepend" binding="strong"><string>Open Sans</string></edit>
  </match>
</fontconfig>
`;
