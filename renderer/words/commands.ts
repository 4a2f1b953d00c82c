/** What the list of keys calls each act. */

export const COMMAND_WORDS = {
  undo: 'Undo',
  redo: 'Redo',
  printSheets: 'Print sheets',
  planAgain: 'Plan again, without the print',
  stopSearch: 'Stop improving: keep the best plan so far',
  bench: 'At the bench: stamps and clocks',
  phoneTicks: 'Ticks of a phone: paste and look at them',
  newBuild: 'New build',
  duplicate: 'Duplicate this build',
  exportBuild: 'Save this build as a file',
  builds: 'Builds: open, new, from file',
  history: 'History: versions, what changed, go back',
  find: 'Find a build, a stage, a field or a finding',
  nextFinding: 'Next finding’s stage',
  stretchTray: 'Taller or lower tray',
  foldTray: 'Fold or unfold the lower tray',
  theme: 'Light: as the system, light, dark, high contrast',
  help: 'Help: first steps, words, rules, keys',
  showTray: (tray: string): string => `Show ${tray.toLowerCase()}`,
  editPanel: (panel: string): string => `Edit: ${panel}`,
} as const;
