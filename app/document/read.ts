/** Reads a Build from text or from an untrusted object: everything wrong with it, or the document. */
import { localToMinute } from '../time/zone.ts';
import { describe, faultsOf, type Fault } from './faults.ts';
import { EXPECTED, FOUND } from './faultWords.ts';
import { mergeLibraries } from './library.ts';
import { migrate, versionOf } from './migrate/migrate.ts';
import { referenceFaults } from './references.ts';
import {
  buildSchema,
  DOCUMENT_VERSION,
  type Build,
  type FullBuild,
  type Library,
} from './schema.ts';

/** Largest build file that is read, in characters: a build is a few kilobytes. */
export const MAX_BUILD_CHARACTERS = 8_000_000;

export type ReadBuild =
  | { readonly ok: true; readonly document: Build; readonly build: FullBuild }
  | { readonly ok: false; readonly faults: readonly Fault[] };

/**
 * Reads a build file's text.
 * @param library the rows that the build may name besides those it carries itself
 */
export function readBuild(text: string, library: Library): ReadBuild {
  if (text.length > MAX_BUILD_CHARACTERS) {
    const expected = EXPECTED.atMostCharacters({ most: MAX_BUILD_CHARACTERS });
    return refused(FOUND.characters({ count: text.length }), expected);
  }
  let raw: unknown;
  try {
    raw = JSON.parse(text.replace(/^\uFEFF/, ''));
  } catch (error) {
    const why = error instanceof Error ? error.message : 'unreadable text';
    return refused(oneLine(why), EXPECTED.buildFile());
  }
  return readDocument(raw, library);
}

/** The same for a value that was parsed already. */
export function readDocument(raw: unknown, library: Library): ReadBuild {
  if (typeof raw !== 'object' || raw === null || Array.isArray(raw)) {
    return refused(describe(raw), EXPECTED.oneObject());
  }
  const typed = raw as Record<string, unknown>;
  if (versionOf(typed) > DOCUMENT_VERSION) {
    const fault = {
      path: 'formatVersion',
      found: describe(typed['formatVersion']),
      expected: EXPECTED.version({ newest: DOCUMENT_VERSION }),
    };
    return { ok: false, faults: [fault] };
  }
  const document = migrate(typed);
  const parsed = buildSchema.safeParse(document);
  if (!parsed.success) return { ok: false, faults: faultsOf(parsed.error.issues, document) };
  const faults = [
    ...timeFaults(parsed.data),
    ...referenceFaults(parsed.data, mergeLibraries(parsed.data.library, library)),
  ];
  if (faults.length > 0) return { ok: false, faults };
  return { ok: true, document: document as Build, build: parsed.data };
}

const refused = (found: string, expected: string): ReadBuild => ({
  ok: false,
  faults: [{ path: '(file)', found, expected }],
});

/** Parser messages quote the text, which may hold anything: control and line-break characters go. */
const oneLine = (message: string): string =>
  // eslint-disable-next-line no-control-regex -- removing control characters is the purpose
  message.replace(/[\u0000-\u001f\u007f-\u009f\u2028\u2029]+/g, ' ').slice(0, 160);

/** A wall-clock time that the zone skips (clocks going forward) is a fault. */
function timeFaults(build: FullBuild): Fault[] {
  const times: [string, string | null][] = [
    ['unveiling', build.unveiling],
    ['earliestStart', build.earliestStart],
    ['part.frame.from', build.part.frame?.from ?? null],
    ['part.frame.until', build.part.frame?.until ?? null],
    ...build.pins.map((pin, i): [string, string] => [`pins[${i}].start`, pin.start]),
    ...build.records.flatMap((record, i): [string, string | null][] => [
      [`records[${i}].start`, record.start],
      [`records[${i}].end`, record.end],
    ]),
    ...build.busy.flatMap((block, i): [string, string][] => [
      [`busy[${i}].from`, block.from],
      [`busy[${i}].until`, block.until],
    ]),
  ];
  return times.flatMap(([path, value]) => {
    if (value === null || value.length < 16 || localToMinute(value, build.zone)) return [];
    const expected = EXPECTED.timeThatExists({ zone: build.zone });
    return [{ path, found: describe(value), expected }];
  });
}
