/** What the document left out, what was taken instead, and why. */
import { whyAssumed } from './fields.ts';
import { memoByObject } from './memo.ts';
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
  const build = filledIn(document);
  const assumptions: Assumption[] = [];
  compare(document, build, '', assumptions);
  return { build, assumptions };
}

type Section = keyof typeof buildSchema.shape;

/** Fills in one section, once for each object that a document has there, and once for none. */
function filler(key: Section): (typed: unknown) => unknown {
  const schema = buildSchema.shape[key];
  const ofObject = memoByObject((typed: object): unknown => schema.parse(typed));
  let absent: { readonly filled: unknown } | null = null;
  return (typed) => {
    if (typeof typed === 'object' && typed !== null) return ofObject(typed);
    if (typed !== undefined) return schema.parse(typed);
    return (absent ??= { filled: schema.parse(undefined) }).filled;
  };
}

const SECTIONS = new Map(
  (Object.keys(buildSchema.shape) as Section[]).map((key) => [key, filler(key)]),
);

/**
 * A checked document with the schema's defaults. Sections that are the same objects as in a document
 * filled in before are not gone through again.
 * @throws ZodError when the document was not checked by `readBuild` first.
 */
export function filledIn(document: Build): FullBuild {
  if (Object.keys(document).some((key) => !SECTIONS.has(key as Section))) {
    return buildSchema.parse(document);
  }
  const build: Partial<Record<Section, unknown>> = {};
  for (const [key, fill] of SECTIONS) {
    const filled = fill(document[key]);
    if (filled !== undefined || key in document) build[key] = filled;
  }
  return build as FullBuild;
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

/** The id of an outside party as it is read: one without an id goes by its place in the document. */
export const partyIdAt = (party: { readonly id?: string | undefined }, place: number): string =>
  party.id ?? `outside-${place + 1}`;
