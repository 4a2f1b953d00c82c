/** The kit against the shelf: what is there, what to order, by which day, and the list as CSV. */
import type { FullBuild, PlanResult } from '../document/schema.ts';
import { UNITS, type Measure } from '../units/convert.ts';
import { minorDigits } from '../units/words.ts';
import type { KitLine } from './types.ts';

export interface OrderLine {
  readonly line: KitLine;
  readonly inStock: number;
  /** Rounded up to what can be bought; 0 when the shelf holds enough. */
  readonly toOrder: number;
  /** null: something is to order and has no price. */
  readonly costMinor: number | null;
  /** Day on which it is first used, YYYY-MM-DD; null: not placed. */
  readonly neededOn: string | null;
  /**
   * Last working hour at which to order, YYYY-MM-DDTHH:MM, or the day alone where no supplier is named;
   * null when nothing is to order, or no day or lead time is known.
   */
  readonly orderBy: string | null;
  /** The day to order has gone by. */
  readonly late: boolean;
}

/**
 * What to order, and by when: the lead time before the day of need, on a working day.
 * @param neededOn day on which a line is first used, or null while nothing is placed
 * @param now YYYY-MM-DDTHH:MM in the build's zone; the day alone will do where no hour is known
 * @param closed days on which suppliers do not work, YYYY-MM-DD
 * @param orderHour the last working hour at which a line can be ordered, where the plan has its order
 * @throws RangeError when the stock holds less than nothing
 */
export function orderLines(
  lines: readonly KitLine[],
  stock: FullBuild['stock'],
  neededOn: (line: KitLine) => string | null,
  now: string,
  closed: ReadonlySet<string> = new Set(),
  orderHour: (line: KitLine) => string | null = () => null,
): OrderLine[] {
  return lines.map((line) => {
    const inStock = inStockOf(line, stock);
    const toOrder = toOrderOf(line, stock);
    const needed = neededOn(line);
    const { leadDays } = line;
    const known = toOrder > 0 && needed !== null && leadDays !== null;
    const hour = toOrder > 0 ? orderHour(line) : null;
    const orderBy = hour ?? (known ? workdayBefore(needed, leadDays, closed) : null);
    const costMinor = toOrder === 0 ? 0 : costFor(line, toOrder);
    return {
      line,
      inStock,
      toOrder,
      costMinor,
      neededOn: needed,
      orderBy,
      late: orderBy !== null && orderBy < now.slice(0, orderBy.length),
    };
  });
}

function inStockOf({ id }: KitLine, stock: FullBuild['stock']): number {
  return stock
    .filter(({ row }) => row === id)
    .reduce((sum, { row, quantity }) => {
      if (!(quantity >= 0))
        throw new RangeError(`stock of ${row}: found ${quantity}, expected 0 or more`);
      return sum + quantity;
    }, 0);
}

/**
 * What is to order of a line, rounded up to what can be bought; 0 when the shelf holds enough.
 * @throws RangeError when the stock holds less than nothing
 */
export function toOrderOf(line: KitLine, stock: FullBuild['stock']): number {
  const missing = Math.max(0, line.quantity - inStockOf(line, stock));
  return missing > 0 ? Math.ceil(missing / line.step - 1e-6) * line.step : 0;
}

const costFor = ({ costMinor, quantity }: KitLine, toOrder: number): number | null =>
  costMinor === null ? null : Math.round((toOrder / quantity) * costMinor);

/** What has a price, minor units: what is still to order, and all of it. */
export function orderTotals(orders: readonly OrderLine[]): {
  readonly toOrderMinor: number;
  readonly wholeMinor: number;
} {
  return {
    toOrderMinor: orders.reduce((sum, { costMinor }) => sum + (costMinor ?? 0), 0),
    wholeMinor: orders.reduce((sum, { line }) => sum + (line.costMinor ?? 0), 0),
  };
}

const DAY_MS = 86_400_000;

