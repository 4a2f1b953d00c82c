/** Texts of the window itself: drawer, lower tray, header. */

export const SIDE = {
  close: (panel: string): string => `Close ${panel}`,
  width: 'Width of the drawer',
} as const;

export const TRAY = {
  height: 'Height of the lower tray',
} as const;
