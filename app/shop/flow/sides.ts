/** Sheets onto sides of paper: in order, nothing cut through, every side as full as that allows. */
import { h, type SheetNode } from '../tree.ts';
import { restOfSheet, wrapSheet, type Sheet } from '../parts.ts';
import { bodyRows, heightMm, tablePieces } from './measure.ts';
import { roomOf, type Paper } from './paper.ts';

export interface Side {
  readonly landscape: boolean;
  /** What stands on it, in order; a sheet that goes on from the side before is there again. */
  readonly sheets: readonly Sheet[];
  readonly pieces: readonly SheetNode[];
  readonly usedMm: number;
  readonly roomMm: number;
}

/** Under this share of its room a side is not left, except the last. */
export const LEAST_FILL = 1 / 3;
/** Between two sheets on one side; days follow closer. */
export const BETWEEN_MM = 3;
export const BETWEEN_DAYS_MM = 1.7;

interface Open {
  readonly landscape: boolean;
  readonly sheets: Sheet[];
  readonly pieces: SheetNode[];
  usedMm: number;
}

/** @returns the sides in printing order; none for no sheets */
export function sidesOf(sheets: readonly Sheet[], paper: Paper): Side[] {
  const flow = new Flow(paper);
  for (const sheet of inGoodOrder(sheets, paper, flow)) flow.put(sheet);
  return flow.sides();
}

/** Lists and books begin where the side before leaves room, and break between their rows. */
const FLOWS: ReadonlySet<Sheet['kind']> = new Set(['holds', 'shopping', 'plies', 'bags']);

/** A card may change places with another where that fills sides; days and books keep their order. */
const MOVES: ReadonlySet<Sheet['kind']> = new Set(['go', 'mix', 'cure']);

function* inGoodOrder(sheets: readonly Sheet[], paper: Paper, flow: Flow): Generator<Sheet> {
  const cards = sheets.filter(({ kind }) => MOVES.has(kind));
  yield* withList(
    sheets.filter(({ kind }) => !MOVES.has(kind)),
    flow,
  );
  if (cards.length === 0) return;
  const { heightMm: room, widthMm } = roomOf(paper, false);
  const sized = cards.map((sheet, i): Sized => {
    const mm = heightMm(sheet.body, widthMm);
    return { sheet, i, mm, lastMm: mm > room ? lastSideMm(sheet, room, widthMm) : mm };
  });
  yield* filled(sized, room, flow.leftMm()).flatMap((side) => side.map(({ sheet }) => sheet));
}

/** A sheet that may stand either way is put under the first level one that leaves room, else upright in its turn. */
function* withList(sheets: readonly Sheet[], flow: Flow): Generator<Sheet> {
  const list = sheets.find(({ upright }) => upright !== null);
  let isPut = false;
  for (const sheet of sheets) {
    if (sheet === list) {
      if (!isPut) yield flow.fits(list) ? list : list.upright!;
      isPut = true;
      continue;
    }
    if (!isPut && list !== undefined && !flow.fits(sheet) && flow.fits(list)) {
      isPut = true;
      yield list;
    }
    yield sheet;
  }
}

interface Sized {
  readonly sheet: Sheet;
  /** Its place in the order of the plan. */
  readonly i: number;
  readonly mm: number;
  /** What it takes of its last side: the same, unless it is longer than a side. */
  readonly lastMm: number;
}

const isLong = ({ mm, lastMm }: Sized): boolean => mm > lastMm;

/** Of a sheet that begins a side and is longer than it, broken between its blocks. */
function lastSideMm(sheet: Sheet, room: number, widthMm: number): number {
  const rest = heightMm(restOfSheet(sheet, []), widthMm);
  return sheet.blocks.reduce(
    (used, block) => {
      const tall = heightMm(block, widthMm);
      return used + tall <= room ? used + tall : Math.min(room, rest + tall);
    },
    heightMm(sheet.head, widthMm),
  );
}

/**
 * Largest first, each onto the first side that still takes it (first fit decreasing); sides and what
 * stands on them then follow the order of the plan, the one begun already first.
 */
function filled(cards: readonly Sized[], room: number, begun: number): Sized[][] {
  const sides: { left: number; readonly cards: Sized[] }[] = [{ left: begun, cards: [] }];
  for (const card of [...cards].sort((a, b) => b.mm - a.mm || a.i - b.i)) {
    const need = card.lastMm + BETWEEN_MM;
    let side = isLong(card) ? undefined : sides.find(({ left }) => left >= need);
    if (side === undefined) {
      side = { left: room + BETWEEN_MM, cards: [] };
      sides.push(side);
    }
    side.left -= need;
    side.cards.push(card);
  }
  // A long one begins a side, and what shares its last side follows it.
  const [first, ...others] = sides.map((side) =>
    side.cards.sort((a, b) => Number(isLong(b)) - Number(isLong(a)) || a.i - b.i),
  );
  return [first!, ...others.sort((a, b) => a[0]!.i - b[0]!.i)];
}

class Flow {
  readonly #paper: Paper;
  readonly #done: Open[] = [];
  #open: Open | null = null;

  constructor(paper: Paper) {
    this.#paper = paper;
  }

  #room(landscape: boolean) {
    return roomOf(this.#paper, landscape);
  }

