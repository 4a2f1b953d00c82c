/** Ply book, bag stacks and shopping list on paper. */
import { bagStack } from '../part/bag-stack.ts';
import { cutList, type CutPly } from '../part/cuts.ts';
import { customaryQuantity, orderTotals, type OrderLine } from '../part/order.ts';
import type { CureSheetData, SheetData } from './sheetData.ts';
import { NOT_TO_BE_BUILT } from './withheld.ts';
import { inHalves, row, sheetOf, table, type Sheet } from './parts.ts';
import {
  angleMark,
  angleWords,
  bagDrawing,
  jointWords,
  pieceWords,
  zeroLineDrawing,
} from './plyDrawing.ts';
import { byGroup, machiningWords, onCardsWords, shoppingList, unknownWords } from './shopping.ts';
import { h, type SheetNode } from './tree.ts';
import { money, plain, plural } from '../units/words.ts';
import { dayClock, fixed, shortDay } from './words.ts';

/** The whole part's plies in the order of laying; none when nothing is laid. */
export function plyBookSheets(facts: SheetData): Sheet[] {
  const cuts = cutList(facts.build, facts.detail.library);
  if (cuts.length === 0) return [];
  const assumed = cuts.some((cut) => cut.sizeAssumed);
  return [
    sheetOf(
      {
        kind: 'plies',
        id: 'ply-book',
        title: 'Ply book',
        subtitle:
          'Mark the 0 line on the mould before the first ply. Cut, number and stack in this order.',
      },
      h(
        'section',
        { class: 'zero-box' },
        zeroLineDrawing(cuts.map((cut) => cut.angleDeg)),
        h(
          'p',
          {},
          'Angles are of the warp, plus anticlockwise, seen from the open side of the mould. Sizes in ' +
            'mm with the run past the trim line.',
          assumed && ' Where no length and girth are given, a square of the same area is taken.',
        ),
      ),
      plyTable(facts, cuts),
    ),
  ];
}

function plyTable(facts: SheetData, cuts: readonly CutPly[]): SheetNode {
  const names = new Map(facts.detail.part.layups.map((layup) => [layup.id, layup.name]));
  return table(
    'plies book',
    'Plies',
    [
      'No',
      'Layup, zone',
      'Cloth',
      'Angle',
      'Face',
      'Size',
      'Pieces, across × along',
      'Cut',
      'Laid',
    ],
    cuts.map((cut) =>
      row(
        '',
        String(cut.number),
        [names.get(cut.layup) ?? cut.layup, h('small', {}, ` ${cut.zoneName}`)],
        cut.cloth.name,
        h('span', { class: 'angle' }, angleMark(cut.angleDeg), angleWords(cut.angleDeg)),
        cut.face === 'mould side' ? 'mould' : 'bag',
        cut.sizeMm.map((mm) => fixed(mm, 0)).join(' × '),
        [pieceWords(cut), h('small', {}, ` ${jointWords(cut)}`)],
        '☐',
        '☐',
      ),
    ),
    [4, 16, 21, 8.5, 7.5, 12, 21, 5, 5],
  );
}

/** One drawing for every bag of the route. */
export function bagSheets(facts: SheetData): Sheet[] {
  if (facts.cures.length === 0) return [];
  const { library, part } = facts.detail;
  return [
    sheetOf(
      {
        kind: 'bags',
        id: 'bag-stacks',
        title: 'Bag stacks',
        subtitle: 'From the mould up, not to scale. Numbers are those of the ply book.',
      },
      inPairs(facts.cures).map((pair) =>
        h(
          'div',
          { class: 'two' },
          pair.map((cure) => {
            if (cure.withheld.length > 0) {
              return h('section', { class: 'bag' }, h('h2', {}, cure.name), withheldBag(cure));
            }
            const inBag = cure.layups.map((layup) => layup.id);
            const stack = bagStack(facts.build, library, part, inBag);
            return h(
              'section',
              { class: 'bag' },
              h('h2', {}, cure.name),
              bagDrawing(stack, cure.name),
              h(
                'p',
                { class: 'limits' },
                `Ports: ${stack.ports}, gauge away from them. Tape: ${fixed(stack.tapeM, 1)} m, pleats ` +
                  `at the corners. Thermocouple: ${stack.thermocouple} Witness: ${stack.witness}`,
              ),
            );
          }),
        ),
      ),
    ),
  ];
}

const inPairs = <T>(all: readonly T[]): T[][] =>
  all.flatMap((_, i) => (i % 2 === 0 ? [all.slice(i, i + 2)] : []));

const withheldBag = ({ withheld }: CureSheetData): SheetNode =>
  h('p', { class: 'abort' }, h('strong', {}, `✕ ${NOT_TO_BE_BUILT}: `), withheld.join(' '));

