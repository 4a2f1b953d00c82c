import { expect, it, vi } from 'vitest';
import { channels } from '../../../app/contract/channels.ts';
import { CHANNEL_NAMES } from '../../../app/contract/names.ts';
import { registerChannels } from '../../../main/electron/messages.ts';
import { handlers } from '../../../main/handlers/table.ts';
import { scratchSession } from './fixtures.ts';

const exposed = vi.hoisted(() => ({
  bridges: [] as [string, object][],
  sent: [] as unknown[][],
  heard: {} as Record<string, (...told: unknown[]) => void>,
}));
vi.mock('electron', () => ({
  contextBridge: {
    exposeInMainWorld: (key: string, bridge: object) => exposed.bridges.push([key, bridge]),
  },
  ipcRenderer: {
    invoke: (...sent: unknown[]) => exposed.sent.push(sent),
    on: (channel: string, heard: (...told: unknown[]) => void) => {
      exposed.heard[channel] = heard;
    },
  },
}));

const table = Object.keys(channels).sort();

it('the table of channels, the handlers and the names agree', () => {
  expect(Object.keys(handlers).sort()).toEqual(table);
  expect([...CHANNEL_NAMES].sort()).toEqual(table);
});

it('main listens on every channel and no other', () => {
  const heard: string[] = [];
  registerChannels({ handle: (name) => void heard.push(name) }, scratchSession(), () => true);
  expect(heard.sort()).toEqual(table);
});

it('the preload exposes one object with a method per channel, which sends its input alone', async () => {
  await import('../../../main/preload.ts');
  expect(exposed.bridges.map(([name]) => name)).toEqual(['backcure', 'backcureMenu']);
  const [key, bridge] = exposed.bridges[0]!;
  expect(key).toBe('backcure');
  expect(Object.keys(bridge).sort()).toEqual(table);
  const open = (bridge as Record<string, (...input: unknown[]) => unknown>)['build-open']!;
  open({ id: 'a' }, 'more', 'than asked');
  expect(exposed.sent).toEqual([['build-open', { id: 'a' }]]);
});

it('the preload hands on what is picked in the menu: the name and nothing else', async () => {
  await import('../../../main/preload.ts');
  const menu = exposed.bridges[1]![1] as {
    onCommand: (take: (...told: unknown[]) => void) => void;
  };
  const told: unknown[][] = [];
  menu.onCommand((...all) => void told.push(all));
  exposed.heard['menu-command']!({ sender: 'never' }, 'find', 'more');
  expect(told).toEqual([['find']]);
});