  #left(): number {
    const open = this.#open!;
    return this.#room(open.landscape).heightMm - open.usedMm;
  }

  #turn(landscape: boolean): void {
    if (this.#open !== null && this.#open.pieces.length > 0) this.#done.push(this.#open);
    this.#open = { landscape, sheets: [], pieces: [], usedMm: 0 };
  }

  fits(sheet: Sheet): boolean {
    const open = this.#open;
    if (open === null || open.landscape !== sheet.landscape) return false;
    const { widthMm } = this.#room(sheet.landscape);
    return heightMm(sheet.body, widthMm) + this.#between(sheet) <= this.#left();
  }

  #between({ kind }: Sheet): number {
    const last = this.#open!.sheets.at(-1);
    if (last === undefined) return 0;
    return kind === 'day' && last.kind === 'day' ? BETWEEN_DAYS_MM : BETWEEN_MM;
  }

  /** What is left of an upright side that is begun; nought without one. */
  leftMm(): number {
    return this.#open === null || this.#open.landscape ? 0 : this.#left();
  }

  put(sheet: Sheet): void {
    if (this.fits(sheet)) return this.#add(sheet, sheet.body);
    const { heightMm: full, widthMm } = this.#room(sheet.landscape);
    const whole = heightMm(sheet.body, widthMm);
    const open = this.#open;
    const goesOn = FLOWS.has(sheet.kind) && open?.landscape === sheet.landscape;
    const isThin =
      open !== null &&
      open.landscape === sheet.landscape &&
      open.pieces.length > 0 &&
      open.usedMm < full * LEAST_FILL;
    if (whole <= full && !isThin && !goesOn) {
      this.#turn(sheet.landscape);
      return this.#add(sheet, sheet.body);
    }
    const beginsSide = MOVES.has(sheet.kind) && whole > full && !isThin;
    if (open === null || open.landscape !== sheet.landscape || beginsSide)
      this.#turn(sheet.landscape);
    this.#spread(sheet);
  }

  #add(sheet: Sheet, piece: SheetNode): void {
    const open = this.#open!;
    open.usedMm += this.#between(sheet) + heightMm(piece, this.#room(open.landscape).widthMm);
    open.sheets.push(sheet);
    open.pieces.push(piece);
  }

  /** Longer than a side, or the side before it too empty to be left: broken between its blocks. */
  #spread(sheet: Sheet): void {
    const { widthMm } = this.#room(sheet.landscape);
    const blocks = [...sheet.blocks];
    let part: SheetNode[] = [];
    let used = this.#between(sheet) + heightMm(sheet.head, widthMm);
    let isFirst = true;
    const close = (): void => {
      if (part.length > 0)
        this.#add(sheet, isFirst ? wrapSheet(sheet, part) : restOfSheet(sheet, part));
      if (part.length > 0) isFirst = false;
      part = [];
      this.#turn(sheet.landscape);
      used = heightMm(restOfSheet(sheet, []), widthMm);
    };
    while (blocks.length > 0) {
      const block = blocks.shift()!;
      const tall = heightMm(block, widthMm);
      if (used + tall <= this.#left()) {
        part.push(block);
        used += tall;
        continue;
      }
      const broken = block.tag === 'table' ? breakTable(block, widthMm, this.#left() - used) : null;
      const isBare = part.length === 0 && this.#open!.pieces.length === 0;
      if (broken !== null) {
        part.push(broken.before);
        blocks.unshift(broken.after);
        close();
      } else if (isBare) {
        // Taller than a side by itself: it is put, and the check of the printed paper finds it.
        part.push(block);
        used += tall;
      } else {
        blocks.unshift(block);
        close();
      }
    }
    if (part.length > 0)
      this.#add(sheet, isFirst ? wrapSheet(sheet, part) : restOfSheet(sheet, part));
  }

  sides(): Side[] {
    if (this.#open !== null && this.#open.pieces.length > 0) this.#done.push(this.#open);
    this.#open = null;
    return this.#done.map(({ landscape, sheets, pieces, usedMm }) => ({
      landscape,
      sheets,
      pieces,
      usedMm,
      roomMm: this.#room(landscape).heightMm,
    }));
  }
}

/** Fewer rows than this do not stand alone before or after a break. */
const LEAST_ROWS = 2;

/** A table in two, its head again on the second; null where too little of it would fit. */
function breakTable(
  table: SheetNode,
  widthMm: number,
  leftMm: number,
): { readonly before: SheetNode; readonly after: SheetNode } | null {
  const rows = bodyRows(table);
  const { headMm, rowsMm } = tablePieces(table, widthMm);
  let used = headMm;
  let count = 0;
  while (count < rows.length && used + rowsMm[count]! <= leftMm) used += rowsMm[count++]!;
  count = Math.min(count, rows.length - LEAST_ROWS);
  if (count < LEAST_ROWS) return null;
  const heads = table.children.filter(
    (child) => typeof child !== 'string' && child.tag !== 'tbody',
  );
  const withRows = (some: readonly SheetNode[]): SheetNode =>
    h('table', table.attrs, heads, h('tbody', {}, some));
  return { before: withRows(rows.slice(0, count)), after: withRows(rows.slice(count)) };
}
