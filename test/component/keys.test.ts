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
});
