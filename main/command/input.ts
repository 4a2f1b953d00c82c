/** Reads the build file: its text, the document in it, and every fault on one line each. */
import { constants } from 'node:fs';
import { open, type FileHandle } from 'node:fs/promises';
import { mergeLibraries } from '../../app/document/library.ts';
import { MAX_BUILD_CHARACTERS, readBuild } from '../../app/document/read.ts';
import type { Build, FullBuild, JointState, Library } from '../../app/document/schema.ts';
import { measurePart } from '../../app/part/measure.ts';
import { libraryFor } from '../../app/part/process.ts';
import { enumerateRoutes } from '../../app/route/routes.ts';
import type { Fault } from '../../app/document/faults.ts';

export type ReadInput =
  | { readonly ok: true; readonly document: Build; readonly build: FullBuild }
  | { readonly ok: false; readonly faults: readonly Fault[] };

/** The document of a build file, checked against the rows that it may name. */
export async function readInput(path: string, library: Library): Promise<ReadInput> {
  const text = await readText(path);
  return typeof text === 'string' ? readBuild(text, library) : { ok: false, faults: [text] };
}

const inFile = (found: string, expected: string): Fault => ({ path: '(file)', found, expected });

/** No more is read than a build may be long: the path may be a device without an end. */
async function readText(path: string): Promise<string | Fault> {
  const bytes = Buffer.alloc(MAX_BUILD_CHARACTERS + 1);
  let length: number | null;
  try {
    // Without waiting: a pipe that nobody writes to would never be opened.
    const file = await open(path, constants.O_RDONLY | constants.O_NONBLOCK);
    try {
      length = await fill(file, bytes);
    } finally {
      await file.close();
    }
  } catch (error) {
    return inFile(reason(error), 'a build file that can be read');
  }
  if (length === null) return inFile('a pipe that nobody writes to', 'a build file');
  if (length > MAX_BUILD_CHARACTERS) {
    return inFile(
      `more than ${MAX_BUILD_CHARACTERS} bytes`,
      `a build of at most ${MAX_BUILD_CHARACTERS} bytes`,
    );
  }
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes.subarray(0, length));
  } catch {
    return inFile('bytes that are no UTF-8 text', 'a build file in JSON');
  }
}

/** How long a pipe may stay silent. */
const SILENT_MS = 10_000;
const LOOK_MS = 20;

/** Bytes that were read; null when a pipe stayed silent. */
async function fill(file: FileHandle, bytes: Buffer): Promise<number | null> {
  const isPipe = (await file.stat()).isFIFO();
  let length = 0;
  let silentMs = 0;
  while (length < bytes.length) {
    const got = await readSome(file, bytes, length);
    if (got === 0 && (!isPipe || length > 0)) return length;
    if (got > 0) {
      length += got;
      silentMs = 0;
      continue;
    }
    if (silentMs >= SILENT_MS) return null;
    await new Promise((resolve) => setTimeout(resolve, LOOK_MS));
    silentMs += LOOK_MS;
  }
  return length;
}

/** Bytes read, 0 at the end or before a writer is there, -1 while the writer is slow. */
async function readSome(file: FileHandle, bytes: Buffer, at: number): Promise<number> {
  try {
    return (await file.read(bytes, at, bytes.length - at, null)).bytesRead;
  } catch (error) {
    if (error instanceof Error && 'code' in error && error.code === 'EAGAIN') return -1;
    throw error;
  }
}

const REASONS: Readonly<Record<string, string>> = {
  ENOENT: 'no such file',
  EISDIR: 'a folder',
  ENOTDIR: 'no such folder',
  EACCES: 'a file that may not be read',
  EPERM: 'a file that may not be read',
  EEXIST: 'a file of that name already',
  ENOSPC: 'a full disk',
  EROFS: 'a read-only disk',
  ENAMETOOLONG: 'a name that is too long',
};

/** A failure of the file system in plain words. */
export function reason(error: unknown): string {
  const code = error instanceof Error && 'code' in error ? String(error.code) : '';
  return REASONS[code] ?? `a file that fails with ${code || 'an unknown error'}`;
}

/** The joints of a route named by its id, or what is known instead. */
export function jointsOf(
  id: string,
  build: FullBuild,
  library: Library,
):
  | { readonly ok: true; readonly joints: Readonly<Record<string, JointState>> }
  | { readonly ok: false; readonly faults: readonly Fault[] } {
  const rows = libraryFor(build, mergeLibraries(build.library, library));
  const routes = enumerateRoutes(measurePart(build, rows).layups);
  const route = routes.find((candidate) => candidate.id === id);
  if (route) return { ok: true, joints: route.joints };
  const known = routes.map((candidate) => candidate.id).join(', ');
  const expected = known ? `one of ${known}` : 'no route: the part has no layups';
  return { ok: false, faults: [{ path: '--route', found: JSON.stringify(id), expected }] };
}

/** `file: path: found X, expected Y`, on one line whatever the names hold. */
export const faultLine = (file: string, { path, found, expected }: Fault): string =>
  plainName(`${file}: ${path}: found ${found}, expected ${expected}`);

/** A text for a terminal: control characters, and marks that turn the direction of writing, are blanks. */
export const plainName = (text: string): string =>
  text.replace(
    // eslint-disable-next-line no-control-regex -- removing control characters is the purpose
    /[\u0000-\u001f\u007f-\u009f\u061c\u200b-\u200f\u2028-\u202e\u2060-\u2069\ufeff]+/g,
    ' ',
  );
