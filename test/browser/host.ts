/** The built host as a process of its own, for tests that kill it. */
import { spawn } from 'node:child_process';
import { join } from 'node:path';
import { projectRoot } from '../../main/root.ts';

export interface HostProcess {
  readonly url: string;
  readonly pid: number;
  /** As a power cut would end it. */
  kill(): Promise<void>;
  /** As Ctrl-C ends it. */
  stop(): Promise<void>;
  /** As a terminal that is closed ends it. */
  hangUp(): Promise<void>;
}

/** @throws Error with what the host printed when it ends before it names its address */
export async function spawnHost(options: { dataDir: string; now: string }): Promise<HostProcess> {
  // Without a screen the host opens no browser of its own.
  const env = { ...process.env };
  delete env['DISPLAY'];
  delete env['WAYLAND_DISPLAY'];
  const child = spawn(
    process.execPath,
    [
      join(projectRoot(), 'out/main/host.js'),
      ...['--browser', '--data', options.dataDir, '--now', options.now],
    ],
    { env, stdio: ['ignore', 'pipe', 'pipe'] },
  );
  let printed = '';
  const ended = new Promise<void>((done) => child.once('exit', () => done()));
  const url = await new Promise<string>((found, failed) => {
    const read = (chunk: Buffer): void => {
      printed += chunk.toString();
      const match = /http:\/\/127\.0\.0\.1:\d+\/\S*/.exec(printed);
      if (match) found(match[0]);
    };
    child.stdout.on('data', read);
    child.stderr.on('data', read);
    child.once('error', failed);
    child.once('exit', (code) => failed(new Error(`host ended with ${code}: ${printed}`)));
  });
  const end = (signal: NodeJS.Signals) => async (): Promise<void> => {
    child.kill(signal);
    await ended;
  };
  return {
    url,
    pid: child.pid!,
    kill: end('SIGKILL'),
    stop: end('SIGTERM'),
    hangUp: end('SIGHUP'),
  };
}
