/**
 * What the shell's menu calls in the page, by the name of the page's own command, with the key that does
 * the same there. A test holds names and keys equal to the page's list.
 */

export interface MenuAct {
  readonly command: string;
  readonly label: string;
  /** As Electron writes a key; empty: none. */
  readonly accelerator: string;
}

const act = (command: string, label: string, accelerator = ''): MenuAct => ({
  command,
  label,
  accelerator,
});

export const MENU_ACTS = {
  file: [
    act('new-build', 'New build', 'Alt+N'),
    act('builds', 'Builds…', 'CmdOrCtrl+O'),
    act('duplicate', 'Duplicate this build', 'Alt+D'),
    act('history', 'History of this build', 'H'),
    act('export', 'Save this build as a file…', 'Alt+X'),
    act('print-sheets', 'Print sheets…', 'CmdOrCtrl+P'),
  ],
  edit: [
    act('undo', 'Undo', 'CmdOrCtrl+Z'),
    act('redo', 'Redo', 'CmdOrCtrl+Y'),
    act('find', 'Find…', 'CmdOrCtrl+F'),
  ],
  view: [
    act('fold-tray', 'Lower tray', '0'),
    act('bench', 'At the bench', 'B'),
    act('theme', 'Light, dark or high contrast', 'Alt+L'),
  ],
  help: [act('help', 'Help: first steps, words, rules, keys', 'F1')],
} as const satisfies Readonly<Record<string, readonly MenuAct[]>>;

/** Name under which the preload hands the page what was picked in the menu. */
export const MENU_BRIDGE = 'backcureMenu';
/** Channel from the shell to the page. */
export const MENU_CHANNEL = 'menu-command';
