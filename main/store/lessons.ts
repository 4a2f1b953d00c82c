/** What the shop's own finished builds taught. */
import { buildSchema } from '../../app/document/schema.ts';
import type { FinishedBuild } from '../../app/contract/channels.ts';
import { listBuilds, openBuild } from './builds.ts';
import { StoreRefusal } from './errors.ts';
import type { ReadHandle } from './handles.ts';

/** Builds that are closed, the last changed first. Samples and unreadable ones are left out. */
export function finishedBuilds(handle: ReadHandle): FinishedBuild[] {
  return listBuilds(handle)
    .filter((summary) => !summary.sample)
    .toSorted((one, other) => Date.parse(other.changedAt) - Date.parse(one.changedAt))
    .flatMap(({ id, name }): FinishedBuild[] => {
      const read = buildSchema.safeParse(documentOf(handle, id));
      if (!read.success || !read.data.lessons.finished) return [];
      const { lessons, mould, resin } = read.data;
      const { system, hardener } = resin;
      return [{ id, name, release: mould.release, resin: { system, hardener }, lessons }];
    });
}

/** Null when none of its revisions can be read. */
function documentOf(handle: ReadHandle, id: string): unknown {
  try {
    return openBuild(handle, id).document;
  } catch (error) {
    if (error instanceof StoreRefusal) return null;
    throw error;
  }
}
