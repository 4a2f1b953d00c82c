/** Where the shop's data is kept: outside the program, in the platform's usual place. */
import { homedir } from 'node:os';
import { join, resolve } from 'node:path';

const FOLDER = 'backcure';

export interface Surroundings {
  readonly platform: NodeJS.Platform;
  readonly env: Readonly<Record<string, string | undefined>>;
  readonly home: string;
}

/**
 * Absolute path of the data folder: `--data`, then BACKCURE_DATA, then the platform's place
 * (XDG Base Directory, ~/Library/Application Support, %APPDATA%).
 */
export function dataFolder(
  option: string | null,
  { platform, env, home }: Surroundings = {
    platform: process.platform,
    env: process.env,
    home: homedir(),
  },
): string {
  if (option) return resolve(option);
  if (env['BACKCURE_DATA']) return resolve(env['BACKCURE_DATA']);
  if (platform === 'darwin') return join(home, 'Library', 'Application Support', FOLDER);
  if (platform === 'win32') {
    return join(env['APPDATA'] ?? join(home, 'AppData', 'Roaming'), FOLDER);
  }
  const xdg = env['XDG_DATA_HOME'];
  // The XDG specification says that a relative path is to be ignored.
  return join(xdg?.startsWith('/') ? xdg : join(home, '.local', 'share'), FOLDER);
}
