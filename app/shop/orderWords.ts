/** What is ordered on a day, in one line: `Order` once, and `working days` once for all suppliers. */
import { h, type SheetNode } from './tree.ts';

const NAME = /^Order from (.+), (\d+) working days?$/;

/**
 * `Order, each with its working days: board merchant 2; core merchant 4`; a supplier alone keeps the words of
 * its stage.
 * @param names of the stages
 */
export function orderLine(names: readonly string[]): (SheetNode | string)[] {
  const found = names.map((name) => NAME.exec(name));
  if (names.length < 2 || found.includes(null)) {
    const plain = names.map((name) => name.replace(/^Order from /, ''));
    return [h('strong', {}, 'Order: '), plain.join('; ')];
  }
  return [
    h('strong', {}, 'Order'),
    `, each with its working days: ${found.map((one) => `${one![1]} ${one![2]}`).join('; ')}`,
  ];
}
