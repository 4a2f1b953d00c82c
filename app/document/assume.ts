/** What the document left out, what was taken instead, and why. */
import { whyAssumed } from './fields.ts';
import { buildSchema, type Build, type FullBuild } from './schema.ts';

/** One value that nobody typed. */
export interface Assumption {
  /** Where in the document, as in `room.temperatureC.night`. */
  readonly path: string;
  readonly value: unknown;
  readonly reason: string;
}

/**
 * Fills a checked document with the schema's defaults and lists every value that was filled in.
 * @throws ZodError when the document was not checked by `readBuild` first.
 */
export function assume(document: Build): { build: FullBuild; assumptions: Assumption[] } {
  const build = buildSchema.parse(document);
  const assumptions: Assumption[] = [];
  compare(document, build, '', assumptions);
  return { build, assumptions };
}

function compare(typed: unknown, filled: unknown, path: string, out: Assumption[]): void {
  if (path === 'library') return;
  if (typed === undefined && filled !== undefined) {
    const reason = whyAssumed(path);
    if (reason) out.push({ path, value: filled, reason });
    return;
  }
  if (Array.isArray(filled) && Array.isArray(typed)) {
    filled.forEach((item, i) => compare(typed[i], item, `${path}[${i}]`, out));
  } else if (isRecord(filled) && isRecord(typed)) {
    for (const key of Object.keys(filled)) {
      compare(typed[key], filled[key], path ? `${path}.${key}` : key, out);
    }
  }
}

const isRecord = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);
