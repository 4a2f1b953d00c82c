import { render, screen, within } from '@testing-library/svelte';
import { afterEach, describe, expect, test, vi } from 'vitest';
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
  test('every stage is an element with its full spoken name, rows carry the lane', () => {
    const { grid } = show();
    for (const stage of outcome.result.stages) {
      expect(within(grid).getByRole('gridcell', { name: new RegExp(`^${stage.name}\\.`) })).toBe(
        cell(stage.id),
      );
    }
    expect(within(grid).getByRole('row', { name: 'Cures' }).contains(cell('cure:skin'))).toBe(true);
  });

  test('is one tab stop, which the arrows move', async () => {
    const { grid } = show();
    const stops = () =>
      within(grid)
        .getAllByRole('gridcell')
        .filter((one) => one.tabIndex === 0);
    expect(stops()).toHaveLength(1);
    cell('release').focus();
    await press('release', 'ArrowRight');
    expect(document.activeElement).toBe(cell('layup:skin'));
    await press('layup:skin', 'ArrowDown');
    expect(document.activeElement).toBe(cell('cure:skin'));
    await press('cure:skin', 'End', { ctrlKey: true });
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

  test('the table holds the same stages with floats and latest starts', async () => {
    show();
    screen.getByRole('button', { name: 'Table' }).click();
    await Promise.resolve();
    const table = screen.getByRole('table');
    const rows = within(table).getAllByRole('row').slice(1);
    expect(rows).toHaveLength(outcome.result.stages.length);
    const fair = rows.find((row) => row.textContent.includes('Longboard P80'))!;
    expect(fair.textContent).toContain('12 h');
    expect(fair.textContent).toContain('Wed 31 Mar 03:30');
    expect(fair.textContent).toContain('Tomé');
  });
});
