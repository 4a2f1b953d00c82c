/** The system's browser, where there is one. */
import { spawn } from 'node:child_process';

interface Surroundings {
  readonly platform: NodeJS.Platform;
  readonly env: Readonly<Record<string, string | undefined>>;
}

/** The command that opens an address, or null where no screen is to be seen. */
export function browserCommand(
  url: string,
  { platform, env }: Surroundings = process,
): readonly [string, readonly string[]] | null {
  if (platform === 'darwin') return ['open', [url]];
  if (platform === 'win32') return ['rundll32', ['url.dll,FileProtocolHandler', url]];
  return env['DISPLAY'] || env['WAYLAND_DISPLAY'] ? ['xdg-open', [url]] : null;
}

/** Asks the system to show the address. Never fails: the address is printed as well. */
export function openInBrowser(url: string): void {
  const command = browserCommand(url);
  if (!command) return;
  const child = spawn(command[0], command[1], { detached: true, stdio: 'ignore' });
  child.on('error', () => {});
  child.unref();
}
