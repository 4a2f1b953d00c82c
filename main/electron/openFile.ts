/** A build file that the system hands over: by a second start, or by opening it where files are shown. */
import { readFileSync, statSync } from 'node:fs';
import { basename, isAbsolute, resolve } from 'node:path';
import { MAX_BUILD_CHARACTERS } from '../../app/document/read.ts';
import { answer } from '../handlers/answer.ts';
import { reason } from '../command/input.ts';
import type { Session } from '../session.ts';

/**
 * The file among the arguments of a start, or null; Chromium adds switches of its own, anywhere.
 * @param cwd folder that a relative name is meant from
 */
export function fileIn(argv: readonly string[], packaged: boolean, cwd: string): string | null {
  const given = argv.slice(packaged ? 1 : 2).filter((argument) => !argument.startsWith('-'));
  const name = given.findLast((argument) => argument.toLowerCase().endsWith('.json'));
  if (name === undefined) return null;
  return isAbsolute(name) ? name : resolve(cwd, name);
}

/** Takes the file in as a build of its own. @returns why it was not taken, or null */
export async function takeFile(session: Session, path: string): Promise<string | null> {
  const fileName = basename(path).slice(0, 300);
  let text: string;
  try {
    const { size } = statSync(path);
    if (size > MAX_BUILD_CHARACTERS) return `${fileName} is too long for a build.`;
    text = readFileSync(path, 'utf8');
  } catch (error) {
    return `${fileName} was not opened: found ${reason(error)}.`;
  }
  const given = await answer(session, 'build-import', { fileName, text });
  if (!given.ok) return given.detail;
  const { faults = [] } = given.value as { faults?: { path: string; found: string }[] };
  const [first] = faults;
  return first ? `${fileName} was not opened. ${first.path}: found ${first.found}.` : null;
}
