/** What stands behind `npm run plan --`. */
import { resolve } from 'node:path';
import { parseArgs } from 'node:util';
import { hasOffset, readInstant } from '../options.ts';

export const OUTPUTS = ['html', 'pdf', 'ics', 'csv'] as const;
export type OutputKind = (typeof OUTPUTS)[number];

/** An instant in Unix ms, or a day or time on the wall clock of the build's zone. */
export type Now = { readonly ms: number } | { readonly local: string };

export interface CommandArguments {
  readonly file: string;
  /** Moment at which the plan is made; null: the machine's clock. */
  readonly now: Now | null;
  readonly route: string | null;
  readonly json: boolean;
  /** Absolute paths of the files asked for. */
  readonly outputs: Readonly<Partial<Record<OutputKind, string>>>;
}

export type ReadArguments =
  | { readonly ok: true; readonly value: CommandArguments }
  | { readonly ok: false; readonly fault: string };

const USAGE =
  'npm run plan -- BUILD.json [--now ISO] [--route ID] [--json] [--html F] [--pdf F] [--ics F] [--csv F]';

/** Years that a build can meet; calendars between now and a far end would be endless. */
const [FIRST_YEAR, LAST_YEAR] = [1970, 2199];
const inReach = (now: Date | null): now is Date =>
  now !== null && now.getUTCFullYear() >= FIRST_YEAR && now.getUTCFullYear() <= LAST_YEAR;

/** Unix ms of `--now`; null where it is not given, undefined where it is no instant in reach. */
export function readNow(text: string | undefined): number | null | undefined {
  if (text === undefined) return null;
  const now = readInstant(text);
  return inReach(now) ? now.getTime() : undefined;
}

/** What is wrong with a `--now` that `readNow` could not read. */
export const nowFault = (text: string | undefined): string =>
  `--now: found ${JSON.stringify(text)}, expected an instant from ${FIRST_YEAR} to ${LAST_YEAR} such as 2027-04-19T08:00+01:00`;

/** Reads the arguments; a fault is one line. */
export function readArguments(argv: readonly string[]): ReadArguments {
  const text = { type: 'string' } as const;
  let parsed;
  try {
    parsed = parseArgs({
      args: [...argv],
      allowPositionals: true,
      options: {
        now: text,
        route: text,
        json: { type: 'boolean' },
        html: text,
        pdf: text,
        ics: text,
        csv: text,
      },
    });
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error);
    return refuse(`${why.split(/[.\n]/)[0]}, expected ${USAGE}`);
  }
  const { values, positionals } = parsed;
  const [file] = positionals;
  if (file === undefined || positionals.length > 1) {
    return refuse(`found ${positionals.length} build files, expected ${USAGE}`);
  }
  const nowMs = readNow(values.now);
  if (nowMs === undefined) return refuse(nowFault(values.now));
  const outputs: Partial<Record<OutputKind, string>> = {};
  for (const kind of OUTPUTS) {
    const value = values[kind];
    if (value === undefined) continue;
    const path = resolve(value);
    if (value === '') return refuse(`--${kind}: found nothing, expected a file name`);
    if (path === resolve(file) || Object.values(outputs).includes(path)) {
      return refuse(`--${kind}: found ${value} a second time, expected a file of its own`);
    }
    outputs[kind] = path;
  }
  const route = values.route ?? null;
  const json = values.json ?? false;
  return { ok: true, value: { file, now: nowOf(values.now, nowMs), route, json, outputs } };
}

/** What is written without an offset waits for the build and its zone; seconds do not count. */
function nowOf(text: string | undefined, ms: number | null): Now | null {
  if (text === undefined || ms === null) return null;
  return hasOffset(text) ? { ms } : { local: text.slice(0, 16) };
}

const refuse = (fault: string): ReadArguments => ({ ok: false, fault });
