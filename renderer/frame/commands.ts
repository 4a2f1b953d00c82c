/** Every act that is not an edit of one field: name, words, key, and what it does. One list for all. */
import { PANELS, TRAYS, type DeskState } from '../state/desk.svelte.ts';
import type { PlannerState } from '../state/planner.svelte.ts';
import { THEMES } from '../state/theme.svelte.ts';
import { COMMAND_WORDS } from '../words/commands.ts';
import { PANEL_NAMES, TRAY_NAMES } from '../words/window.ts';

export interface Key {
  /** `event.key`, lower case. */
  readonly key: string;
  /** Ctrl, or Cmd where that is the custom. */
  readonly control?: true;
  readonly shift?: true;
  readonly alt?: true;
}

export interface Command {
  readonly name: string;
  readonly label: string;
  readonly keys: readonly Key[];
  /** Works also while a field is being typed in. */
  readonly inFields?: true;
  readonly available: (planner: PlannerState, desk: DeskState) => boolean;
  readonly run: (planner: PlannerState, desk: DeskState) => void;
}

/** Letters of the build's name in a file's name. */
const MOST_NAME = 80;

const always = () => true;
const planned = (planner: PlannerState) => planner.outcome !== null;
/** Nothing is printed or stamped from a plan in which something stands in. */
const ready = (planner: PlannerState) => planner.planning.ready;

export const COMMANDS: readonly Command[] = [
  {
    name: 'undo',
    label: COMMAND_WORDS.undo,
    keys: [{ key: 'z', control: true }],
    inFields: true,
    available: (planner) => planner.history.undoLabel !== null,
    run: (planner) => void planner.history.undo(),
  },
  {
    name: 'redo',
    label: COMMAND_WORDS.redo,
    keys: [
      { key: 'y', control: true },
      { key: 'z', control: true, shift: true },
    ],
    inFields: true,
    available: (planner) => planner.history.redoLabel !== null,
    run: (planner) => void planner.history.redo(),
  },
  {
    name: 'print-sheets',
    label: COMMAND_WORDS.printSheets,
    keys: [{ key: 'p', control: true }],
    inFields: true,
    available: ready,
    run: (_planner, desk) => (desk.dialog = 'sheets'),
  },
  {
    name: 'bench',
    label: COMMAND_WORDS.bench,
    keys: [{ key: 'b' }],
    available: ready,
    run: (_planner, desk) => (desk.dialog = 'bench'),
  },
  {
    name: 'phone-ticks',
    label: COMMAND_WORDS.phoneTicks,
    keys: [{ key: 'k' }],
    available: ready,
    run: (_planner, desk) => (desk.dialog = 'ticks'),
  },
  {
    name: 'plan-afresh',
    label: COMMAND_WORDS.planAgain,
    keys: [{ key: 'r', alt: true }],
    available: (planner) => Boolean(planner.document.printed),
    run: (planner) => planner.printing.planAfresh(),
  },
  {
    name: 'stop-thinking',
    label: COMMAND_WORDS.stopSearch,
    keys: [{ key: 's', alt: true }],
    available: (planner) => planner.planning.thinking === 'thinking',
    run: (planner) => planner.planning.stopThinking(),
  },
  {
    name: 'new-build',
    label: COMMAND_WORDS.newBuild,
    keys: [{ key: 'n', alt: true }],
    inFields: true,
    available: always,
    run: (planner, desk) =>
      void planner.opening.create().then((shown) => shown && desk.showPanel('job')),
  },
  {
    name: 'duplicate',
    label: COMMAND_WORDS.duplicate,
    keys: [{ key: 'd', alt: true }],
    available: (planner) => planner.buildId !== null,
    run: (planner) => void planner.opening.duplicate(),
  },
  {
    name: 'export',
    label: COMMAND_WORDS.exportBuild,
    keys: [{ key: 'x', alt: true }],
    available: (planner) => planner.buildId !== null,
    run: ({ printing, document }) =>
      void printing.saveText(
        `${(document.name ?? 'build').slice(0, MOST_NAME)}.build.json`,
        `${JSON.stringify(document, null, 2)}\n`,
      ),
  },
  {
    name: 'builds',
    label: COMMAND_WORDS.builds,
    keys: [{ key: 'o', control: true }],
    inFields: true,
    available: always,
    run: (_planner, desk) => (desk.dialog = 'builds'),
  },
  {
    name: 'history',
    label: COMMAND_WORDS.history,
    keys: [{ key: 'h' }],
    available: (planner) => planner.buildId !== null,
    run: (_planner, desk) => (desk.dialog = 'history'),
  },
  {
    name: 'find',
    label: COMMAND_WORDS.find,
    keys: [{ key: 'f', control: true }],
    inFields: true,
    available: always,
    run: (_planner, desk) => (desk.dialog = 'find'),
  },
  {
    name: 'next-finding',
    label: COMMAND_WORDS.nextFinding,
    keys: [{ key: 'f' }],
    available: (planner) => planner.result?.findings.some((f) => f.stage !== null) ?? false,
    run: nextFinding,
  },
  ...TRAYS.map((id, i): Command => ({
    name: `tray-${id}`,
    label: COMMAND_WORDS.showTray(TRAY_NAMES[id]),
    keys: [{ key: String(i + 1) }],
    available: planned,
    run: (_planner, desk) => desk.showTray(id),
  })),
  {
    name: 'stretch-tray',
    label: COMMAND_WORDS.stretchTray,
    keys: [{ key: '9' }],
    available: planned,
    run: (_planner, desk) => desk.stretchTray(),
  },
  {
    name: 'fold-tray',
    label: COMMAND_WORDS.foldTray,
    keys: [{ key: '0' }],
    available: planned,
    run: (_planner, desk) => desk.foldTray(),
  },
  ...PANELS.map((id, i): Command => ({
    name: `panel-${id}`,
    label: COMMAND_WORDS.editPanel(PANEL_NAMES[id]),
    keys: [{ key: String(i + 1), alt: true }],
    inFields: true,
    available: always,
    run: (_planner, desk) => desk.showPanel(id),
  })),
  {
    name: 'theme',
    label: COMMAND_WORDS.theme,
    keys: [{ key: 'l', alt: true }],
    inFields: true,
    available: always,
    run: (_planner, desk) => {
      const at = THEMES.indexOf(desk.theme.choice);
      desk.useTheme(THEMES[(at + 1) % THEMES.length]!);
    },
  },
  {
    name: 'help',
    label: COMMAND_WORDS.help,
    keys: [{ key: '?' }, { key: 'f1' }],
    available: always,
    run: (_planner, desk) => (desk.dialog = 'help'),
  },
];

