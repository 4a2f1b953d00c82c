/** What still stands in a field, not left yet, goes to its own build when another one opens. */
import { cleanup, fireEvent, render, screen } from '@testing-library/svelte';
import { afterEach, beforeEach, expect, it } from 'vitest';
import type { Draft } from '../../../app/document/edit/path.ts';
import JobCard from '../../../renderer/panels/JobCard.svelte';
import { PlannerState } from '../../../renderer/state/planner.svelte.ts';
import sample from '../../../samples/harbour-gate-sign.build.json?raw';
import { library } from '../../library.ts';
import { openOf, StandInStore } from '../state/store.ts';
import OnPlanner from './OnPlanner.svelte';

const SIGN = JSON.parse(sample) as Draft;
let store: StandInStore;
let planner: PlannerState;

beforeEach(async () => {
  store = new StandInStore();
  store.builds.set('sign', { revision: 1, document: { ...SIGN, name: 'Sign' } });
  store.builds.set('other', { revision: 1, document: { ...SIGN, name: 'Other' } });
  const session = {
    runtime: 'browser',
    now: '2027-04-12T06:00:00Z',
    nowFixed: true,
    library,
    builds: [],
    open: openOf('sign', 1, { ...SIGN, name: 'Sign' }),
    drafts: [],
    draft: null,
    view: {},
  };
  planner = new PlannerState({
    call: ((name: string, input: never) =>
      name === 'session-start'
        ? Promise.resolve({ ok: true, value: session })
        : store.call(name as never, input)) as typeof store.call,
    plan: () => null as never,
    applyLever: () => null,
    printPage: () => undefined,
    sheetsHtml: () => '',
    downloadText: () => undefined,
    worker: { postMessage: () => undefined, onmessage: null, onerror: null },
    elapsedMs: () => 0,
    zone: 'Europe/Berlin',
  });
  await planner.start();
  render(OnPlanner, { planner, shown: JobCard as never });
});
afterEach(cleanup);

it('a name typed in the instant in which another build opens is kept', async () => {
  const field = screen.getByDisplayValue<HTMLInputElement>('Sign');
  let asked = 0;
  store.fails = (name) => {
    if (name === 'build-open' && asked++ === 0) {
      field.focus();
      field.value = 'Sign for the gate';
      void fireEvent.input(field);
    }
    return null;
  };
  expect(await planner.opening.open('other')).toBe(true);
  expect(asked).toBe(2);
  expect(planner.document.name).toBe('Other');
  expect(store.builds.get('sign')!.document).toMatchObject({ name: 'Sign for the gate' });
  expect(store.builds.get('other')!.document).toMatchObject({ name: 'Other' });
});

it('half a name is kept with the window, shown again as it stood, and let go once it is taken', async () => {
  const field = screen.getByDisplayValue<HTMLInputElement>('Sign');
  field.focus();
  await fireEvent.input(field, { target: { value: 'Sign for th' } });
  const typed = planner.view['typed'];
  expect(typed).toEqual({ sign: { name: 'Sign for th' } });
  expect(planner.document.name).toBe('Sign');
  cleanup();
  // As after the page was opened again: nothing of it but what the program kept.
  planner.setView({ typed });
  render(OnPlanner, { planner, shown: JobCard as never });
  const again = screen.getByDisplayValue<HTMLInputElement>('Sign for th');
  await fireEvent.keyDown(again, { key: 'Enter' });
  expect(planner.document.name).toBe('Sign for th');
  expect(planner.view['typed']).toEqual({ sign: null });
});

it('half a name that was put back with Escape is not shown again', async () => {
  const field = screen.getByDisplayValue<HTMLInputElement>('Sign');
  await fireEvent.input(field, { target: { value: 'x' } });
  await fireEvent.keyDown(field, { key: 'Escape' });
  expect(planner.view['typed']).toEqual({ sign: null });
  cleanup();
  render(OnPlanner, { planner, shown: JobCard as never });
  expect(screen.queryByDisplayValue('x')).toBeNull();
});
