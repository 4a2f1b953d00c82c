/** How far a stage has come, by what the floor wrote down: done, running, or still to come. */
import type { StageResult } from '../document/schema.ts';

export type Course = 'done' | 'running' | 'to-come';

export function courseOf({ state }: Pick<StageResult, 'state'>): Course {
  if (state === undefined) return 'to-come';
  return state === 'running' ? 'running' : 'done';
}

/** Before the name of a stage, where colour may not be printed. */
export const COURSE_MARK: Readonly<Record<Course, string>> = {
  done: '✓ ',
  running: '▶ ',
  'to-come': '',
};

/** Where a stage to come has its latest start. */
export const COURSE_WORDS: Readonly<Record<Course, string>> = {
  done: 'done',
  running: 'running',
  'to-come': '',
};
