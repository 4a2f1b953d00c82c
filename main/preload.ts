/** The bridge: one method per channel and nothing else. Runs sandboxed, as one CommonJS file. */
import { contextBridge, ipcRenderer } from 'electron';
import { CHANNEL_NAMES } from '../app/contract/names.ts';

contextBridge.exposeInMainWorld(
  'backcure',
  Object.fromEntries(
    CHANNEL_NAMES.map((name) => [name, (input: unknown) => ipcRenderer.invoke(name, input)]),
  ),
);
