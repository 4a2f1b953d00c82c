/** How the windows stand, and single facts that outlive a session. */
import { VIEW_BY_BUILD } from '../../app/contract/names.ts';
import { connection, write, type ReadHandle, type WriteHandle } from './handles.ts';

type Value = Readonly<Record<string, unknown>>;

/** `planner`: what the page keeps. `window`: place and size of Electron's window. */
export type ViewName = 'planner' | 'window';

/** An empty object when nothing was kept. */
export function readView(handle: ReadHandle, name: ViewName): Value {
  const text = connection(handle)
    .prepare<[string], string>('SELECT value FROM view_state WHERE name = ?')
    .pluck()
    .get(name);
  return text === undefined ? {} : (JSON.parse(text) as Value);
}

/**
 * Takes in what one window has changed; what others keep beside it stays.
 * @param longest characters that all of it may take; more is not kept
 * @returns false when it would be longer
 */
export function saveView(
  handle: WriteHandle,
  name: ViewName,
  changes: Value,
  nowMs: number,
  longest = Infinity,
): boolean {
  return write(handle, () => {
    const text = JSON.stringify(withChanges(readView(handle, name), changes));
    if (text.length > longest) return false;
    connection(handle)
      .prepare(
        `INSERT INTO view_state (name, value, changed_at_ms) VALUES (?, ?, ?)
         ON CONFLICT (name) DO UPDATE SET value = excluded.value,
                                          changed_at_ms = excluded.changed_at_ms`,
      )
      .run(name, text, nowMs);
    return true;
  });
}

function withChanges(kept: Value, changes: Value): Value {
  const byBuild = VIEW_BY_BUILD.filter((key) => isValue(kept[key]) && isValue(changes[key])).map(
    (key) => [key, { ...(kept[key] as Value), ...(changes[key] as Value) }],
  );
  return { ...kept, ...changes, ...(Object.fromEntries(byBuild) as Value) };
}

const isValue = (value: unknown): value is Value =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** The build that was open last, or null. It may have been removed since. */
export const lastOpenBuild = (handle: ReadHandle): string | null => recall(handle, 'open-build');

/** From here on no draft is the one that lies open. */
export function rememberOpenBuild(handle: WriteHandle, id: string, nowMs: number): void {
  if (connection(handle).readonly) return;
  write(handle, () => {
    remember(handle, 'open-build', id);
    remember(handle, `${USED}${id}`, String(nowMs));
    forget(handle, 'open-draft');
    forget(handle, 'died');
  });
}

/** The draft that was open last, when no build was opened since. It may have been removed. */
export const lastOpenDraft = (handle: ReadHandle): string | null => recall(handle, 'open-draft');

export function rememberOpenDraft(handle: WriteHandle, id: string): void {
  if (connection(handle).readonly) return;
  write(handle, () => {
    remember(handle, 'open-draft', id);
    forget(handle, 'died');
  });
}

/**
 * Tells the data of a run of the program that begins. Where the one before was not closed, and its process is no
 * more, what lay open then may be what ended it.
 * @param isRunning whether the process of that mark still runs
 */
export function noteStart(
  handle: WriteHandle,
  mark: string,
  isRunning: (mark: string) => boolean,
): void {
  apart(handle, () => {
    const before = recall(handle, 'running');
    if (before !== null && before !== mark && !isRunning(before)) remember(handle, 'died', before);
    remember(handle, 'running', mark);
  });
}

/** The run ends as it should. Another one on the same data goes on. */
export function noteEnd(handle: WriteHandle, mark: string): void {
  if (recall(handle, 'running') === mark) apart(handle, () => forget(handle, 'running'));
}

/** The page or the program has ended by itself: what lies open is not opened again unasked. */
export function noteDeath(handle: WriteHandle): void {
  if (!connection(handle).readonly) apart(handle, () => remember(handle, 'died', 'page'));
}

/** True from a death on until a build or draft is opened by hand. */
export const hasDied = (handle: ReadHandle): boolean => recall(handle, 'died') !== null;

/** Before the id of a build: when it was opened last, Unix milliseconds. */
export const USED = 'used-at:';

type Fact = 'open-build' | 'open-draft' | 'running' | 'died' | `${typeof USED}${string}`;

/** Facts of a run are no change of the data. */
const apart = (handle: WriteHandle, work: () => void): void =>
  connection(handle).transaction(work).immediate();

const forget = (handle: WriteHandle, name: Fact): void =>
  void connection(handle).prepare('DELETE FROM meta WHERE name = ?').run(name);

const recall = (handle: ReadHandle, name: Fact): string | null =>
  connection(handle)
    .prepare<[string], string>('SELECT value FROM meta WHERE name = ?')
    .pluck()
    .get(name) ?? null;

function remember(handle: WriteHandle, name: Fact, value: string): void {
  connection(handle)
    .prepare(
      `INSERT INTO meta (name, value) VALUES (?, ?)
       ON CONFLICT (name) DO UPDATE SET value = excluded.value`,
    )
    .run(name, value);
}
