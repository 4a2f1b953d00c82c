import { MENU_ACTS } from '../../app/contract/menu.ts';
import { describe, expect, it } from 'vitest';
import { commandFor, COMMANDS } from '../../renderer/frame/commands.ts';

describe('keys', () => {
  it('call one command each', () => {
    const taken = COMMANDS.flatMap((command) =>
      command.keys.map((key) => JSON.stringify([key.key, !!key.control, !!key.shift, !!key.alt])),
    );
    expect(new Set(taken).size).toBe(taken.length);
  });

  it('leave letters and digits to the field that is typed in', () => {
    const press = (key: string, init: KeyboardEventInit = {}) =>
      new KeyboardEvent('keydown', { key, ...init });
    expect(commandFor(press('1'), true)).toBeNull();
    expect(commandFor(press('1'), false)?.name).toBe('tray-findings');
    expect(commandFor(press('z', { ctrlKey: true }), true)?.name).toBe('undo');
    expect(commandFor(press('Z', { ctrlKey: true, shiftKey: true }), false)?.name).toBe('redo');
    expect(commandFor(press('?', { shiftKey: true }), false)?.name).toBe('help');
  });

  it('of the menu do what the page does at the same key', () => {
    const press = (accelerator: string) => {
      const parts = accelerator.split('+');
      return new KeyboardEvent('keydown', {
        key: parts.at(-1)!.toLowerCase(),
        ctrlKey: parts.includes('CmdOrCtrl'),
        altKey: parts.includes('Alt'),
      });
    };
    const acts = Object.values(MENU_ACTS).flat();
    expect(acts.map(({ accelerator }) => commandFor(press(accelerator), false)?.name)).toEqual(
      acts.map(({ command }) => command),
    );
  });
});
