/** What the screen says after an act: done, not done, and why. */

export const STEP_WORDS = { undone: 'Undone', redone: 'Done again' } as const;

export const NEWS = {
  printed: 'Printed.',
  notPrinted: 'Not printed.',
  saved: 'Saved.',
  notSaved: 'Not saved.',
  undoUnderWay: 'Undo was still under way: make that change once more.',
  saveBeforeUndo: 'Edits are still waiting to be saved: nothing can be undone before.',
  changedElsewhere: 'Changed in another window: this one shows the newest now.',
  changedUnderEdit:
    'Changed in another window: this one shows the newest now. Your last edit is offered again.',
  enterFirst:
    'First enter what is still missing: the plan is drawn with something else in its place.',
  leverClosed: (lever: string): string => `${lever}: not open for this build any more.`,
  notTaken: (what: string): string => `Not taken: ${what}`,
  notTakenBecause: (why: string): string => `Not taken. ${why}`,
  notOpened: (file: string): string => `${file} was not opened.`,
  moreReasons: (count: number): string => `and ${count} more`,
} as const;

/** Names of edits in the list of undo that no field gives. */
export const EDIT_NAMES = {
  jobCard: 'Job card',
  printed: 'Printed the schedule',
  acceptPlan: 'Work by the new plan',
  keepPlan: 'Keep the printed plan',
  planAgain: 'Plan again, without the print',
  lever: (lever: string): string => `Way out: ${lever}`,
} as const;

/** A fault of a whole file or edit, where no field can be named. */
export const WHOLE_FILE = {
  path: '(file)',
  buildFile: 'a build file',
  keepableEdit: 'an edit that can be kept',
} as const;

export const FILE_FAULTS = {
  unreadable: 'The file could not be read to its end.',
  tooLarge: 'The file is too large for this machine’s memory.',
} as const;

/** The program behind the page. */
export const CONNECTION = {
  gone:
    'The program behind this page does not answer. Leave this page open and start the program again: ' +
    'nothing that you typed is lost.',
  lost:
    'The program was started again. Leave this page open and open the address that the program printed ' +
    'in another tab: this page goes on by itself then, with all that you typed.',
  noMethod: (name: string): string => `There is no ${name} here.`,
} as const;

export const JOB_WORDS = {
  starting: 'Starting',
  failed: 'The work stopped on a fault of the program.',
  screened: (combinations: number): string => `Looking at ${combinations} combinations`,
  planned: (done: number, total: number): string => `Planning ${done} of ${total}`,
  weighed: (done: number, total: number): string => `Weighing the odds of ${done} of ${total}`,
  replayed: (done: number, total: number): string => `Replayed ${done} of ${total} times`,
} as const;
