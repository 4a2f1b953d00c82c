/**
 * Sheets on a roll of cloth. x runs across the roll, y along it; all in mm. Cloth is never turned: its
 * angle is part of the laminate.
 */

export interface Rectangle {
  readonly id: string;
  readonly acrossMm: number;
  readonly alongMm: number;
}

export interface PlacedRectangle extends Rectangle {
  readonly xMm: number;
  readonly yMm: number;
}

export interface RollUse {
  /** Length taken off the roll. */
  readonly lengthMm: number;
  readonly placed: readonly PlacedRectangle[];
  /** Ids of pieces wider than the roll, left out. */
  readonly tooWide: readonly string[];
}

/**
 * Lays rectangles on a roll. Two rules, each with several orders; the shortest is kept: shelves across
 * the roll, and lowest place along the edge of what lies already. First-fit decreasing height on shelves
 * stays within 1.7 times the shortest plus one piece: Coffman, Garey, Johnson and Tarjan, SIAM J.
 * Comput. 9 (1980) 808 (from memory).
 */
export function packOnRoll(pieces: readonly Rectangle[], rollWidthMm: number): RollUse {
  const fitting = pieces.filter((piece) => piece.acrossMm <= rollWidthMm + SLACK_MM);
  const tooWide = pieces.filter((p) => !fitting.includes(p)).map((piece) => piece.id);
  let best: Packing | null = null;
  for (const order of ORDERS) {
    const sorted = fitting.toSorted(order);
    const ways = [shelves(sorted, rollWidthMm)];
    if (sorted.length <= MOST_FITTED) ways.push(alongEdge(sorted, rollWidthMm));
    for (const way of ways) if (!best || way.lengthMm < best.lengthMm - SLACK_MM) best = way;
  }
  return { ...best!, tooWide };
}

interface Packing {
  readonly lengthMm: number;
  readonly placed: readonly PlacedRectangle[];
}

const ORDERS: readonly ((a: Rectangle, b: Rectangle) => number)[] = [
  (a, b) => b.alongMm - a.alongMm || b.acrossMm - a.acrossMm,
  (a, b) => b.acrossMm - a.acrossMm || b.alongMm - a.alongMm,
  (a, b) => b.acrossMm * b.alongMm - a.acrossMm * a.alongMm,
];

/** Pieces up to this count are also fitted one by one. */
const MOST_FITTED = 120;

/** A stretch of the edge of what lies on the roll. */
interface EdgeStretch {
  readonly xMm: number;
  readonly acrossMm: number;
  readonly yMm: number;
}

/** Each piece where it reaches least far along the roll. */
function alongEdge(pieces: readonly Rectangle[], rollWidthMm: number): Packing {
  let edge: EdgeStretch[] = [{ xMm: 0, acrossMm: rollWidthMm, yMm: 0 }];
  let lengthMm = 0;
  const placed = pieces.map((piece): PlacedRectangle => {
    const { xMm, yMm } = lowestPlace(edge, piece.acrossMm, rollWidthMm);
    edge = raised(edge, xMm, piece.acrossMm, yMm + piece.alongMm);
    lengthMm = Math.max(lengthMm, yMm + piece.alongMm);
    return { ...piece, xMm, yMm };
  });
  return { lengthMm, placed };
}

function lowestPlace(
  edge: readonly EdgeStretch[],
  acrossMm: number,
  rollWidthMm: number,
): { xMm: number; yMm: number } {
  let best = { xMm: 0, yMm: Infinity };
  for (let i = 0; i < edge.length; i++) {
    const xMm = edge[i]!.xMm;
    if (xMm + acrossMm > rollWidthMm + SLACK_MM) break;
    let yMm = 0;
    for (let k = i; k < edge.length && edge[k]!.xMm < xMm + acrossMm - SLACK_MM; k++) {
      yMm = Math.max(yMm, edge[k]!.yMm);
    }
    if (yMm < best.yMm) best = { xMm, yMm };
  }
  return best;
}

/** The edge with one stretch of it moved up. */
function raised(
  edge: readonly EdgeStretch[],
  fromMm: number,
  acrossMm: number,
  yMm: number,
): EdgeStretch[] {
  const toMm = fromMm + acrossMm;
  const result: EdgeStretch[] = [];
  let put = false;
  for (const stretch of edge) {
    const end = stretch.xMm + stretch.acrossMm;
    if (stretch.xMm < fromMm - SLACK_MM) {
      result.push({ ...stretch, acrossMm: Math.min(end, fromMm) - stretch.xMm });
    }
    if (!put && end > fromMm + SLACK_MM) {
      result.push({ xMm: fromMm, acrossMm, yMm });
      put = true;
    }
    if (end > toMm + SLACK_MM) {
      const xMm = Math.max(stretch.xMm, toMm);
      result.push({ xMm, acrossMm: end - xMm, yMm: stretch.yMm });
    }
  }
  return result;
}

/** Rounding of sizes in mm never pushes a piece off the roll. */
export const SLACK_MM = 1e-6;

/** The last so many shelves are tried for room; older ones are taken as full. */
const MOST_OPEN = 60;

/** A slot of one shelf, filled along the roll. */
interface Slot {
  readonly xMm: number;
  readonly acrossMm: number;
  filledMm: number;
}

interface Shelf {
  readonly yMm: number;
  readonly alongMm: number;
  readonly slots: Slot[];
  usedMm: number;
}

function shelves(pieces: readonly Rectangle[], rollWidthMm: number): Packing {
  const list: Shelf[] = [];
  let lengthMm = 0;
  const placed = pieces.map((piece): PlacedRectangle => {
    for (const shelf of list.slice(-MOST_OPEN)) {
      const slot = slotFor(shelf, piece, rollWidthMm);
      if (slot) return put(piece, slot, shelf);
    }
    const shelf: Shelf = { yMm: lengthMm, alongMm: piece.alongMm, slots: [], usedMm: 0 };
    lengthMm += piece.alongMm;
    list.push(shelf);
    return put(piece, slotFor(shelf, piece, rollWidthMm)!, shelf);
  });
  return { lengthMm, placed };
}

function slotFor(shelf: Shelf, piece: Rectangle, rollWidthMm: number): Slot | null {
  for (const slot of shelf.slots) {
    const fits =
      piece.acrossMm <= slot.acrossMm + SLACK_MM &&
      slot.filledMm + piece.alongMm <= shelf.alongMm + SLACK_MM;
    if (fits) return slot;
  }
  const room = rollWidthMm - shelf.usedMm;
  if (piece.acrossMm > room + SLACK_MM || piece.alongMm > shelf.alongMm + SLACK_MM) return null;
  const slot = { xMm: shelf.usedMm, acrossMm: piece.acrossMm, filledMm: 0 };
  shelf.usedMm += piece.acrossMm;
  shelf.slots.push(slot);
  return slot;
}

function put(piece: Rectangle, slot: Slot, shelf: Shelf): PlacedRectangle {
  const yMm = shelf.yMm + slot.filledMm;
  slot.filledMm += piece.alongMm;
  return { ...piece, xMm: slot.xMm, yMm };
}
