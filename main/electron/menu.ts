/** The application menu: standard roles in the standard order. */
import type { MenuItemConstructorOptions } from 'electron';

export function menuTemplate(
  platform: NodeJS.Platform,
  packaged: boolean,
): MenuItemConstructorOptions[] {
  const view: MenuItemConstructorOptions[] = [
    { role: 'resetZoom' },
    { role: 'zoomIn' },
    { role: 'zoomOut' },
    { type: 'separator' },
    { role: 'togglefullscreen' },
  ];
  const workshop: MenuItemConstructorOptions[] = [
    { type: 'separator' },
    { role: 'reload' },
    { role: 'toggleDevTools' },
  ];
  return [
    ...(platform === 'darwin' ? [{ role: 'appMenu' as const }] : []),
    { role: 'fileMenu' },
    { role: 'editMenu' },
    { label: 'View', submenu: packaged ? view : [...view, ...workshop] },
    { role: 'windowMenu' },
  ];
}
