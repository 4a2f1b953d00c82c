/** Texts of the help: its tabs, and the tour of the window. */

export const HELP = {
  title: 'Help',
  tabs: { tour: 'First steps', words: 'Words', rules: 'Rules and why', keys: 'Keys' },
  tabsLabel: 'Parts of the help',
  find: 'Find a word',
  none: (text: string): string => `No entry has “${text}” in it.`,
  trade: 'Words of the trade',
  program: 'Words of this program',
  why: 'Why',
  source: 'From',
  inField: (what: string): string => `In a field: ${what}`,
  or: ' or ',
  startTour: 'Show me on this build',
  tourNeedsPlan: 'The tour needs a plan: open a sample or fill in the job card first.',
  sheets:
    'The plan does not replace data sheets, local rules, or licensed and trained people: where resin, heat, dust or lifting can hurt, they come first.',
} as const;

export const FIELD_KEYS: readonly { readonly key: string; readonly what: string }[] = [
  { key: 'Enter', what: 'Take what is typed' },
  { key: 'Esc', what: 'Put the field back' },
  { key: '↑ ↓', what: 'Step a figure that has − and +' },
];

export interface TourStep {
  readonly title: string;
  readonly text: string;
  /** What is framed on the screen. */
  readonly target: string;
  /** What is opened first. */
  readonly opens: 'nothing' | 'stage' | 'routes' | 'job';
}

export const TOUR: readonly TourStep[] = [
  {
    title: 'Three answers',
    text: 'Does the build make its date, what has to be begun by when, and must layups be merged or something be bought. Each can be clicked for its reason.',
    target: '.band',
    opens: 'nothing',
  },
  {
    title: 'The build on one picture',
    text: 'Time runs to the right, up to the day of the unveiling. Zoom from the whole build to a week or a day. Click a stage to open it; drag it to fix its start.',
    target: '.board',
    opens: 'nothing',
  },
  {
    title: 'A wet stage',
    text: 'When to mix, by when the bag is down, when the gel is due, and from when the bag may come off: all reckoned for your room and your people.',
    target: '.tray',
    opens: 'stage',
  },
  {
    title: 'Separate or together',
    text: 'Every way to divide the layups into cures: whether it makes the date, until when it is open, and what it costs in hours, weight and finish.',
    target: '.tray',
    opens: 'routes',
  },
  {
    title: 'Your own figures',
    text: 'Dates, people, room, resin and part are typed here. What you leave out is assumed and listed under Assumed with its reason. Then print the sheets for the wall and the bench.',
    target: '#panel',
    opens: 'job',
  },
];

export const TOUR_WORDS = {
  label: 'Tour',
  at: (step: number, of: number): string => `Step ${step} of ${of}`,
  back: 'Back',
  next: 'Next',
  done: 'Done',
  end: 'End the tour',
} as const;

export const SAMPLE_WORDS = {
  is: 'A sample, people invented: try anything.',
  tour: 'Show me round',
  own: 'Begin my own',
} as const;
