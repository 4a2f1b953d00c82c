/** Public holidays and calendar files in the people panel: shown first, taken in one revision. */
import { cleanup, configure, fireEvent, render, screen, waitFor } from '@testing-library/svelte';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { ChannelName } from '../../../app/contract/channels.ts';
import type { Draft } from '../../../app/document/edit/path.ts';
import BusyBlocks from '../../../renderer/panels/BusyBlocks.svelte';
import Holidays from '../../../renderer/panels/Holidays.svelte';
import { PlannerState } from '../../../renderer/state/planner.svelte.ts';
import sample from '../../../samples/harbour-gate-sign.build.json?raw';
import { library } from '../../library.ts';
import { openOf, StandInStore } from '../state/store.ts';
import OnPlanner from './OnPlanner.svelte';

const SIGN = JSON.parse(sample) as Draft;
const DAYS = [
  { date: '2027-05-01', name: 'Labour Day' },
  { date: '2027-05-06', name: 'Ascension Day' },
];
const ANSWERS: Partial<Record<ChannelName, unknown>> = {
  'holiday-places': {
    source: 'the kept list',
    countries: [{ code: 'DE', name: 'Germany' }],
    regions: [{ code: 'HH', name: 'Hamburg' }],
  },
  'holiday-list': DAYS,
  'calendar-read': {
    blocks: [
      { what: 'Dentist', from: '2027-04-27T08:30', until: '2027-04-27T10:00' },
      { what: 'Leave', from: '2027-05-03T00:00', until: '2027-05-06T00:00' },
    ],
    left: [{ what: 'Round', why: 'it is marked as free' }],
  },
};

let store: StandInStore;
let planner: PlannerState;
let asked: [ChannelName, unknown][];

// The calendars of all countries are read when they are first shown.
configure({ asyncUtilTimeout: 45_000 });

beforeEach(async () => {
  store = new StandInStore();
  store.builds.set('sign', { revision: 1, document: { ...SIGN } });
  asked = [];
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
  const call = ((name: ChannelName, input: never) => {
    asked.push([name, input]);
    const value = name === 'session-start' ? session : ANSWERS[name];
    return value ? Promise.resolve({ ok: true, value }) : store.call(name, input);
  }) as typeof store.call;
  planner = new PlannerState({
    call,
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
});
afterEach(cleanup);

const show = (shown: typeof Holidays | typeof BusyBlocks) =>
  render(OnPlanner, { planner, shown: shown as never });
const saved = async (count: number) => {
  await planner.saveNow();
  await waitFor(() => expect(store.sent).toHaveLength(count));
};

describe('public holidays', () => {
  beforeEach(async () => {
    const { container } = show(Holidays);
    const details = container.querySelector('details')!;
    details.open = true;
    await fireEvent(details, new Event('toggle'));
    await screen.findByRole('option', { name: 'Germany' });
    await fireEvent.change(screen.getByLabelText('Country'), { target: { value: 'DE' } });
    await screen.findByText(/Ascension Day/);
  });

  it('are asked for the days of the plan and shown before they are taken', () => {
    const [, input] = asked.findLast(([name]) => name === 'holiday-list')!;
    expect(input).toMatchObject({ country: 'DE', region: null, to: SIGN.unveiling!.slice(0, 10) });
    expect(planner.document.holidays).toBeUndefined();
  });

  it('are taken over for shop and outside in one revision, and undone in one', async () => {
    await fireEvent.click(screen.getByRole('button', { name: 'Add 2 days' }));
    expect(planner.document.holidays).toEqual(
      DAYS.flatMap((day) =>
        ['shop', 'outside'].map((kept) => ({ ...day, for: kept, source: 'DE: the kept list' })),
      ),
    );
    await saved(1);
    expect(store.sent[0]!.label).toBe('Keep 2 public holidays');
    expect(screen.getByText(/All of them are kept/)).toBeTruthy();
  });

  it('can be taken out one by one, and days of one’s own added', async () => {
    await fireEvent.change(screen.getByLabelText('Kept by'), { target: { value: 'shop' } });
    await fireEvent.click(screen.getByRole('button', { name: 'Add 2 days' }));
    await fireEvent.click(screen.getByRole('button', { name: /Remove Labour Day/ }));
    expect(planner.document.holidays).toMatchObject([{ name: 'Ascension Day', for: 'shop' }]);
    await fireEvent.input(screen.getByLabelText('Day of your own'), {
      target: { value: '2027-04-30' },
    });
    await fireEvent.click(screen.getByRole('button', { name: 'Add day' }));
    expect(planner.document.holidays).toMatchObject([
      { date: '2027-04-30', name: 'Closed', for: 'shop', source: 'own entry' },
      { name: 'Ascension Day' },
    ]);
  });
});

describe('a calendar file', () => {
  it('is shown with what is left out, and what stays ticked is taken in one revision', async () => {
    show(BusyBlocks);
    const [person] = SIGN.crew!;
    const file = new File(['BEGIN:VCALENDAR'], 'mine.ics', { type: 'text/calendar' });
    const input = screen.getByLabelText(`Calendar file of ${person!.name} (.ics)`);
    await fireEvent.change(input, { target: { files: [file] } });
    await screen.findByText('Round: it is marked as free');
    expect(planner.document.busy).toBeUndefined();
    await fireEvent.click(screen.getByRole('checkbox', { name: /Leave/ }));
    await fireEvent.click(screen.getByRole('button', { name: /Add 1 busy time for/ }));
    expect(planner.document.busy).toEqual([
      {
        id: 'busy-1',
        what: 'Dentist',
        who: { kind: 'person', id: person!.id ?? 'person-1' },
        from: '2027-04-27T08:30',
        until: '2027-04-27T10:00',
      },
    ]);
    await saved(1);
  });
});
