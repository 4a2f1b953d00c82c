/** Layups and cures by name. */
import type { JointState } from '../document/schema.ts';
import { capital } from './words.ts';

export const LAYUP_NAMES = {
  inserts: 'Inserts on a flat',
  skin: 'Outer skin',
  'skin-2': 'Outer skin section 2',
  'skin-3': 'Outer skin section 3',
  local: 'Local plies between the skins',
  core: 'Core bond',
  inner: 'Inner skin',
  'inner-2': 'Inner skin section 2',
  'inner-3': 'Inner skin section 3',
  repair: 'Repair plies',
  'local-after': 'Local plies after demould',
  closeout: 'Closeout strips',
} as const;

/** 'Outer skin section 1' where the first is not all of it. */
export const layupName = (id: keyof typeof LAYUP_NAMES, inSections: boolean): string =>
  inSections && (id === 'skin' || id === 'inner')
    ? `${LAYUP_NAMES[id]} section 1`
    : LAYUP_NAMES[id];

/** 'outer skin', within a sentence; the id itself where no layup has it. */
export const layupWithin = (id: string): string =>
  (LAYUP_NAMES as Readonly<Record<string, string>>)[id]?.toLowerCase() ?? id;

/**
 * 'Outer skin + core bond' in one bag, 'Outer skin with core bond on tack'.
 * @param names of the layups of a cure, in the order of laying
 * @param joints between them; one fewer
 */
export function cureName(names: readonly string[], joints: readonly JointState[]): string {
  if (names.length === 1) return names[0]!;
  const text = names.map((name, i) => {
    if (i === 0) return name.toLowerCase();
    const before = joints[i - 1] === 'tack' ? ' with ' : ' + ';
    return before + name.toLowerCase() + (isLastOnTack(joints, i - 1) ? ' on tack' : '');
  });
  return capital(text.join(''));
}

/** True where what goes on tack at or before a joint, all in one bag with it, ends with that joint's layup. */
function isLastOnTack(joints: readonly JointState[], at: number): boolean {
  if (joints[at + 1] === 'one-bag') return false;
  let from = at;
  while (from > 0 && joints[from] === 'one-bag') from--;
  return joints[from] === 'tack';
}
