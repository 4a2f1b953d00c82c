/** The shop's rule for heat that runs alone is picked beside the tent, and undone as any other edit. */
import { cleanup, fireEvent, render, screen } from '@testing-library/svelte';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { Draft } from '../../../app/document/edit/path.ts';
import TentFields from '../../../renderer/panels/TentFields.svelte';
import { PlannerState } from '../../../renderer/state/planner.svelte.ts';
import sample from '../../../samples/harbour-gate-sign.build.json?raw';
import { library } from '../../library.ts';
import { openOf, StandInStore } from '../state/store.ts';
import OnPlanner from './OnPlanner.svelte';

const parsed = JSON.parse(sample) as Draft;
const SIGN: Draft = { ...parsed, room: { ...parsed.room, tent: { maxC: 60 } } };
let planner: PlannerState;

beforeEach(async () => {
  const store = new StandInStore();
  store.builds.set('sign', { revision: 1, document: { ...SIGN } });
  const session = {
    runtime: 'browser',
    now: '2027-04-12T06:00:00Z',
    nowFixed: true,
    library,
    builds: [],
    open: openOf('sign', 1, SIGN),
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
  render(OnPlanner, { planner, shown: TentFields as never });
});
afterEach(cleanup);

describe('the rule for heat that runs alone', () => {
  const rule = () => screen.getByLabelText<HTMLSelectElement>('Heat that runs alone');
  const pick = async (label: string) => {
    const option = [...rule().options].find(({ text }) => text === label)!;
    await fireEvent.change(rule(), { target: { value: option.value } });
  };

  it('is picked in words and stands in the document', async () => {
    await pick('Through nights and closed days');
    expect(planner.document.room?.heatAlone).toBe('weekends');
    await pick('Never: somebody is there to the end');
    expect(planner.document.room?.heatAlone).toBe('never');
    await pick('Through a night, not a closed day');
    expect(planner.document.room?.heatAlone).toBe('nights');
  });

  it('is asked only where there is a tent', async () => {
    await fireEvent.click(screen.getByLabelText('Heated tent over part and mould'));
    expect(planner.document.room?.tent).toBeNull();
    expect(screen.queryByLabelText('Heat that runs alone')).toBeNull();
  });
});
