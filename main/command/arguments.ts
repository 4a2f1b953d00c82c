/** Arguments of `npm run plan --`. */
import { resolve } from 'node:path';
import { parseArgs } from 'node:util';
import { FILE_KINDS } from '../../app/shop/files.ts';
import { isSameFile } from './sameFile.ts';
import { nowFault, readNow, type Now } from './now.ts';

export const OUTPUTS = ['html', 'pdf', ...FILE_KINDS] as const;
export type OutputKind = (typeof OUTPUTS)[number];

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
  'npm run plan -- BUILD.json [--now ISO] [--route ID] [--json] [--html F] [--pdf F] [--ics F] [--csv F] [--kit F] [--batches F] [--phone F]';

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
        kit: text,
        batches: text,
        phone: text,
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
  const now = readNow(values.now);
  if (now === undefined) return refuse(nowFault(values.now));
  const outputs: Partial<Record<OutputKind, string>> = {};
  for (const kind of OUTPUTS) {
    const value = values[kind];
    if (value === undefined) continue;
    const path = resolve(value);
    if (value === '') return refuse(`--${kind}: found nothing, expected a file name`);
    if ([resolve(file), ...Object.values(outputs)].some((other) => isSameFile(path, other))) {
      return refuse(`--${kind}: found ${value} a second time, expected a file of its own`);
    }
    outputs[kind] = path;
  }
  const route = values.route ?? null;
  const json = values.json ?? false;
  return { ok: true, value: { file, now, route, json, outputs } };
}

const refuse = (fault: string): ReadArguments => ({ ok: false, fault });
