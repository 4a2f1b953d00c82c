/** The bridge: one method per channel, what is picked in the menu, and nothing else. Runs sandboxed, as one CommonJS file. */
import { contextBridge, ipcRenderer } from 'electron';
import { MENU_BRIDGE, MENU_CHANNEL } from '../app/contract/menu.ts';
import { CHANNEL_NAMES } from '../app/contract/names.ts';

contextBridge.exposeInMainWorld(
  'backcure',
  Object.fromEntries(
    CHANNEL_NAMES.map((name) => [name, (input: unknown) => ipcRenderer.invoke(name, input)]),
  ),
);

contextBridge.exposeInMainWorld(MENU_BRIDGE, {
  /** The page is told the name of the act alone, never the event with its sender. */
  onCommand: (take: (command: string) => void) => {
    ipcRenderer.on(MENU_CHANNEL, (_event, command: unknown) => take(String(command)));
  },
});
