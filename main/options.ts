/** Arguments of `npm start --`. Node's own modules only: start-up reads this first. */
import { parseArgs } from 'node:util';

export interface StartOptions {
  /** Serve to the browser even where Electron is there. */
  readonly browser: boolean;
  /** The instant at which the clock stands still, or null for the machine's clock. */
  readonly now: Date | null;
  readonly dataDir: string | null;
  /** 0: any free port. */
  readonly port: number;
}

export type ReadOptions =
  | { readonly ok: true; readonly options: StartOptions }
  | { readonly ok: false; readonly fault: string };

export const USAGE =
  'npm start -- [--browser] [--data DIR] [--port N] [--now ISO]\n' +
  '  --browser   serve the planner to the browser instead of a window of its own\n' +
  '  --data DIR  keep builds and library in DIR\n' +
  '  --port N    port of the loopback host, 0 for any free one\n' +
  '  --now ISO   stop the clock, as in 2027-04-19T08:00+01:00 (without an offset: UTC)';

/** Reads the arguments that follow the script's name. */
export function readOptions(argv: readonly string[]): ReadOptions {
  let values: { browser?: boolean; data?: string; port?: string; now?: string };
  try {
    values = parseArgs({
      args: [...argv],
      options: {
        browser: { type: 'boolean' },
        data: { type: 'string' },
        port: { type: 'string' },
        now: { type: 'string' },
      },
    }).values;
  } catch (error) {
    return { ok: false, fault: error instanceof Error ? error.message : String(error) };
  }
  const now = values.now === undefined ? null : readInstant(values.now);
  if (values.now !== undefined && now === null) {
    return { ok: false, fault: `--now: ${values.now} is not a day and time that exist` };
  }
  const port = values.port ?? '0';
  if (!/^\d{1,5}$/.test(port) || Number(port) > 65535) {
    return { ok: false, fault: `--port: ${port} is not a port from 0 to 65535` };
  }
  if (values.data === '') return { ok: false, fault: '--data: a folder is expected' };
  return {
    ok: true,
    options: {
      browser: values.browser ?? false,
      now,
      dataDir: values.data ?? null,
      port: Number(port),
    },
  };
}

const INSTANT =
  /^(\d{4})-(\d\d)-(\d\d)(?:T(\d\d):(\d\d)(?::(\d\d)(?:\.\d{1,3})?)?(Z|[+-]\d\d:\d\d)?)?$/;

/** An ISO 8601 instant; UTC when no offset is written. Null for a day or time that does not exist. */
export function readInstant(text: string): Date | null {
  const match = INSTANT.exec(text);
  if (!match) return null;
  const [year, month, day] = [Number(match[1]), Number(match[2]), Number(match[3])];
  const noon = new Date(Date.UTC(year, month - 1, day, 12));
  // Date rolls 30 February over into March instead of refusing it.
  if (noon.getUTCMonth() !== month - 1 || noon.getUTCDate() !== day) return null;
  const instant = new Date(match[4] !== undefined && !match[7] ? `${text}Z` : text);
  return Number.isNaN(instant.getTime()) ? null : instant;
}

/** Whether an instant that was read says itself how far its clock is from UTC. */
export const hasOffset = (text: string): boolean => INSTANT.exec(text)?.[7] !== undefined;

/**
 * The arguments that were meant for the program, out of all that Electron's process was given:
 * Chromium adds switches of its own, anywhere.
 */
export function ownArguments(argv: readonly string[], packaged: boolean): string[] {
  const given = argv.slice(packaged ? 1 : 2);
  const own: string[] = [];
  for (let i = 0; i < given.length; i += 1) {
    const [name = '', inline] = given[i]!.split('=', 2);
    if (name === '--browser') own.push(name);
    if (name !== '--data' && name !== '--port' && name !== '--now') continue;
    if (inline !== undefined) own.push(given[i]!);
    else if (given[i + 1] !== undefined) own.push(name, given[(i += 1)]!);
  }
  return own;
}