/** Walks through the stages that findings point at, worst first. */
function nextFinding(planner: PlannerState, desk: DeskState): void {
  const order = ['stop', 'warn', 'note'];
  const stages = (planner.result?.findings ?? [])
    .filter((finding) => finding.stage !== null)
    .sort((a, b) => order.indexOf(a.severity) - order.indexOf(b.severity))
    .map((finding) => finding.stage!);
  const unique = [...new Set(stages)];
  const next = unique[(unique.indexOf(planner.selected ?? '') + 1) % unique.length];
  if (next === undefined) return;
  planner.selected = next;
  desk.showTray('findings');
}

export function commandNamed(name: string): Command {
  const command = COMMANDS.find((candidate) => candidate.name === name);
  if (!command) throw new Error(`no command ${name}`);
  return command;
}

/** Does what was picked in the shell's menu; while text is being typed, undo and redo are the field's. */
export function runFromMenu(name: string, planner: PlannerState, desk: DeskState): void {
  const target = document.activeElement;
  const isTyping = target instanceof HTMLElement && target.dataset['typing'] === 'true';
  const command = COMMANDS.find((candidate) => candidate.name === name);
  if (isTyping && (name === 'undo' || name === 'redo')) document.execCommand(name);
  else if (desk.dialog === null && command?.available(planner, desk)) command.run(planner, desk);
}

/** The command of a key press, or null. */
export function commandFor(event: KeyboardEvent, inField: boolean): Command | null {
  const control = event.ctrlKey || event.metaKey;
  return (
    COMMANDS.find(
      (command) =>
        (!inField || command.inFields === true) &&
        command.keys.some(
          (key) =>
            key.key === event.key.toLowerCase() &&
            (key.control ?? false) === control &&
            (key.alt ?? false) === event.altKey &&
            // A sign such as ? needs Shift on most keyboards: the sign itself says enough.
            (/^[^a-z0-9]$/.test(key.key) || (key.shift ?? false) === event.shiftKey),
        ),
    ) ?? null
  );
}

/** `Ctrl+Shift+Z` */
export function formatKey(key: Key, mac: boolean): string {
  const parts = [];
  if (key.control) parts.push(mac ? '⌘' : 'Ctrl');
  if (key.alt) parts.push(mac ? '⌥' : 'Alt');
  if (key.shift) parts.push(mac ? '⇧' : 'Shift');
  parts.push(key.key.toUpperCase());
  return parts.join('+');
}
