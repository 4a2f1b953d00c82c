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
export function lastOpenBuild(handle: ReadHandle): string | null {
  const id = connection(handle)
    .prepare<[], string>(`SELECT value FROM meta WHERE name = 'open-build'`)
    .pluck()
    .get();
  return id ?? null;
}

export function rememberOpenBuild(handle: WriteHandle, id: string): void {
  write(handle, () =>
    connection(handle)
      .prepare(
        `INSERT INTO meta (name, value) VALUES ('open-build', ?)
         ON CONFLICT (name) DO UPDATE SET value = excluded.value`,
      )
      .run(id),
  );
}