/** What to buy, by group, with boxes to tick; null without a kit. Level in two columns, or upright. */
export function shoppingSheets(facts: SheetData): Sheet[] {
  const orders = shoppingList(facts.outcome);
  if (orders.length === 0) return [];
  // The name of a group is never parted from its first line.
  const lines = byGroup(orders).flatMap(({ name, orders: own }) =>
    own.length === 1
      ? [[orderRow(facts, own[0]!, `${name}: `)]]
      : own.map((order, i) => [...(i === 0 ? [groupRow(name)] : []), orderRow(facts, order)]),
  );
  const rows = [...lines, [together(facts, orders)]];
  const list = (some: readonly SheetNode[][]): SheetNode =>
    table('shopping', '', SHOPPING_HEAD, some.flat(), SHOPPING_WIDTHS);
  const sheet = (landscape: boolean): Sheet =>
    sheetOf(
      {
        kind: 'shopping',
        id: 'shopping-list',
        title: 'Shopping list',
        subtitle: `${plural(facts.cures.length, 'bag')}. Order by the day given; after it the plan moves. Boxes: ordered, here.`,
        landscape,
      },
      landscape ? inHalves(rows, list, HALF_LEVEL_MM) : list(rows),
    );
  const level = sheet(true);
  return [{ ...level, upright: sheet(false) }];
}

const groupRow = (name: string): SheetNode =>
  h('tr', { class: 'group' }, h('th', { scope: 'rowgroup', colspan: 7 }, name));

const SHOPPING_HEAD = ['Item', 'Need', 'To order', 'Order by', 'Price', '☐', '☐'];
const SHOPPING_WIDTHS = [32, 9.6, 18.6, 20.4, 12.4, 3.5, 3.5];
/** Width of a column on a level side of the narrower paper. */
const HALF_LEVEL_MM = 129;

/** What all lines come to, and what of them is not known. */
function together({ result }: SheetData, orders: readonly OrderLine[]): SheetNode {
  const { currency } = result.build;
  const { toOrderMinor, wholeMinor } = orderTotals(orders);
  const unknown = unknownWords(result.totals);
  return h(
    'tr',
    {},
    h(
      'td',
      { colspan: SHOPPING_HEAD.length },
      h('strong', {}, `To order: ${money(toOrderMinor, currency)}`),
      `, of ${money(wholeMinor, currency)} in all`,
      unknown !== null && `; ${unknown}`,
      `. ${machiningWords(result)}.`,
    ),
  );
}

/** @param group its name, where the line stands alone in it */
function orderRow(facts: SheetData, order: OrderLine, group = ''): SheetNode {
  const { line, inStock, toOrder } = order;
  const cards = onCardsWords(facts.outcome, line);
  const number = (text: string): SheetNode => h('span', { class: 'number' }, text);
  return row(
    '',
    [
      group + line.name,
      line.detail !== undefined && h('small', {}, `, ${line.detail}`),
      cards !== null && h('small', {}, `, ${cards}`),
    ],
    [
      number(quantityWords(line.quantity, line.unit)),
      inStock > 0 && h('small', {}, ` ${quantityWords(inStock, line.unit)} in stock`),
    ],
    number(toOrder === 0 ? 'none' : bothWords(toOrder, line.unit)),
    orderDayWords(order),
    number(priceWords(order, facts.result.build.currency)),
    '☐',
    '☐',
  );
}

/** `€412.50`; a word where there is no price, a dash where nothing is to order. */
export function priceWords({ costMinor, toOrder }: OrderLine, currency: string): string {
  if (toOrder === 0) return '–';
  return costMinor === null ? 'no price' : money(costMinor, currency);
}

/** `Tue 20 Apr 16:29`, with a word where the day has gone by. */
export function orderDayWords({ line, orderBy, toOrder, late }: OrderLine): string {
  if (toOrder === 0) return '–';
  if (line.leadDays === null) return 'lead time not known';
  if (orderBy === null) return 'not placed';
  const by = orderBy.length > 10 ? dayClock(orderBy) : shortDay(orderBy);
  return late ? `${by}, late` : by;
}

const UNIT_WORDS = { m2: 'm²', m: 'm', kg: 'kg', m3: 'm³', piece: 'pc' } as const;

export const quantityWords = (quantity: number, unit: keyof typeof UNIT_WORDS): string =>
  `${plain(quantity, 2)} ${UNIT_WORDS[unit]}`;

/** `4.2 m² (45.2 ft²)`; pieces are counted the same everywhere. */
export function bothWords(quantity: number, unit: keyof typeof UNIT_WORDS): string {
  const us = customaryQuantity(quantity, unit);
  const metric = quantityWords(quantity, unit);
  return us === null ? metric : `${metric} (${plain(us.quantity)} ${us.unit})`;
}
