import { describe, expect, it } from 'vitest';
import { bagStack } from '../../../app/part/bag-stack.ts';
import { cutList } from '../../../app/part/cuts.ts';
import { angleWords, bagDrawing, layerWords } from '../../../app/shop/plyDrawing.ts';
import { buildSheets } from '../../support/sheets.ts';
import { byGroup, shoppingList } from '../../../app/shop/shopping.ts';
import { textOf, type SheetChild, type SheetNode } from '../../../app/shop/tree.ts';
import { handMadeOutcome } from './outcome.ts';

const outcome = handMadeOutcome();
const { build, library, part } = outcome.detail;
const { sheets } = buildSheets(outcome);
const sheet = (id: string): SheetNode => sheets.find((one) => one.id === id)!.body;

function tagged(node: SheetChild, tag: string): SheetNode[] {
  if (typeof node === 'string') return [];
  const below = node.children.flatMap((child) => tagged(child, tag));
  return node.tag === tag ? [node, ...below] : below;
}

describe('the ply book', () => {
  it('has a row for every ply of the part, numbered in the order of laying', () => {
    const numbers = tagged(sheet('ply-book'), 'tr')
      .map((row) => row.children[0])
      .filter((cell) => typeof cell !== 'string' && cell?.attrs.scope === 'row')
      .map((cell) => textOf(cell!));
    // Two plies of the outer skin, one of the inner.
    expect(numbers).toEqual(['1', '2', '3']);
    expect(cutList(build, library).map(({ layup }) => layup)).toEqual(['skin', 'skin', 'inner']);
  });

  it('draws every angle that is laid against the 0 line', () => {
    const drawing = tagged(sheet('ply-book'), 'svg').find(({ attrs }) => attrs.role === 'img')!;
    expect(drawing.attrs['aria-label']).toContain('0°, +45°');
    expect(angleWords(-45)).toBe('−45°');
    expect(angleWords(90)).toBe('90°');
  });

  it('is where the go sheet sends those who count the plies', () => {
    expect(textOf(sheet('go-skin'))).toContain('2 pieces, numbers 1, 2 of the ply book');
  });
});

describe('a bag stack', () => {
  it('is drawn once for every cure, each layer said in the drawing and in its spoken form', () => {
    const drawings = tagged(sheet('bag-stacks'), 'svg');
    expect(drawings).toHaveLength(outcome.result.route.cures.length);
    const { layups } = outcome.result.route.cures[0]!;
    const inBag = part.layups.filter(({ id }) => layups.includes(id)).map(({ id }) => id);
    const stack = bagStack(build, library, part, inBag);
    for (const layer of stack.layers) {
      expect(textOf(drawings[0]!)).toContain(layerWords(layer));
      expect(drawings[0]!.attrs['aria-label']).toContain(layerWords(layer));
    }
  });

  it('puts the cores of several zones beside each other', () => {
    const layers = ['foam, 5 mm', 'foam, 10 mm'].map((name) => ({
      kind: 'core' as const,
      name,
      plies: [],
    }));
    const stack = { layers, areaM2: 1, tapeM: 4, ports: 1, thermocouple: '', witness: '' };
    const rects = tagged(bagDrawing(stack, 'Core'), 'rect').filter((rect) =>
      String(rect.attrs.class).includes('layer-core'),
    );
    expect(new Set(rects.map((rect) => rect.attrs.y)).size).toBe(1);
    expect(new Set(rects.map((rect) => rect.attrs.x)).size).toBe(2);
  });

  it('says many plies as runs', () => {
    const layer = { kind: 'ply' as const, name: 'Cloth, -45°', plies: [3, 4, 5, 8, 11, 12] };
    expect(layerWords(layer)).toBe('Cloth, −45°: plies 3 to 5, 8, 11, 12');
  });
});

describe('the shopping list', () => {
  it('loses no line of the kit and orders each before the plan first needs it', () => {
    const orders = shoppingList(outcome);
    const batches = Object.values(outcome.detail.batches).flat().length;
    expect(orders.map(({ line }) => line.id)).toEqual(
      part.kitFor(outcome.result.route.cures.length, batches).map(({ id }) => id),
    );
    expect(byGroup(orders).flatMap((group) => group.orders)).toHaveLength(orders.length);
    const resin = orders.find(({ line }) => line.group === 'resin')!;
    const layup = outcome.result.stages.find((stage) => stage.kind === 'layup')!;
    expect(resin.neededOn! <= layup.start!.slice(0, 10)).toBe(true);
    for (const { neededOn, orderBy } of orders) {
      if (orderBy !== null) expect(orderBy <= neededOn!).toBe(true);
    }
  });

  it('takes what is on the shelf off what is to order', () => {
    const cloth = shoppingList(outcome).find(({ line }) => line.group === 'cloth')!;
    const held = [{ row: cloth.line.id, quantity: cloth.line.quantity }];
    const detail = { ...outcome.detail, build: { ...build, stock: held } };
    const after = shoppingList({ ...outcome, detail });
    expect(after.find(({ line }) => line.id === cloth.line.id)).toMatchObject({
      toOrder: 0,
      orderBy: null,
    });
  });
});
