/** Layups and cures by name. */
import type { JointState } from '../document/schema.ts';
import { capital } from './words.ts';

export const LAYUP_NAMES = {
  inserts: 'Inserts on a flat',
  skin: 'Outer skin',
  local: 'Local plies between the skins',
  core: 'Core bond',
  inner: 'Inner skin',
  repair: 'Repair plies',
  'local-after': 'Local plies after demould',
  closeout: 'Closeout strips',
} as const;

/**
 * 'Outer skin + core bond' in one bag, 'Outer skin, on tack core bond'.
 * @param names of the layups of a cure, in the order of laying
 * @param joints between them; one fewer
 */
export function cureName(names: readonly string[], joints: readonly JointState[]): string {
  if (names.length === 1) return names[0]!;
  const text = names.map((name, i) =>
    i === 0
      ? name.toLowerCase()
      : `${joints[i - 1] === 'tack' ? ', on tack ' : ' + '}${name.toLowerCase()}`,
  );
  return capital(text.join(''));
}
