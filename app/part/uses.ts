/** What each line of the kit is first touched by: it has to be in the shop before that. */
import type { ConsumableRow, Library, StageKind } from '../document/schema.ts';
import type { KitLine } from './types.ts';

const BY_GROUP: Readonly<Record<KitLine['group'], readonly StageKind[]>> = {
  cloth: ['cutting', 'layup'],
  core: ['core-fit', 'layup'],
  resin: ['resin-warm', 'test-panel', 'layup'],
  consumable: ['layup'],
  release: ['test-panel', 'release', 'layup'],
  mould: ['machining', 'mould', 'outside', 'seal', 'release'],
};

const BY_USE: Readonly<Record<ConsumableRow['use'], readonly StageKind[]>> = {
  'peel-ply': ['cutting', 'layup'],
  'release-film': ['cutting', 'layup'],
  'flow-mesh': ['cutting', 'layup'],
  'infusion-line': ['cutting', 'layup'],
  breather: ['bag-test', 'cutting', 'layup'],
  'bag-film': ['bag-test', 'cutting', 'layup'],
  'sealant-tape': ['bag-test', 'layup'],
  filler: ['fair', 'closeout'],
  primer: ['prime'],
  abrasive: ['mould', 'seal', 'prepare', 'trim', 'fair'],
  gloves: ['seal', 'release', 'layup'],
  cups: ['seal', 'layup'],
  sticks: ['seal', 'layup'],
  brushes: ['seal', 'layup'],
  solvent: ['seal', 'release', 'layup'],
  sealer: ['seal'],
  'edge-filler': ['closeout', 'edge-fill'],
  wrap: ['wrap'],
  potting: ['rim'],
};

/** Kinds of stage that put a hand on a line of the kit. */
export function kindsUsing(line: KitLine, { consumables }: Library): readonly StageKind[] {
  const row = consumables.find(({ id }) => id === line.id);
  return row ? BY_USE[row.use] : BY_GROUP[line.group];
}
