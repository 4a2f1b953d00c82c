import { render, screen, within } from '@testing-library/svelte';
import { afterEach, describe, expect, test, vi } from 'vitest';
import type { Finding } from '../../../app/document/schema.ts';
import Timeline from '../../../renderer/timeline/Timeline.svelte';
import { handMadeOutcome } from '../../unit/shop/outcome.ts';

const outcome = handMadeOutcome();

function show(onpin?: (id: string, at: string) => void) {
  const onselect = vi.fn();
  render(Timeline, { outcome, selected: null, onselect, onpin });
  return { onselect, grid: screen.getByRole('grid', { name: /Timeline of Lantern cover/ }) };
}
const cell = (id: string): HTMLElement => document.getElementById(`timeline-${id}`)!;
async function press(id: string, key: string, more: KeyboardEventInit = {}): Promise<void> {
  cell(id).dispatchEvent(new KeyboardEvent('keydown', { key, bubbles: true, ...more }));
  await Promise.resolve();
}

afterEach(() => document.body.replaceChildren());

describe('timeline', () => {
  test('every stage is an element with its full spoken name, rows carry the part of the build', () => {
    const { grid } = show();
    for (const stage of outcome.result.stages) {
      expect(within(grid).getByRole('gridcell', { name: new RegExp(`^${stage.name}\\.`) })).toBe(
        cell(stage.id),
      );
    }
    expect(within(grid).getByRole('row', { name: 'Outer skin' }).contains(cell('cure:skin'))).toBe(
      true,
    );
  });

  test('is one tab stop, which the arrows move', async () => {
    const { grid } = show();
    const stops = () =>
      within(grid)
        .getAllByRole('gridcell')
        .filter((one) => one.tabIndex === 0);
    expect(stops()).toHaveLength(1);
    cell('release').focus();
    await press('release', 'ArrowDown');
    expect(document.activeElement).toBe(cell('layup:skin'));
    await press('layup:skin', 'End');
    expect(document.activeElement).toBe(cell('bag-off:skin'));
    await press('bag-off:skin', 'End', { ctrlKey: true });
    expect(document.activeElement).toBe(cell('outside:outside-1'));
    expect(stops()).toEqual([cell('outside:outside-1')]);
  });

  test('Enter opens a stage', async () => {
    const { onselect } = show();
    await press('fair:1', 'Enter');
    expect(onselect).toHaveBeenCalledWith('fair:1');
  });

  test('Shift and an arrow move a start, Enter fixes it in the wall clock of the build', async () => {
    const onpin = vi.fn();
    const { onselect } = show(onpin);
    await press('bag-off:skin', 'ArrowRight', { shiftKey: true });
    expect(onpin).not.toHaveBeenCalled();
    await press('bag-off:skin', 'Enter');
    expect(onpin).toHaveBeenCalledOnce();
    const [id, at] = onpin.mock.calls[0]!;
    expect(id).toBe('bag-off:skin');
    expect(at).toMatch(/^2027-03-29T/);
    expect(at > '2027-03-29T07:30').toBe(true);
    expect(onselect).not.toHaveBeenCalled();
  });

  test('Escape leaves the start where it was', async () => {
    const onpin = vi.fn();
    show(onpin);
    await press('bag-off:skin', 'ArrowLeft', { shiftKey: true });
    await press('bag-off:skin', 'Escape');
    await press('bag-off:skin', 'Enter');
    expect(onpin).not.toHaveBeenCalled();
  });

  test('the table holds the same stages with people, spare time and latest starts', async () => {
    show();
    screen.getByRole('button', { name: 'Table' }).click();
    await Promise.resolve();
    const table = screen.getByRole('table', { name: /^Stages of/ });
    const rows = within(table).getAllByRole('row').slice(1);
    expect(rows).toHaveLength(outcome.result.stages.length);
    const fair = rows.find((row) => row.textContent.includes('Longboard P80'))!;
    expect(fair.textContent).toContain('12 h');
    expect(fair.textContent).toContain('Wed 31 Mar 03:30');
    expect(fair.textContent).toContain('Tomé');
  });

  test('the table has the people, the gear and the room as well', async () => {
    show();
    screen.getByRole('button', { name: 'Table' }).click();
    await Promise.resolve();
    const shop = screen.getByRole('table', { name: 'People, gear and room' });
    expect(within(shop).getByRole('row', { name: /^Tomé/ }).textContent).toContain('9 h');
    expect(within(shop).getByRole('row', { name: /^Mould/ }).textContent).toContain('free Sun 28');
  });

  test('a move that is held still says what it would do', async () => {
    vi.useFakeTimers();
    const foreseePin = vi.fn(() => ({ result: outcome.result, words: 'Late by 3 h.' }));
    render(Timeline, { outcome, selected: null, onselect: vi.fn(), onpin: vi.fn(), foreseePin });
    await press('bag-off:skin', 'ArrowRight', { shiftKey: true });
    expect(foreseePin).not.toHaveBeenCalled();
    vi.advanceTimersByTime(500);
    await Promise.resolve();
    expect(foreseePin).toHaveBeenCalledOnce();
    expect(screen.getAllByText('Late by 3 h.')).not.toHaveLength(0);
    await press('bag-off:skin', 'Escape');
    expect(screen.queryByText('Late by 3 h.')).toBeNull();
    vi.useRealTimers();
  });

  test('an empty stretch is a button that unfolds it', async () => {
    show();
    const fold = screen.getByRole('button', { name: /^4 d without work from .*: unfold$/ });
    fold.click();
    await Promise.resolve();
    expect(screen.queryByRole('button', { name: /^4 d/ })).toBeNull();
    screen.getByRole('button', { name: 'Fold empty days' }).click();
    await Promise.resolve();
    expect(screen.getByRole('button', { name: /^4 d/ })).not.toBeNull();
  });

  test('a head is the way to its entries', () => {
    const onhead = vi.fn();
    render(Timeline, { outcome, selected: null, onselect: vi.fn(), onhead });
    screen.getByRole('button', { name: /^Core/ }).click();
    expect(onhead).toHaveBeenCalledWith('core');
  });

  test('people and gear fold away together', async () => {
    show();
    const fold = screen.getByRole('button', { name: 'Shop' });
    expect(screen.getByText('Iva')).not.toBeNull();
    fold.click();
    await Promise.resolve();
    expect(fold.getAttribute('aria-expanded')).toBe('false');
    expect(screen.queryByText('Iva')).toBeNull();
  });
});

test('a merge that the date forces is marked at its joint, and says there what the finding says', async () => {
  const message = 'The date forces the core bond onto the tacky outer skin.';
  const forced = { code: 'merge-forced', severity: 'warn', message } as unknown as Finding;
  const late = handMadeOutcome({
    result: {
      findings: [forced],
      routes: [
        {
          ...{ id: outcome.result.route.id, joints: { 'skin-core': 'tack' }, cures: [] },
          ...{ closes: null, closesProven: true, closedBy: null, open: true, possible: true },
          ...{ fits: true, labourHours: 20, materialCost: 1, massKg: 5, finish: 'painted' },
          ...{ onTime: null, findings: [] },
        },
      ],
    },
  });
  vi.spyOn(HTMLElement.prototype, 'clientWidth', 'get').mockReturnValue(1280);
  render(Timeline, { outcome: late, selected: null, onselect: vi.fn() });
  const pill = await screen.findByRole('button', { name: /^Core on Outer skin: on tack$/ });
  expect(pill.textContent).toContain('▲');
  pill.click();
  const card = await screen.findByRole('dialog');
  expect(card.textContent).toContain(message);
  vi.restoreAllMocks();
});
