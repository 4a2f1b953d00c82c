/** What lies open on the desk: side panel, tray, dialog, theme. Kept with the view, not in the undo list. */
import type { SheetKind } from '../../app/shop/parts.ts';
import type { PlannerState } from './planner.svelte.ts';
import { isTheme, type Theme, type ThemeState } from './theme.svelte.ts';

/** In the order of the rail. */
export const PANELS = [
  'job',
  'part',
  'resin',
  'people',
  'mould',
  'outside',
  'questions',
  'assumed',
] as const;
export type PanelId = (typeof PANELS)[number];

/** In the order of the tabs. */
export const TRAYS = [
  'findings',
  'routes',
  'decide',
  'stage',
  'curves',
  'totals',
  'part',
  'chemistry',
] as const;
export type TrayId = (typeof TRAYS)[number];

/** Width of the drawer of fields, px. */
export const PANEL_WIDTH = { least: 250, usual: 290, most: 560 } as const;
/** Height of the open tray, px. */
export const TRAY_HEIGHT = { least: 110, usual: 230, most: 620 } as const;

/** A size kept with the view; what else may stand there counts as none. */
const sizeOf = (kept: unknown): number | null =>
  typeof kept === 'number' && Number.isFinite(kept) && kept > 0 ? kept : null;

export type DialogId = 'builds' | 'history' | 'find' | 'help' | 'sheets' | 'bench' | 'ticks';

export class DeskState {
  readonly #planner: PlannerState;
  readonly theme: ThemeState;
  dialog = $state<DialogId | null>(null);
  /** Which step of the tour is shown; null: none. */
  tourStep = $state<number | null>(null);
  /** The one kind of sheet to print; null: all. */
  sheetKind = $state<SheetKind | null>(null);

  constructor(planner: PlannerState, theme: ThemeState) {
    this.#planner = planner;
    this.theme = theme;
  }

  get panel(): PanelId {
    return PANELS.find((id) => id === this.#planner.view['panel']) ?? 'job';
  }

  get tray(): TrayId {
    return TRAYS.find((id) => id === this.#planner.view['tray']) ?? 'findings';
  }

  /** Whether the tray takes half of the height: as the person left it, else where it is worked in. */
  get trayTall(): boolean {
    const kept = this.#planner.view[this.#tallKey];
    return typeof kept === 'boolean' ? kept : this.trayDeep || this.tray === 'routes';
  }

  /** Deep trays and the others remember their height apart. */
  get #tallKey(): string {
    return this.trayDeep ? 'partTall' : 'trayTall';
  }

  /** A tray with depth of its own: it is worked in, not glanced at. Choices are read beside the board. */
  get trayDeep(): boolean {
    const { view } = this.#planner;
    if (this.tray === 'decide') return (view['decideTab'] ?? 'choices') !== 'choices';
    return this.tray === 'part' || this.tray === 'chemistry';
  }

  /** Alone on the desk: the board comes back with a lower tray. */
  get trayAlone(): boolean {
    return this.trayOpen && this.trayDeep && this.trayTall;
  }

  /** Folded until something is asked of it, so that the board has the height. */
  get trayOpen(): boolean {
    return this.#planner.view['trayOpen'] === true;
  }

  /** Height of the open tray as the person drew it, px; null: never drawn. */
  get trayHeight(): number | null {
    return sizeOf(this.#planner.view['trayHeight']);
  }

  /** A drawn height takes the place of the tall one. */
  set trayHeight(px: number) {
    this.#planner.setView({ trayHeight: px, [this.#tallKey]: false });
  }

  /** The drawer of fields: open while a build is first filled in, else when it is asked for. */
  get panelOpen(): boolean {
    const kept = this.#planner.view['panelOpen'];
    return typeof kept === 'boolean' ? kept : this.#planner.drafting;
  }

  get panelWidth(): number {
    return sizeOf(this.#planner.view['panelWidth']) ?? PANEL_WIDTH.usual;
  }

  set panelWidth(px: number) {
    this.#planner.setView({ panelWidth: px });
  }

  /** After the session has begun: what was left open, and the theme. */
  restore(): void {
    const theme = this.#planner.view['theme'];
    if (isTheme(theme)) this.theme.choice = theme;
  }

  showPanel(panel: PanelId): void {
    this.#planner.setView({ panel, panelOpen: true });
  }

  /** @param field id of the element that takes the entry */
  goToField(panel: PanelId, field: string): void {
    this.showPanel(panel);
    // The panel is drawn first.
    requestAnimationFrame(() => document.getElementById(field)?.focus());
  }

  closePanel(): void {
    this.#planner.setView({ panelOpen: false });
  }

  /** The open one closes, any other opens. */
  togglePanel(panel: PanelId): void {
    if (this.panelOpen && this.panel === panel) this.closePanel();
    else this.showPanel(panel);
  }

  showTray(tray: TrayId): void {
    this.#planner.setView({ tray, trayOpen: true });
  }

  stretchTray(): void {
    this.#planner.setView({ [this.#tallKey]: !this.trayTall, trayOpen: true });
  }

  foldTray(): void {
    this.#planner.setView({ trayOpen: !this.trayOpen });
  }

  useTheme(theme: Theme): void {
    this.theme.choice = theme;
    this.#planner.setView({ theme });
  }

  /** A zone's section, from its card. */
  showZone(index: number): void {
    this.#planner.setView({ partTab: 'laminate', partZone: index });
    this.showTray('part');
  }

  /** One of the chemistry's own tabs, from where its figures are typed or shown. */
  showChemistry(tab: 'cure' | 'batch' | 'sheet' | 'log'): void {
    this.#planner.setView({ chemistryTab: tab });
    this.showTray('chemistry');
  }

  showSheets(kind: SheetKind): void {
    this.sheetKind = kind;
    this.dialog = 'sheets';
  }

  /** A stage picked anywhere: on the timeline, in a finding, in the header. */
  showStage(stage: string): void {
    this.#planner.selected = stage;
    this.showTray('stage');
  }
}
