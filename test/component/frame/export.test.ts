/** 'Save this build' on one machine, opened as a file on another. */
import { expect, it, vi } from 'vitest';
import { COMMANDS } from '../../../renderer/frame/commands.ts';
import type { DeskState } from '../../../renderer/state/desk.svelte.ts';
import type { PlannerState } from '../../../renderer/state/planner.svelte.ts';
import { scratchSession, tell } from '../../unit/main/fixtures.ts';

it('a build that the screen saved is the same build on another machine', async () => {
  const here = scratchSession();
  const { id, document, revision } = (await tell(here, 'session-start', {})).open!;
  const saved = await tell(here, 'build-save', {
    ...{ id, expects: revision, label: 'Name' },
    document: { ...document, name: 'Grüner Bogen', country: 'DE', clock: '24' },
  });
  const saveText = vi.fn();
  const planner = { printing: { saveText }, document: saved.document } as unknown as PlannerState;
  COMMANDS.find(({ name }) => name === 'export')!.run(planner, {} as DeskState);
  const [fileName, text] = saveText.mock.calls[0] as [string, string];
  expect(fileName).toBe('Grüner Bogen.build.json');

  const there = scratchSession();
  const given = await tell(there, 'build-import', { fileName, text });
  if (!('opened' in given)) throw new Error('the file was refused');
  const { id: _here, ...before } = saved.document;
  const { id: own, ...after } = given.opened.document;
  expect(after).toEqual(before);
  expect(own).toBe(given.opened.id);
  expect(given.opened.canUndo).toBe(false);
  const steps = await tell(there, 'history-list', { id: given.opened.id });
  expect(steps.map(({ label }) => label)).toEqual(['Opened from Grüner Bogen.build.json']);
  const [first] = await tell(there, 'build-list', {});
  expect(first!.name).toBe('Grüner Bogen');
});
