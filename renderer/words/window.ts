/** Texts of the window itself: title, header, drawer, lower tray. */
import type { PanelId, TrayId } from '../state/desk.svelte.ts';

/** The name of the program, as the title of a window without a build. */
export const PROGRAM = 'Backcure';

export const windowTitle = (build: string): string => `${build} – ${PROGRAM}`;

export const OPENING = {
  busy: 'Opening the last build…',
  failed: '■ The planner cannot start.',
} as const;

/** The band under the bar: three answers and three sums. */
export const GLANCE = {
  region: 'At a glance',
  fit: 'Does it fit?',
  next: 'Next that cannot move',
  force: 'Merge or buy',
  hands: 'Hands on',
  material: 'Material',
  weight: 'Weight',
  weightAgainst: (target: string): string => `Weight, target ${target}`,
} as const;

export const PANEL_NAMES: Readonly<Record<PanelId, string>> = {
  job: 'Job card',
  part: 'Part',
  resin: 'Resin & room',
  people: 'Dates & people',
  mould: 'Mould & gear',
  outside: 'Outside jobs',
  questions: 'Questions',
  assumed: 'Assumed',
};

export const TRAY_NAMES: Readonly<Record<TrayId, string>> = {
  findings: 'Findings',
  routes: 'Routes',
  decide: 'Choices & odds',
  stage: 'Stage',
  curves: 'Cure curves',
  totals: 'Weight & cost',
  part: 'Laminate & kit',
  chemistry: 'Chemistry',
};

export const SIDE = {
  sections: 'Sections of the build',
  close: (panel: string): string => `Close ${panel}`,
  drawer: 'Drawer of fields',
  width: 'Width of the drawer',
} as const;

export const TRAY = {
  height: 'Height of the lower tray',
} as const;