/**
 * The last working day on which an order still arrives in time. Lead days run through weekends and
 * pass over closed days; an order is placed on no Saturday, Sunday or closed day.
 */
function workdayBefore(day: string, days: number, closed: ReadonlySet<string>): string {
  let time = Date.parse(`${day}T00:00Z`);
  const name = () => new Date(time).toISOString().slice(0, 10);
  const isClosed = () => closed.has(name());
  for (let left = days; left > 0;) {
    time -= DAY_MS;
    if (!isClosed()) left -= 1;
  }
  while (isClosed() || [0, 6].includes(new Date(time).getUTCDay())) time -= DAY_MS;
  return name();
}

/** null: counted, or in no customary unit. */
export const MEASURE_OF_UNIT: Readonly<Record<KitLine['unit'], Measure | null>> = {
  m2: 'areaM2',
  m: 'lengthM',
  kg: 'massKg',
  piece: null,
  m3: null,
};

/** A quantity in US customary units; null where pieces are counted. */
export function customaryQuantity(
  quantity: number,
  unit: KitLine['unit'],
): { quantity: number; unit: string } | null {
  const measure = MEASURE_OF_UNIT[unit];
  const customary = measure ? UNITS[measure][1] : undefined;
  return customary ? { quantity: quantity / customary.factor, unit: customary.symbol } : null;
}

export interface CsvStyle {
  readonly separator: ',' | ';';
  readonly decimal: '.' | ',';
}

/**
 * The shopping list as CSV, metric and US customary side by side: RFC 4180 quoting, lines end CRLF,
 * no cell that a spreadsheet would run as a formula.
 */
export function orderCsv(
  orders: readonly OrderLine[],
  currency: string,
  style: CsvStyle = { separator: ',', decimal: '.' },
): string {
  const digits = minorDigits(currency);
  const number = (value: number, decimals: number): string =>
    value.toFixed(decimals).replace('.', style.decimal);
  const header = [
    'id',
    'item',
    'group',
    'needed',
    'unit',
    'needed (US)',
    'unit (US)',
    'in stock',
    'to order',
    'order by',
    'needed on',
    'lead time (days)',
    `price (${currency})`,
    'bought as',
  ];
  const rows = orders.map((order) => {
    const { line } = order;
    const us = customaryQuantity(line.quantity, line.unit);
    return [
      line.id,
      line.name,
      line.group,
      number(line.quantity, 2),
      line.unit,
      us ? number(us.quantity, 2) : '',
      us?.unit ?? '',
      number(order.inStock, 2),
      number(order.toOrder, 2),
      order.orderBy ?? '',
      order.neededOn ?? '',
      line.leadDays === null ? '' : String(line.leadDays),
      order.costMinor === null ? '' : number(order.costMinor / 10 ** digits, digits),
      line.detail ?? '',
    ];
  });
  return [header, ...rows]
    .map(
      (cells) => `${cells.map((cell) => csvCell(cell, style.separator)).join(style.separator)}\r\n`,
    )
    .join('');
}

function csvCell(text: string, separator: string): string {
  // A leading apostrophe keeps a spreadsheet from reading text as a formula; numbers stay numbers.
  const safe =
    /^[=+@\uff1d\uff0b\uff0d\uff20\t\r\n]/.test(text) || /^-(?![\d.,]+$)/.test(text)
      ? `'${text}`
      : text;
  return /["\r\n]/.test(safe) || safe.includes(separator)
    ? `"${safe.replaceAll('"', '""')}"`
    : safe;
}

/** Lines of which something that an order needs is not known. */
export const unknownsOf = (
  kit: readonly KitLine[],
): Pick<PlanResult['totals'], 'unpricedLines' | 'linesWithoutLeadTime'> => ({
  unpricedLines: kit.filter(({ costMinor }) => costMinor === null).length,
  linesWithoutLeadTime: kit.filter(({ leadDays }) => leadDays === null).length,
});
