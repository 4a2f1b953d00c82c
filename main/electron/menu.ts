/**
 * The application menu: the acts of the page by its own names, and standard roles for the rest. Keys are
 * shown, and pressed they reach the page, which does the act; on a Mac the menu takes them first.
 */
import type { MenuItemConstructorOptions } from 'electron';
import { MENU_ACTS, type MenuAct } from '../../app/contract/menu.ts';

/** @param tell hands the name of an act to the page */
export function menuTemplate(
  platform: NodeJS.Platform,
  packaged: boolean,
  tell: (command: string) => void,
): MenuItemConstructorOptions[] {
  const acts = (group: readonly MenuAct[]): MenuItemConstructorOptions[] =>
    group.map(({ command, label, accelerator }) => ({
      label,
      ...(accelerator === '' ? {} : { accelerator, registerAccelerator: false }),
      click: () => tell(command),
    }));
  const line: MenuItemConstructorOptions = { type: 'separator' };
  const roles = (
    ...names: NonNullable<MenuItemConstructorOptions['role']>[]
  ): MenuItemConstructorOptions[] => names.map((role) => ({ role }));
  const isMac = platform === 'darwin';
  return [
    ...(isMac ? roles('appMenu') : []),
    { label: 'File', submenu: [...acts(MENU_ACTS.file), line, ...roles(isMac ? 'close' : 'quit')] },
    {
      label: 'Edit',
      submenu: [...acts(MENU_ACTS.edit), line, ...roles('cut', 'copy', 'paste', 'selectAll')],
    },
    {
      label: 'View',
      submenu: [
        ...acts(MENU_ACTS.view),
        line,
        ...roles('resetZoom', 'zoomIn', 'zoomOut'),
        line,
        ...roles('togglefullscreen'),
        ...(packaged ? [] : [line, ...roles('reload', 'toggleDevTools')]),
      ],
    },
    ...roles('windowMenu'),
    { label: 'Help', role: 'help', submenu: acts(MENU_ACTS.help) },
  ];
}
