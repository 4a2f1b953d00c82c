/** Texts of what is kept beside the builds on the list: removed builds, copies of the data, the export. */
import type { CopySummary } from '../../app/contract/channels.ts';

export const KEPT_WORDS = {
  title: 'Removed builds and kept copies',
  removed: 'Removed builds',
  noneRemoved: 'No build was removed.',
  bringBack: (name: string) => `Bring back ${name}`,
  copies: 'Kept copies of the data',
  noCopies: 'No copy is kept yet. One is made each day that the planner is used.',
  inUtc: (moment: string) => `${moment} UTC`,
  putBack: 'Put back…',
  putBackNow: (when: string) => `Put back the copy of ${when}`,
  putBackHint: 'All builds become as they were then. What is there now is kept as a copy itself.',
  keep: 'Leave as it is',
  export: 'Save everything as a file',
  exportHint: 'Every build with its history, removed ones too. “From a file” takes it in again.',
  exportName: 'backcure-everything.json',
  wasPutBack: 'The copy was put back.',
} as const;

export const COPY_KIND_WORDS: Readonly<Record<CopySummary['kind'], string>> = {
  day: 'copy of the day',
  'before-step': 'before a new version of the program',
  replaced: 'before a copy was put back',
  damaged: 'damaged file',
};

export const buildsInCopy = (builds: number): string =>
  builds === 1 ? '1 build' : `${builds} builds`;
