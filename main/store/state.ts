/** How the windows stand, and single facts that outlive a session. */
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

export function saveView(handle: WriteHandle, name: ViewName, value: Value, nowMs: number): void {
  write(handle, () =>
    connection(handle)
      .prepare(
        `INSERT INTO view_state (name, value, changed_at_ms) VALUES (?, ?, ?)
         ON CONFLICT (name) DO UPDATE SET value = excluded.value,
                                          changed_at_ms = excluded.changed_at_ms`,
      )
      .run(name, JSON.stringify(value), nowMs),
  );
}

/** The build that was open last, or null. It may have been removed since. */
export const lastOpenBuild = (handle: ReadHandle): string | null => recall(handle, 'open-build');

/** From here on no draft is the one that lies open. */
export function rememberOpenBuild(handle: WriteHandle, id: string): void {
  if (connection(handle).readonly) return;
  write(handle, () => {
    remember(handle, 'open-build', id);
    connection(handle).prepare(`DELETE FROM meta WHERE name = 'open-draft'`).run();
  });
}

/** The draft that was open last, when no build was opened since. It may have been removed. */
export const lastOpenDraft = (handle: ReadHandle): string | null => recall(handle, 'open-draft');

export function rememberOpenDraft(handle: WriteHandle, id: string): void {
  if (connection(handle).readonly) return;
  write(handle, () => remember(handle, 'open-draft', id));
}

type Fact = 'open-build' | 'open-draft';

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
