/** Starts and stops the loopback host as one thing. */
import { randomBytes } from 'node:crypto';
import { join } from 'node:path';
import { fixedClock, machineClock } from '../clock.ts';
import { readPage, type PageFiles } from '../page/files.ts';
import { projectRoot } from '../root.ts';
import { openSession, type SessionOptions } from '../session.ts';
import { openInBrowser } from './browser.ts';
import { listen } from './server.ts';

export interface HostOptions extends Pick<SessionOptions, 'shipped' | 'samples' | 'report'> {
  readonly dataDir: string;
  /** Where the clock stands still; null: the machine's clock. */
  readonly now?: Date | null;
  /** Ask the system's browser to show the planner. */
  readonly openBrowser?: boolean;
  /** 0: any free port. */
  readonly port?: number;
  /** The built page; the project's own by default, null for the channels alone. */
  readonly pageDir?: string | null;
}

export interface Host {
  /** Address with the session's token in its fragment: `http://127.0.0.1:41234/#token=…`. */
  readonly url: string;
  readonly token: string;
  /** What the person should know about opening the data file, or null. */
  readonly notice: string | null;
  close(): Promise<void>;
}

/**
 * Opens the store and serves the planner on 127.0.0.1.
 * @throws StoreUnavailable with a plain message; Error when the page is not built or the port taken
 */
export async function startHost(options: HostOptions): Promise<Host> {
  const { pageDir = join(projectRoot(), 'out', 'renderer') } = options;
  const page: PageFiles = pageDir === null ? new Map() : readPage(pageDir);
  const clock = options.now ? fixedClock(options.now) : machineClock;
  const session = openSession({ ...options, runtime: 'browser', clock });
  const token = randomBytes(32).toString('base64url');
  try {
    const { server, here } = await listen({ session, page, token, port: options.port ?? 0 });
    const url = `http://${here}/#token=${token}`;
    if (options.openBrowser) openInBrowser(url);
    return {
      url,
      token,
      notice: session.store.notice,
      close: async () => {
        server.closeAllConnections();
        await new Promise((done) => server.close(done));
        session.close();
      },
    };
  } catch (error) {
    session.close();
    throw error;
  }
}
