/** Starts and stops the loopback host as one thing. */
import { join } from 'node:path';
import { fixedClock, machineClock } from '../clock.ts';
import { readPage, type PageFiles } from '../page/files.ts';
import { projectRoot } from '../root.ts';
import { openSession, type SessionOptions } from '../session.ts';
import { createAdmission } from './admission.ts';
import { openInBrowser } from './browser.ts';
import { mayEnd, type Floor } from './idle.ts';
import { keepPort, lastPort } from './port.ts';
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
  /** Nobody has called for long, and no alarm or cure waits: the program may end. */
  readonly ended?: () => void;
}

export interface Host {
  /** Address with the session's token in its fragment: `http://127.0.0.1:41234/#token=…`. */
  readonly url: string;
  readonly token: string;
  /** What the person should know about opening the data file, or null. */
  readonly notice: string | null;
  /** Path of a link that hands the token over once: what other programs are given. */
  linkPath(): string;
  close(): Promise<void>;
}

const LOOK_MS = 60_000;

/**
 * Opens the store and serves the planner on 127.0.0.1.
 * @throws StoreUnavailable with a plain message; Error when the page is not built or the port taken
 */
export async function startHost(options: HostOptions): Promise<Host> {
  const { pageDir = join(projectRoot(), 'out', 'renderer') } = options;
  const page: PageFiles = pageDir === null ? new Map() : readPage(pageDir);
  const clock = options.now ? fixedClock(options.now) : machineClock;
  const floor: Floor = { awake: false, alarmsMs: [] };
  const session = openSession({ ...options, runtime: 'browser', clock, floor });
  const admission = createAdmission();
  let lastCallMs = Date.now();
  const called = (): void => void (lastCallMs = Date.now());
  try {
    const serve = (port: number) => listen({ session, page, admission, port, called });
    const { server, here } = await onPort(options, serve);
    const url = `http://${here}/#token=${admission.token}`;
    if (options.openBrowser) openInBrowser(`http://${here}${admission.linkPath()}`);
    const look = setInterval(() => {
      if (mayEnd(Date.now(), lastCallMs, floor)) options.ended?.();
    }, LOOK_MS);
    look.unref();
    return {
      url,
      token: admission.token,
      notice: session.store.notice,
      linkPath: admission.linkPath,
      close: async () => {
        clearInterval(look);
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

/** The port that was asked for, else that of last time, else any. */
async function onPort<T extends { readonly here: string }>(
  { port = 0, dataDir }: HostOptions,
  serve: (port: number) => Promise<T>,
): Promise<T> {
  const last = port === 0 ? lastPort(dataDir) : 0;
  const taken = await (last === 0 ? serve(port) : serve(last).catch(() => serve(0)));
  keepPort(dataDir, Number(taken.here.split(':')[1]));
  return taken;
}
