import { render, screen, within } from '@testing-library/svelte';
import { afterEach, expect, test, vi } from 'vitest';
import type { RouteResult } from '../../../app/document/schema.ts';
import Joint from '../../../renderer/timeline/Joint.svelte';
import { handMadeOutcome } from '../../unit/shop/outcome.ts';

const route = (state: 'apart' | 'tack' | 'one-bag', possible: boolean): RouteResult => ({
  id: state,
  cures: [],
  joints: { 'skin-core': state },
  closes: null,
  closesProven: true,
  closedBy: null,
  open: true,
  possible,
  fits: true,
  labourHours: state === 'tack' ? 18 : 20,
  materialCost: 1,
  massKg: 5,
  finish: 'painted',
  onTime: null,
  findings: [],
});
const { result } = handMadeOutcome({
  result: {
    route: { id: 'apart', cures: [] },
    routes: [route('apart', true), route('tack', true), route('one-bag', false)],
  },
});
const joint = {
  boundary: 'skin-core',
  before: 'Outer skin',
  after: 'Core',
  state: 'apart',
} as const;

function show() {
  const onjoints = vi.fn();
  const foresee = vi.fn(() => 'Closes separate cures.');
  render(Joint, { joint, y: 40, result, forced: '', onjoints, foresee });
  const pill = screen.getByRole('button', { name: 'Core on Outer skin: apart' });
  return { onjoints, foresee, pill };
}
const settle = () => new Promise((done) => setTimeout(done));

afterEach(() => document.body.replaceChildren());

test('what each way costs stands there before one is chosen', async () => {
  const { pill, onjoints, foresee } = show();
  pill.click();
  await settle();
  const card = screen.getByRole('dialog', { name: 'Core on outer skin' });
  const ways = within(card).getAllByRole('button').slice(0, 3);
  expect(ways.map((way) => way.textContent.split(',')[0]!.trim().slice(0, 7))).toEqual([
    'apart',
    'on tack',
    'one bag',
  ]);
  expect(ways[1]!.textContent).toContain('18.0 h (−2.0 h)');
  expect(ways[2]!.textContent).toContain('cannot be done');
  ways[1]!.focus();
  await settle();
  expect(foresee).toHaveBeenCalledWith({ 'skin-core': 'tack' });
  expect(ways[1]!.textContent).toContain('Closes separate cures.');
  expect(onjoints).not.toHaveBeenCalled();
  ways[1]!.click();
  expect(onjoints).toHaveBeenCalledWith({ 'skin-core': 'tack' });
});

test('a way that cannot be done is not chosen, and Escape closes without a choice', async () => {
  const { pill, onjoints } = show();
  pill.click();
  await settle();
  const card = screen.getByRole('dialog');
  within(card)
    .getByRole('button', { name: /^one bag/ })
    .click();
  expect(onjoints).not.toHaveBeenCalled();
  card.dispatchEvent(new KeyboardEvent('keydown', { key: 'Escape', bubbles: true }));
  await settle();
  expect(screen.queryByRole('dialog')).toBeNull();
  expect(document.activeElement).toBe(pill);
});

test('a forced merge says its reason at the joint', async () => {
  const merged = { ...joint, state: 'one-bag' } as const;
  render(Joint, { joint: merged, y: 40, result, forced: 'The core shares a bag.' });
  const pill = screen.getByRole('button', { name: 'Core on Outer skin: one bag' });
  expect(pill.textContent).toContain('▲');
  pill.click();
  await settle();
  expect(screen.getByRole('dialog').textContent).toContain('The core shares a bag.');
});
